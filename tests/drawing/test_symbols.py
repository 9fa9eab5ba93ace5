"""Symbols of the resources as ink."""

import numpy as np
import pytest

from plan_editor.drawing.ink import Fill, Stroke
from plan_editor.drawing.symbols import circle, placed, symbol, turn_deg
from plan_editor.plan.look import Pen
from plan_editor.resources import resource

NAMES = sorted(p.stem for p in resource("symbols").glob("*.svg"))


@pytest.mark.parametrize("name", NAMES)
def test_a_symbol_lies_within_its_height(name: str) -> None:
    ink = placed(symbol(name), np.array([(10.0, 20.0)]), 4.0, Pen())
    points = np.concatenate(
        [p for i in ink for p in (i.rings if isinstance(i, Fill) else i.lines)]
    )
    assert (np.abs(points - (10.0, 20.0)) <= 2.0 + 1e-9).all()


def test_a_veteran_tree_has_its_dot_as_core() -> None:
    # a dot of radius 3 in a box of 20
    assert symbol("veteran_tree").core == pytest.approx(0.3)
    assert symbol("mark").core == pytest.approx(0.75)


def test_a_gate_opens_downwards_as_it_is_drawn() -> None:
    leaf = next(
        i
        for i in placed(symbol("gate"), np.zeros((1, 2)), 20.0, Pen())
        if isinstance(i, Stroke)
    )
    # the file has it from (-8.3, 0) to (3.4, 9), y down
    assert leaf.lines[0][1][1] < leaf.lines[0][0][1]


def test_what_faces_north_is_turned_half_round_and_what_faces_west_a_quarter() -> None:
    # the leaf of a gate opens south as it is drawn
    assert turn_deg(None) == turn_deg(180.0) == 0.0
    assert (turn_deg(0.0), turn_deg(270.0)) == (180.0, 90.0)
    at, turns = np.zeros((3, 2)), np.array([turn_deg(180.0), turn_deg(0.0), turn_deg(270.0)])
    ink = placed(symbol("gate"), at, 20.0, Pen(), turns)
    leaves = next(i for i in ink if isinstance(i, Stroke)).lines
    south, north, west = (line[1] for line in leaves)
    assert south == pytest.approx((3.4, -9.0))
    assert north == pytest.approx((-3.4, 9.0))
    assert west == pytest.approx((-9.0, -3.4))


def test_each_place_has_its_own_height() -> None:
    one, other = placed(symbol("tree"), np.zeros((2, 2)), np.array([2.0, 4.0]), Pen())[0].rings
    assert np.ptp(other[:, 0]) == pytest.approx(2 * np.ptp(one[:, 0]))


def test_a_circle_is_round() -> None:
    assert np.hypot(*(circle(1.0, 2.0, 3.0) - (1.0, 2.0)).T) == pytest.approx(3.0)
