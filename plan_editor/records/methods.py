"""How a thing is looked at: by eye, by hand, with a gauge, or by an engineer.

Bands of height of memorials are the parish's own figures; those that are usual are the
practice of councils after *Managing the Safety of Burial Ground Memorials* (Ministry of
Justice, 2009): by eye below 500 mm, by hand from there on, an engineer above 1500 mm.
"""

from dataclasses import dataclass
from typing import Any

from plan_editor.ground.parish import parish_figures
from plan_editor.kinds import building, memorial, tree, wall
from plan_editor.kinds.inspection import Result, Test
from plan_editor.kinds.memorial import MemorialDetails, MemorialForm
from plan_editor.kinds.parish import ParishDetails
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.records.safety import latest_inspections

FORCE_FROM_MM = 625.0
"""Height of a memorial from which a gauge is used where it moves but does not fall.

Source: ICCM, Management of Memorials (August 2019), for memorials of 625 to 1500 mm.
"""

CAUTION = (
    "Only trained people test. Look first; do not touch what leans, rocks or has cracked. Stand"
    " to one side, never in front of or behind a stone, and keep others away."
)

_LOW = frozenset({MemorialForm.LEDGER, MemorialForm.KERB, MemorialForm.VASE})


_LIES_LOW = "By eye: it lies low. Look for sunken edges that one may trip over."
_NOT_MEASURED = (
    "By eye only: its height is not recorded. Measure it from the turf if that can be done"
    " without touching it; the height says how it is tested."
)
_TALL = (
    "By eye only, then call a structural engineer or a memorial mason: it is higher than"
    " {:.0f} mm."
)
_SMALL = (
    "By eye: it is lower than {:.0f} mm. Where it stands at a path or children play, have it"
    " tested by hand."
)
_GAUGE = (
    "By eye, by hand, then with a gauge up to {:.0f} N if it moves but does not fall: a fault"
    " was found before."
)
_HAND = (
    "By eye, then by hand: from one side, a steady pressure in each direction. Stop at the"
    " first movement."
)
_HIGH_WALL = (
    "By eye only. It is higher than {:.0f} mm: where it leans, bulges or has cracked, call a"
    " structural engineer. Never push a wall."
)

_SAYS = {
    tree.KIND.name: "By eye from the ground, all round: dead wood, cracks, fungus, soil that"
    " lifts. Call a tree inspector where you doubt; only trained people climb.",
    building.KIND.name: "By eye from the ground: slates, gutters, copings, cracks. Call the"
    " inspecting architect where you doubt; do not go up.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """How a thing is to be looked at.

    Args:
        test: the most that is done without calling somebody else.
        says: in a sentence or two, for the form and the round.
        source: on whose word.
        caution: what goes with it.
    """

    test: Test
    says: str
    source: str
    caution: str = CAUTION

    @property
    def calls_an_engineer(self) -> bool:
        """Whether somebody qualified is to be called before anything is touched."""
        return self.test is Test.ENGINEER


_FOUND_UNSAFE = (
    "By eye only, from outside the barrier: it was found unsafe. Do not touch it. Look at the"
    " barrier, the notice and any props; a mason or an engineer does the rest."
)
"""Whatever its height: what was found unsafe, or is only made safe for now, is not pushed."""


def method_for(plan: Plan, item: Item[Any], *, on: str = "") -> Method:
    """Return how a thing is to be looked at, by its kind, its height and what was found last.

    Args:
        plan: the plan, with the parish's own figures.
        item: the thing; one that is never inspected is looked at by eye.
        on: ISO date of the day in question; empty for no end.
    """
    figures = parish_figures(plan)
    if item.kind == memorial.KIND:
        latest = latest_inspections(plan, on=on).get(item.id)
        result = None if latest is None else latest.details.result
        return _of_stone(item.details, figures, result)
    if item.kind == wall.KIND:
        return _of_wall(item.details.height_m, figures)
    says = _SAYS.get(item.kind.name, "By eye, and by using it as people do.")
    return Method(test=Test.VISUAL, says=says, source="Common practice.")


def _of_stone(told: MemorialDetails, figures: ParishDetails, result: Result | None) -> Method:
    if result in (Result.IMMEDIATE, Result.MADE_SAFE):
        test, says = Test.VISUAL, _FOUND_UNSAFE
    else:
        test, says = _by_height(told, figures, result)
    return Method(test=test, says=says, source=figures.inspection_source)


def _by_height(
    told: MemorialDetails, figures: ParishDetails, result: Result | None
) -> tuple[Test, str]:
    if told.form in _LOW:
        return Test.VISUAL, _LIES_LOW
    if told.height_m is None:
        return Test.VISUAL, _NOT_MEASURED
    tall_mm = round(told.height_m * 1000, 3)
    if tall_mm > figures.engineer_height_mm:
        return Test.ENGINEER, _TALL.format(figures.engineer_height_mm)
    if tall_mm < figures.test_height_mm:
        return Test.VISUAL, _SMALL.format(figures.test_height_mm)
    if result is Result.MINOR and tall_mm >= FORCE_FROM_MM:
        return Test.FORCE, _GAUGE.format(figures.test_force_n)
    return Test.HAND, _HAND


def _of_wall(height_m: float | None, figures: ParishDetails) -> Method:
    source = "Common practice; the parish's own height above which an engineer is asked."
    if height_m is not None and round(height_m * 1000, 3) > figures.engineer_height_mm:
        says = _HIGH_WALL.format(figures.engineer_height_mm)
        return Method(test=Test.ENGINEER, says=says, source=source)
    says = "By eye from both sides: leaning, bulges, cracks, roots. Never push a wall."
    return Method(test=Test.VISUAL, says=says, source=source)
