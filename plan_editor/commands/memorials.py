"""Memorials that are asked for, as lines of a list, and the stone that is fixed."""

from dataclasses import dataclass, replace
from typing import Any

from plan_editor.commands.register import new_entry
from plan_editor.commands.today import today
from plan_editor.edits.basic import Add
from plan_editor.edits.chosen import called_on
from plan_editor.edits.memorials import FixStone
from plan_editor.plan.detail import Detail
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import kind_of_ours
from plan_editor.plan.plan import Plan
from plan_editor.records.answer_words import by_verdict, comes_of
from plan_editor.records.memorial_answers import answers

CAUTION = (
    "The chancellor's regulations bind, not the figures on this plan. Outside them only a"
    " faculty allows a memorial: ask the diocesan registry."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ApplicationLine:
    """An application in the list: the grave, when it was received, what was decided."""

    item: ItemId
    grave: str
    received: str
    decision: str


def application_lines(plan: Plan) -> tuple[ApplicationLine, ...]:
    """Return every application, those not fixed first, the latest first."""
    there = plan.by_kind.get("application", {}).values()
    ordered = sorted(there, key=lambda i: i.details.received, reverse=True)
    ordered.sort(key=lambda i: bool(i.details.fixed))
    return tuple(_line(plan, item) for item in ordered)


def application_on(plan: Plan, item: ItemId | None) -> Item[Any] | None:
    """Return an application by its id; None of anything else."""
    found = None if item is None else plan.items.get(item)
    return found if found is not None and found.kind.name == "application" else None


def answer_told(plan: Plan, asked: Item[Any]) -> tuple[str, str]:
    """Return what comes of an application, and by what: a sentence, and lines by verdict."""
    found = answers(plan, asked, today())
    return comes_of(found), "\n".join(by_verdict(found))


def new_application() -> tuple[Edit, Item[Any]]:
    """Return the edit that adds an application of today, and the application."""
    _, bare = new_entry(kind_of_ours("application"))
    item = replace(bare, details=replace(bare.details, received=today()))
    return Add((item,)), item


def fixing_fields() -> tuple[Detail, ...]:
    """Return what is asked when a stone was fixed."""
    return tuple(d for d in kind_of_ours("application").entries() if d.name == "fixed")


def fixing(plan: Plan, asked: Item[Any], values: dict[str, Any]) -> Edit:
    """Return the edit that puts the stone of an application on the plan."""
    grave = asked.details.grave
    called = called_on(plan, (grave,)) if grave else "a grave"
    return FixStone(application=asked.id, fixed=values["fixed"], called=called)


def _line(plan: Plan, item: Item[Any]) -> ApplicationLine:
    details = item.details
    space = None if details.grave is None else plan.items[details.grave]
    return ApplicationLine(
        item=item.id,
        grave="no grave yet" if space is None else space.number or space.called(),
        received=details.received,
        decision="fixed" if details.fixed else str(details.decision),
    )
