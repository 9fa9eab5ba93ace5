"""Pieces into which the ground is divided: grass, and the sections of the register."""

from collections.abc import Iterator
from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan

DIVIDING = ("grass", "section")
"""The names of the kinds whose pieces ought to meet and not to lie over one another."""

BROAD_M = 0.5
"""What is no broader on average was not meant: pedestrian mowers cut 0.46 to 0.53 m."""

FINE_M = 0.02
"""What is no broader on average is left by rounding, and by curves drawn with chords."""

LEAST_M2 = 0.05
"""What is smaller is passed over."""

BETWEEN = (
    "path", "steps", "building", "wall", "fence", "hedge", "watercourse", "well", "vault",
)  # fmt: skip
"""The names of kinds that may rightly lie between two pieces."""


def families(plan: Plan) -> Iterator[tuple[Item[Any], ...]]:
    """Return the pieces of each kind that divides the ground, where there are two or more."""
    for name in DIVIDING:
        pieces = tuple(i for i in plan.by_kind.get(name, {}).values() if i.shape is not None)
        if len(pieces) > 1:
            yield pieces


def between(plan: Plan) -> BaseGeometry:
    """Return the ground of everything that may rightly lie between two pieces."""
    found = [
        _ground_of(item)
        for name in BETWEEN
        for item in plan.by_kind.get(name, {}).values()
        if item.shape is not None
    ]
    return shapely.union_all(found)


def _ground_of(item: Item[Any]) -> BaseGeometry:
    half = item.kind.width_m(item.details) / 2 if item.form is not Form.AREA else 0.0
    ground: BaseGeometry = item.lies.buffer(half + FINE_M)
    return ground
