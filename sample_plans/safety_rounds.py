"""Rounds of inspection: the spring of 2026, an earlier one, and what followed from them."""

from dataclasses import dataclass, field
from typing import Any

from shapely import Point, Polygon
from stones import Stone, memorial_id, stones
from story import TAPED, dice, made

from plan_editor.kinds import cordon, inspection, works
from plan_editor.kinds.cordon import CordonDetails
from plan_editor.kinds.inspection import InspectionDetails, Result, Test
from plan_editor.kinds.memorial import MemorialForm
from plan_editor.kinds.works import Progress, WorksDetails
from plan_editor.plan.item import Item

INSPECTOR = "Trained inspector, with two wardens"
SATURDAYS = ("2026-03-07", "2026-03-14", "2026-03-21", "2026-03-28")
ROUND = "ABCDEHJQRT"
"""Rows inspected in March 2026; the others are due in 2027."""

UNSAFE = {
    "C 12": "Rocks at the base; leans 9° to the east. Fenced off the same day.",
    "C 13": "Loose on its base.",
    "C 15": "Split across the foot; the upper part moves.",
    "E 8": "Leans 14° towards the next stone.",
    "E 9": "Ivy to the top; moves when pushed. Height not measured.",
    "J 7": "The dowel has gone; the stone lifts off its base.",
    "L 6": "Cross loose in its socket.",
    "Q 6": "Leans 11° to the south.",
    "W 11": "Dowel missing; moves on its slab at 100 N.",
}
"""What was found at the memorials that call for immediate action."""

MENDED = "F 7"
"""This one failed in 2024, was set again in 2025, and passed in 2026."""

_FAULTS = (
    "Joint at the base open; point it up.",
    "Leans 3°; look again.",
    "Lichen over a crack; look again.",
    "Ivy at the foot; cut it back.",
    "Surface flaking at the foot.",
)
_RADIUS_M = 2.6


def inspections() -> tuple[Item[Any], ...]:
    """Return the inspections, the earlier round first, in walking order."""
    looked_at = [s for s in stones() if _in_the_round(s)]
    return (
        _inspection("2024", _earlier(MENDED, Result.IMMEDIATE, "Moves when pushed.")),
        _inspection("2024", _earlier("C 12", Result.MINOR, "Leans 4°; look again.")),
        _inspection("2024", _earlier("J 7", Result.SOUND, "")),
        *(
            _inspection("2026", _found(stone, n, len(looked_at)))
            for n, stone in enumerate(looked_at)
        ),
    )


def follow_up() -> tuple[Item[Any], ...]:
    """Return the cordon and the works that followed."""
    stone = next(s for s in stones() if s.key == "C 12")
    fenced = Point(stone.rectangle.centre).buffer(_RADIUS_M, quad_segs=2)
    return (
        made(
            cordon.KIND,
            "C 12",
            Polygon(fenced.exterior),
            details=CordonDetails(
                target=memorial_id("C 12"),
                since="2026-03-14",
                notice="2026-03-14",
                barrier="Chestnut paling, with a notice",
                looked_at="2026-05-09",
                remarks="Does not reach as far as the rule asks; more paling is on order.",
            ),
            basis=TAPED,
        ),
        _work(MENDED, "Set again on a ground anchor", Progress.DONE, done="2025-06-12"),
        _work("C 12", "Lay flat, or set again if the family is found", Progress.LEAVE_ASKED),
        _work("J 7", "New dowel and base", Progress.ORDERED, due="2026-06-30"),
    )


def _in_the_round(stone: Stone) -> bool:
    return stone.space.row.letter in ROUND or stone.key in UNSAFE or stone.key == MENDED


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    key: str
    details: InspectionDetails = field(default_factory=InspectionDetails)


def _inspection(when: str, found: _Found) -> Item[Any]:
    return made(inspection.KIND, f"{when} {found.key}", details=found.details)


def _earlier(key: str, result: Result, action: str) -> _Found:
    return _Found(
        key=key,
        details=InspectionDetails(
            target=memorial_id(key),
            date="2024-04-20",
            test=Test.HAND,
            result=result,
            inspector=INSPECTOR,
            action=action,
            next_due="2025-04-20" if result is not Result.SOUND else "2029-04-20",
        ),
    )


def _found(stone: Stone, n: int, count: int) -> _Found:
    date = SATURDAYS[n * len(SATURDAYS) // count]
    chance = dice(f"inspection {stone.key}")
    result, action = _result(stone, chance.random(), chance.choice(_FAULTS))
    test = _test(stone)
    return _Found(
        key=stone.key,
        details=InspectionDetails(
            target=memorial_id(stone.key),
            date=date,
            test=test,
            result=result,
            force_n=100.0 if stone.key == "W 11" else None,
            inspector=INSPECTOR,
            action=action,
            next_due=_due(date, result),
        ),
    )


def _result(stone: Stone, chance: float, fault: str) -> tuple[Result, str]:
    if stone.key in UNSAFE:
        return Result.IMMEDIATE, UNSAFE[stone.key]
    if stone.key != MENDED and chance < 0.14:
        return Result.MINOR, fault
    return Result.SOUND, ""


def _test(stone: Stone) -> Test:
    """Return how it was tested: under half a metre by eye, above 1.5 m by an engineer."""
    height = stone.details.height_m
    if stone.key == "W 11":
        return Test.FORCE
    if stone.details.form in (MemorialForm.CHEST_TOMB, MemorialForm.LEDGER):
        return Test.VISUAL
    if height is not None and height < 0.5:
        return Test.VISUAL
    return Test.ENGINEER if height is not None and height > 1.5 else Test.HAND


def _due(date: str, result: Result) -> str:
    years = {Result.IMMEDIATE: 0, Result.MINOR: 1, Result.SOUND: 5}[result]
    return f"{int(date[:4]) + years}{date[4:]}"


def _work(
    key: str, what: str, progress: Progress, *, due: str = "", done: str = ""
) -> Item[Any]:
    return made(
        works.KIND,
        f"{key} {what}",
        details=WorksDetails(
            what=what,
            target=memorial_id(key),
            progress=progress,
            due=due,
            done=done,
            done_by="A mason" if done else "",
            leave="Archdeacon's consent" if progress is Progress.DONE else "",
        ),
    )
