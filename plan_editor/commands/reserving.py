"""Spaces reserved by faculty, and released, as menus, sections and the command line ask."""

from dataclasses import dataclass
from typing import Any

from plan_editor.commands.today import today
from plan_editor.edits.chosen import called_on
from plan_editor.edits.reserving import ReleaseSpace, ReserveSpace
from plan_editor.errors import CannotUse
from plan_editor.plan.detail import Detail
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import kind_of_ours
from plan_editor.plan.plan import Plan

CAUTION = (
    "Only a faculty of the consistory court reserves a space; the plan records it and grants"
    " nothing. Where plan and faculty differ the faculty holds."
)


_ASKED = ("faculty", "granted", "expires", "term_years", "held_for", "papers")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReservationLine:
    """A reservation in the list: the space, the faculty, and when it ends or what became."""

    item: ItemId
    space: str
    faculty: str
    ends: str


def reserve(plan: Plan, space: ItemId, *, faculty: str, until: str) -> ReserveSpace:
    """Return the edit that reserves a space.

    Args:
        plan: the plan.
        space: what is reserved.
        faculty: its number.
        until: ISO date of its last day.

    Raises:
        CannotUse: that day is over.
    """
    _check_day(until)
    details = kind_of_ours("reservation").details(faculty=faculty.strip(), expires=until)
    return ReserveSpace(space=space, details=details, called=called_on(plan, (space,)))


def reserving_fields() -> tuple[Detail, ...]:
    """Return what is asked when a space is reserved."""
    known = {d.name: d for d in kind_of_ours("reservation").entries()}
    return tuple(known[name] for name in _ASKED)


def reserve_from(plan: Plan, space: ItemId, values: dict[str, Any]) -> ReserveSpace:
    """Return the edit that reserves a space.

    Args:
        plan: the plan.
        space: what is reserved.
        values: by the names of ``reserving_fields``.

    Raises:
        CannotUse: the last day is missing, or over.
    """
    if not values["expires"]:
        raise CannotUse("The last day is missing. Nothing was reserved. Give it.")
    _check_day(values["expires"])
    details = kind_of_ours("reservation").details(**values)
    return ReserveSpace(space=space, details=details, called=called_on(plan, (space,)))


def may_be_reserved(plan: Plan, item: ItemId | None) -> bool:
    """Return whether something is a space that can be reserved, if nothing hinders it."""
    found = None if item is None else plan.items.get(item)
    return found is not None and found.kind.holds_burials


def release(plan: Plan, item: ItemId | None) -> ReleaseSpace | None:
    """Return the edit that makes a space free again; None of what is no such reservation.

    One that ends in days to come was given up; one whose last day is over has lapsed.
    """
    found = None if item is None else plan.items.get(item)
    if found is None or found.kind.name != "reservation" or found.details.stage != "granted":
        return None
    space, ends = found.details.grave, found.details.expires
    return ReleaseSpace(
        reservation=found.id,
        stage=type(found.details.stage)("lapsed" if ends and ends < today() else "given up"),
        called=called_on(plan, (space,)) if space else "a space",
    )


def reservation_lines(plan: Plan) -> tuple[ReservationLine, ...]:
    """Return the reservations, those that are granted first, by the day on which they end."""
    there = plan.by_kind.get("reservation", {}).values()
    ordered = sorted(
        there, key=lambda i: (i.details.stage != "granted", i.details.expires or "9999")
    )
    return tuple(_line(plan, item) for item in ordered)


def _line(plan: Plan, item: Item[Any]) -> ReservationLine:
    details = item.details
    space = None if details.grave is None else plan.items[details.grave]
    granted = details.stage == "granted"
    return ReservationLine(
        item=item.id,
        space="no space yet" if space is None else space.number or space.called(),
        faculty=details.faculty,
        ends=details.expires if granted else str(details.stage),
    )


def _check_day(until: str) -> None:
    if until < today()[: len(until)]:
        raise CannotUse(
            f"{until} is over. Nothing was reserved. Give the last day that the faculty names."
        )
