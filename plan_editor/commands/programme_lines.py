"""The programme of works as lines of a list, and a work or a quote to be recorded."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import Any

from plan_editor.commands.forms import capital
from plan_editor.commands.size import thousands
from plan_editor.commands.today import today
from plan_editor.drawing.dates import in_words
from plan_editor.edits.basic import Add
from plan_editor.edits.chosen import called_on
from plan_editor.edits.works_wanted import MakeWorks, names_fault
from plan_editor.errors import CannotUse
from plan_editor.ground.dangers import counting
from plan_editor.plan.detail import Detail
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId, new_item
from plan_editor.plan.kind import kind_of_ours
from plan_editor.plan.plan import Plan
from plan_editor.records.programme import (
    WorkLine,
    five_yearly,
    lacks_leave,
    leave_told,
    programme,
    sums,
    works_done,
)

CAUTION = (
    "What leave a piece of work takes, the archdeacon and the registry say: ask before it is"
    " ordered. Work on a stone without leave may have to be undone."
)

_WORK_FIELDS = ("what", "target", "priority", "estimate", "due", "leave_needed", "item_no")
_QUOTE_FIELDS = ("firm", "date", "amount", "valid_until", "accepted")


class Which(Enum):
    """Which works are listed."""

    WANTED = "Wanted, by priority"
    FIVE_YEARLY = "Items of the five-yearly report"
    DONE = "Done"


_FOUND: dict[Which, Callable[[Plan, str], tuple[WorkLine, ...]]] = {
    Which.WANTED: programme,
    Which.FIVE_YEARLY: five_yearly,
    Which.DONE: works_done,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgrammeLine:
    """One work in the list.

    Args:
        item: the work.
        what: what is done to what.
        amount, running: in pounds; a dash where there is no figure.
        told: everything else that the list has no room for, a line each.
    """

    item: ItemId
    what: str
    amount: str
    running: str
    told: str


def programme_lines(plan: Plan, which: Which) -> tuple[ProgrammeLine, ...]:
    """Return works with running totals, as of today."""
    return tuple(_line(plan, x) for x in _FOUND[which](plan, today()))


def sums_told(plan: Plan, which: Which) -> tuple[tuple[str, str], ...]:
    """Return what the works of each priority come to, and all of them."""
    lines = _FOUND[which](plan, today())
    rows = [
        (
            capital(str(s.priority)) if s.priority else "Without a priority",
            f"{pounds(s.amount)}{_unknown(s.without_figure)}",
        )
        for s in sums(lines)
    ]
    return (*rows, ("Together", pounds(lines[-1].running))) if lines else ()


def work_fields() -> tuple[Detail, ...]:
    """Return what is asked of a new work, in order."""
    return _named("works", _WORK_FIELDS)


def quote_fields() -> tuple[Detail, ...]:
    """Return what is asked of a quote, in order."""
    return _named("quote", _QUOTE_FIELDS)


def add_work(values: dict[str, Any]) -> Edit:
    """Return the edit that adds a work.

    Raises:
        CannotUse: it is not said what is to be done.
    """
    if not values.get("what"):
        raise CannotUse("Nothing was recorded. Say what is to be done.")
    kind = kind_of_ours("works")
    return Add((new_item(kind, details=kind.details(**values)),))


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultFound:
    """A fault that an inspection found.

    Args:
        told: where, when and what, in a sentence.
        work: the work that was made of it; None where none was.
        edit: makes a work of it.
        makes: the work that comes of the edit.
    """

    told: str
    work: ItemId | None
    edit: Edit
    makes: ItemId


def fault_found(plan: Plan, item: ItemId) -> FaultFound | None:
    """Return the fault that the latest inspection of a thing found, or that an inspection did.

    None where it found none, or the thing is nothing that is inspected.
    """
    inspections = plan.by_kind.get("inspection", {})
    found = inspections.get(item) or counting(
        i for i in inspections.values() if i.details.target == item
    )
    if found is None or not names_fault(found.details):
        return None
    target: Any = found.details.target
    works = plan.by_kind.get("works", {}).values()
    edit = MakeWorks(inspection=found.id, called=called_on(plan, (target,)))
    return FaultFound(
        told=_fault_told(plan.items[target].called(), found.details),
        work=next((w.id for w in works if w.details.inspection == found.id), None),
        edit=edit,
        makes=edit.id,
    )


def _fault_told(thing: str, details: Any) -> str:
    when = f", {in_words(details.date)}" if details.date else ""
    action = " ".join(details.action.split())
    return f"{thing}: {details.result}{when}{f'. {action}' if action else ''}"


def add_quote(work: ItemId, values: dict[str, Any]) -> Edit:
    """Return the edit that adds a quote for a work.

    Raises:
        CannotUse: it holds no amount.
    """
    if values.get("amount") is None:
        raise CannotUse("Nothing was recorded. Give the amount of the quote.")
    kind = kind_of_ours("quote")
    return Add((new_item(kind, details=kind.details(works=work, **values)),))


def pounds(amount: float) -> str:
    """Return an amount to the whole pound, as it stands in a programme: ``£1 250``."""
    return f"£{thousands(amount)}"


def _line(plan: Plan, line: WorkLine) -> ProgrammeLine:
    details = line.work.details
    thing = None if details.target is None else plan.items[details.target].called()
    return ProgrammeLine(
        item=line.work.id,
        what=", ".join(filter(None, (details.what or line.work.kind.title, thing))),
        amount=pounds(line.amount) if line.figure != "no figure" else "–",
        running=pounds(line.running),
        told="\n".join(filter(None, _told(line))),
    )


def _told(line: WorkLine) -> tuple[str, ...]:
    details = line.work.details
    quotes = "one quote" if line.quotes == 1 else f"{line.quotes} quotes"
    due = f", by {in_words(details.due)}" if details.due else ""
    return (
        f"{capital(str(details.progress))}{due}",
        f"{capital(str(line.figure))}; {quotes if line.quotes else 'no quotes'}",
        f"Leave: {leave_told(line.work)}",
        "It is under way, and no leave for it is recorded." if lacks_leave(line.work) else "",
        f"Item {details.item_no} of the report" if details.item_no else "",
    )


def _unknown(count: int) -> str:
    return f" + {count} without a figure" if count else ""


def _named(kind: str, names: tuple[str, ...]) -> tuple[Detail, ...]:
    by_name = {d.name: d for d in kind_of_ours(kind).entries()}
    return tuple(by_name[name] for name in names)
