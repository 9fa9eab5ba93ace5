"""Every field of an item's card: those of its kind, and those that all items have."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Any

from plan_editor.edits.basic import Describe, Renumber, SetBasis, SetStatus
from plan_editor.edits.chosen import called_on
from plan_editor.errors import EditRefused
from plan_editor.plan.detail import About, Detail, Value
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, ItemId, Method, Status
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan

OF_KIND = ""
OF_BASIS = "How its place is known"

Give = Callable[[Plan, tuple[ItemId, ...], Any], Edit]
"""Makes the edit that gives a value to items.

Raises:
    EditRefused: several items cannot have one value.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One field of a card.

    Args:
        detail: what it holds; made up for what all items have.
        group: the heading that it stands under; empty for none.
        value: reads it from an item.
        give: the edit that gives it to items.
        for_many: several items may have one value.
    """

    detail: Detail
    group: str
    value: Callable[[Item[Any]], Any]
    give: Give
    for_many: bool = True


@cache
def entries_of(kind: Kind) -> tuple[Entry, ...]:
    """Return the fields of a kind's card, from top to bottom."""
    own = tuple(_own(d) for d in kind.entries() if not d.about.made)
    return (_NUMBER, *own, _STATUS, *_BASIS) if kind.drawn else own


def shared_entries(kinds: Iterable[Kind]) -> tuple[Entry, ...]:
    """Return the fields that the cards of several kinds have in common, in the first's order.

    A field is the same where it has one name, one title and one sort of value.
    """
    first, *others = (entries_of(k) for k in kinds)
    told = [{_sameness(e) for e in entries} for entries in others]
    return tuple(e for e in first if all(_sameness(e) in there for there in told))


def _sameness(entry: Entry) -> tuple[Any, ...]:
    detail = entry.detail
    told = detail.about
    return (detail.name, detail.value, detail.choices, told.title, told.unit, entry.group)


def _own(detail: Detail) -> Entry:
    name = detail.name

    def value(item: Item[Any]) -> Any:
        return getattr(item.details, name)

    def give(plan: Plan, ids: tuple[ItemId, ...], new: Any) -> Edit:
        return Describe(ids=ids, details=((name, new),), called=called_on(plan, ids))

    return Entry(detail=detail, group=OF_KIND, value=value, give=give)


def _of_basis(detail: Detail) -> Entry:
    name = detail.name

    def value(item: Item[Any]) -> Any:
        return getattr(item.basis, name)

    def give(plan: Plan, ids: tuple[ItemId, ...], new: Any) -> Edit:
        return SetBasis(ids=ids, basis=((name, new),), called=called_on(plan, ids))

    return Entry(detail=detail, group=OF_BASIS, value=value, give=give)


def _renumber(plan: Plan, ids: tuple[ItemId, ...], number: Any) -> Edit:
    if len(ids) > 1:
        raise EditRefused("Things are numbered one by one. Nothing was changed; choose one.")
    return Renumber(id=ids[0], number=number, called=called_on(plan, ids))


def _set_status(plan: Plan, ids: tuple[ItemId, ...], status: Any) -> Edit:
    return SetStatus(ids=ids, status=status, called=called_on(plan, ids))


def _detail(name: str, value: Value, told: About, choices: tuple[StrEnum, ...] = ()) -> Detail:
    optional = value is Value.NUMBER
    return Detail(
        name=name,
        value=value,
        default=None if optional else "",
        optional=optional,
        choices=choices,
        about=told,
    )


_NUMBER = Entry(
    detail=_detail(
        "number", Value.TEXT, About(title="Number", help="What people call it: C 14.")
    ),
    group=OF_KIND,
    value=lambda item: item.number,
    give=_renumber,
    for_many=False,
)

_STATUS = Entry(
    detail=_detail("status", Value.CHOICE, About(title="Status"), choices=tuple(Status)),
    group=OF_KIND,
    value=lambda item: item.status,
    give=_set_status,
)

_BASIS = tuple(
    _of_basis(detail)
    for detail in (
        _detail("method", Value.CHOICE, About(title="By"), choices=tuple(Method)),
        _detail(
            "source",
            Value.TEXT,
            About(title="From", help="The old plan, field book or file that it comes from."),
        ),
        _detail("date", Value.DATE, About(title="Measured", date=True)),
        _detail(
            "sd_m",
            Value.NUMBER,
            About(
                title="Standard deviation",
                unit="m",
                low=0.0,
                high=100.0,
                help="Two measurements in three lie within it, of east and of north alike.",
            ),
        ),
    )
)
