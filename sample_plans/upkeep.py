"""Walls, trees and paths looked at; the works that follow, what they cost and who was asked."""

from typing import Any

from stones import memorial_id
from story import id_of, made

from plan_editor.kinds import fence, gate, inspection, quote, tree, wall, works
from plan_editor.kinds.inspection import InspectionDetails, Result, Test
from plan_editor.kinds.quote import QuoteDetails
from plan_editor.kinds.works import Leave, Priority, Progress, WorksDetails
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Kind

_FIVE = "2024-06-18"
_ITEMS = {"wall south": "4.2", "fence south of gate": "4.5"}
_ARCHITECT = "The inspecting architect, five-yearly inspection"


def rounds() -> tuple[Item[Any], ...]:
    """Return what was found at other things than stones, in the last two years."""
    return (
        _looked(
            wall.KIND, "south", _FIVE, Result.MINOR, "Open joints over 6 m; repoint in lime."
        ),
        _looked(wall.KIND, "west", _FIVE, Result.SOUND, ""),
        _looked(gate.KIND, "lychgate", _FIVE, Result.SOUND, "Oil the hinges."),
        _looked(fence.KIND, "south of gate", _FIVE, Result.MINOR, "Rust at two feet."),
        _looked(tree.KIND, "1", "2025-09-03", Result.SOUND, "Hollow but sound; crown healthy."),
        _looked(
            tree.KIND, "15", "2025-09-03", Result.MINOR, "Dieback in a third of the crown."
        ),
        _looked(
            tree.KIND, "29", "2026-04-14", Result.IMMEDIATE, "Half thrown; lifts at the root."
        ),
    )


def programme() -> tuple[Item[Any], ...]:
    """Return the works that are wanted, and the quotes for them."""
    return (
        _wanted(
            "south wall",
            WorksDetails(
                what="Repoint the south wall in lime, 6 m",
                target=id_of(wall.KIND, "south"),
                inspection=id_of(inspection.KIND, f"wall south {_FIVE}"),
                leave_needed=Leave.LIST_B,
                priority=Priority.YEAR,
                item_no=_ITEMS["wall south"],
                estimate=1850.0,
                due="2026-09-30",
            ),
        ),
        _quote("south wall", 1, 1720.0, "2026-02-10"),
        _quote("south wall", 2, 2140.0, "2026-02-24"),
        _wanted(
            "crab apple",
            WorksDetails(
                what="Take down the crab apple that is half thrown",
                target=id_of(tree.KIND, "29"),
                inspection=id_of(inspection.KIND, "tree 29 2026-04-14"),
                progress=Progress.LEAVE_ASKED,
                leave_needed=Leave.LIST_B,
                priority=Priority.NOW,
                estimate=180.0,
                due="2026-05-31",
            ),
        ),
        _wanted(
            "railing",
            WorksDetails(
                what="Scrape and paint the railing",
                target=id_of(fence.KIND, "south of gate"),
                inspection=id_of(inspection.KIND, f"fence south of gate {_FIVE}"),
                leave_needed=Leave.LIST_A,
                priority=Priority.DESIRABLE,
                item_no=_ITEMS["fence south of gate"],
                estimate=650.0,
            ),
        ),
        _wanted(
            "C 15",
            WorksDetails(
                what="Dowel and refix the upper part",
                target=memorial_id("C 15"),
                leave_needed=Leave.UNKNOWN,
                priority=Priority.YEAR,
                estimate=780.0,
            ),
        ),
    )


def _looked(kind: Kind, key: str, date: str, result: Result, action: str) -> Item[Any]:
    target: ItemId = id_of(kind, key)
    by_architect = kind.name not in {"tree"}
    return made(
        inspection.KIND,
        f"{kind.name} {key} {date}",
        details=InspectionDetails(
            target=target,
            date=date,
            test=Test.VISUAL,
            result=result,
            inspector=_ARCHITECT if by_architect else "A tree surgeon",
            action=action,
            item_no=_ITEMS.get(f"{kind.name} {key}", ""),
        ),
    )


def _wanted(key: str, details: WorksDetails) -> Item[Any]:
    return made(works.KIND, key, details=details)


def _quote(work: str, n: int, amount: float, date: str) -> Item[Any]:
    return made(
        quote.KIND,
        f"{work} {n}",
        details=QuoteDetails(works=id_of(works.KIND, work), date=date, amount=amount),
    )
