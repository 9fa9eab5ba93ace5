"""How well a place is known that was traced: the fit and the pointing together."""

from dataclasses import replace
from random import Random
from statistics import pstdev

import pytest

from plan_editor.ground.traced import POINTING_PX, traced_sd
from plan_editor.kinds import base_plan
from plan_editor.kinds.base_plan import BasePlanDetails, Content
from plan_editor.plan.item import Basis, Item, new_item

FIT = (0.03, 0.04, 0.0, 0.04, -0.03, 0.0)
"""Turned and mirrored, as scans are; a pixel is 0.05 m wide."""


def scan(sd_m: float | None, **more) -> Item[BasePlanDetails]:
    """Return a scan that is placed."""
    details = BasePlanDetails(name="Plan of 1962", fit=FIT, **more)
    return replace(new_item(base_plan.KIND, details=details), basis=Basis(sd_m=sd_m))


def test_pointing_is_as_uncertain_as_misses_of_up_to_two_pixels_are() -> None:
    chance = Random(1962)  # noqa: S311  # seeded chance
    misses = [chance.uniform(-2.0, 2.0) for _ in range(200_000)]
    assert pytest.approx(pstdev(misses), rel=0.005) == POINTING_PX


def test_the_squares_of_fit_and_pointing_add() -> None:
    # 0.10² + (0.05 · 1.1547)² = 0.01 + 0.003333
    assert traced_sd(scan(0.10)) == pytest.approx(0.11547, abs=1e-4)


def test_ends_of_lines_of_a_drawing_are_caught_and_the_fit_alone_counts() -> None:
    assert traced_sd(scan(0.10, content=Content.DRAWING)) == 0.10


def test_nothing_is_claimed_where_nothing_is_known_of_the_fit() -> None:
    assert traced_sd(scan(None)) is None


def test_a_scan_that_is_not_placed_says_what_it_says() -> None:
    bare = scan(0.10)
    assert traced_sd(replace(bare, details=replace(bare.details, fit=()))) == 0.10
