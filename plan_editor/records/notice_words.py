"""What is filled in where words for a stone's family have blanks."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from plan_editor.ground.parish import parish_figures
from plan_editor.kinds import inspection, memorial, tracing
from plan_editor.kinds.inspection import Result
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.tracing import Step
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.days import days_after
from plan_editor.records.tracing import NOTICE_DAYS, found_unsafe

ON_STONE = Step.NOTICE_ON_STONE
IN_PUBLIC = Step.NOTICE_PUBLIC
BY_LETTER = Step.LETTER


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """Of what, from when and for how long a notice or letter is.

    Args:
        thing: the stone, or the grave where no stone is known; None where neither is.
        date: ISO date of the notice or letter.
        days: how long it runs.
        until: ISO date of its last day.
        found: ISO date on which the stone was found unsafe; empty where it is sound.
    """

    thing: Item[Any] | None
    date: str
    days: int
    until: str
    found: str


def terms(plan: Plan, thing: ItemId | None, step: StrEnum, date: str) -> Terms:
    """Return the terms of a notice or letter of a day.

    Where that step is recorded on that day with its days, they count; else 28 days do.
    """
    days = next(
        (
            s.details.days
            for s in plan.of(tracing.KIND)
            if (s.details.target, s.details.step, s.details.date) == (thing, step, date)
            and s.details.days is not None
        ),
        NOTICE_DAYS,
    )
    return Terms(
        thing=None if thing is None else plan.items[thing],
        date=date,
        days=days,
        until=days_after(date, days),
        found=_day_found(plan, thing, date),
    )


def stone_of(plan: Plan, owner: OwnerContactDetails) -> ItemId | None:
    """Return the stone that somebody answers for, or one on their grave, or the grave."""
    if owner.memorial is not None or owner.grave is None:
        return owner.memorial
    stones = (m for m in plan.of(memorial.KIND) if m.details.grave == owner.grave)
    return next((m.id for m in stones), owner.grave)


def stone_called(plan: Plan, found: Terms) -> str:
    """Return what a stone is called on a notice: by its number, or that of its grave."""
    if found.thing is None:
        return ""
    item = found.thing
    details = item.details
    if not item.number and isinstance(details, memorial.MemorialDetails) and details.grave:
        grave = plan.items[details.grave]
        if grave.number:
            return f"Memorial on {grave.kind.title.lower()} {grave.number}"
    return item.called() if item.number else f"The {item.kind.title.lower()}"


def blanks(plan: Plan, found: Terms, *, name: str) -> dict[str, str]:
    """Return what is filled in, by the names of ``wordings.BLANKS``; dates as ISO dates.

    Args:
        plan: the plan.
        found: the terms.
        name: of the person written to; empty unless names of living people are asked for.
    """
    figures = parish_figures(plan)
    return {
        "stone": stone_called(plan, found),
        "date": found.date,
        "until": found.until,
        "days": str(found.days),
        "parish": figures.name or plan.name,
        "diocese": figures.diocese,
        "contact": figures.enquiries.strip(),
        "name": name,
        "found": found.found,
    }


def _day_found(plan: Plan, thing: ItemId | None, on: str) -> str:
    """Return the day of the latest inspection that found a stone unsafe, or ""."""
    if thing is None or thing not in found_unsafe(plan, on):
        return ""
    failed = (
        i.details.date
        for i in plan.of(inspection.KIND)
        if i.details.target == thing and i.details.result is Result.IMMEDIATE
    )
    return max((d for d in failed if d <= on), default="")
