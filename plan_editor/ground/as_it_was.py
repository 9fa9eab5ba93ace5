"""The ground as it was on a day, by what is recorded of each thing's own dates.

This is not what the plan knew on that day: a stone of 1911 that was drawn in 2026 was there in
1911. The kinds declare which of their details tell since when and until when they are there.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from plan_editor.kinds import (
    base_plan,
    burial,
    dimension,
    note,
    observation,
    reservation,
)
from plan_editor.plan.item import Item, ItemId, Method, Status
from plan_editor.plan.kind import burial_kinds
from plan_editor.plan.plan import Plan, plan_of

ON_PAPER = frozenset(k.KIND for k in (base_plan, dimension, note, observation))
"""Kinds of which nothing lies on the ground; they are shown on every day."""

"""Kinds that are dug and used; their states are spelled alike."""


class Standing(StrEnum):
    """What the dates of a thing say about a day."""

    THERE = "there"
    NOT_THERE = "not there"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class AsItWas:
    """The ground on a day.

    Args:
        plan: without what was surely not there. What is not known is shown; a grave, ashes plot
            or vault that is not known to have been used, or kept back by a faculty, by then is
            of unknown state, unless it was there and is free to this day.
        there: things on the ground that were surely there.
        not_there: things on the ground, and records, that were surely not.
        not_known: things on the ground of which the dates do not tell.
    """

    plan: Plan
    there: tuple[ItemId, ...]
    not_there: tuple[ItemId, ...]
    not_known: tuple[ItemId, ...]


@dataclass(frozen=True, slots=True)
class _When:
    """A date that may be a month or a year, by its first and its last day."""

    first: str
    last: str


def as_it_was(plan: Plan, day: str) -> AsItWas:
    """Return the ground as it was on a day.

    A thing that is there was there since the day that its kind's ``since`` tells, and on every
    day on which it was measured, found, dug, inspected, or stood on a base plan that it was
    traced on; then, as far as is recorded, on every later day too. Nothing follows for days
    before the first of those. What is proposed was on the ground on no day.

    Args:
        plan: the plan as it is now.
        day: ISO date of a day, not of a month or year.
    """
    seen = _seen(plan)
    found = {i.id: _standing(i, seen[i.id], day) for i in plan.items.values()}
    gone = {i for i, standing in found.items() if standing is Standing.NOT_THERE}
    as_now = _used_by(plan, day) | _kept_back_on(plan, day)
    kept = (
        i if i.id in as_now else _as_then(i, found[i.id])
        for i in plan.items.values()
        if i.id not in gone
    )
    items = [_without(i, gone) for i in kept]

    def those(wanted: Standing) -> tuple[ItemId, ...]:
        return tuple(i.id for i in items if found[i.id] is wanted and _lies(i))

    return AsItWas(
        plan=plan_of(items, name=plan.name, grid=plan.grid, revision=plan.revision),
        there=those(Standing.THERE),
        not_there=tuple(i for i in plan.items if i in gone),
        not_known=those(Standing.NOT_KNOWN),
    )


def _standing(item: Item[Any], seen: list[_When], day: str) -> Standing:
    if item.kind in ON_PAPER:
        return Standing.THERE
    if item.status is Status.PROPOSED:
        return Standing.NOT_THERE
    since, until = _told(item, item.kind.since), _told(item, item.kind.until)
    if until is not None and until.last < day:
        return Standing.NOT_THERE
    begun = any(when.last <= day for when in (*seen, *_some(since)))
    if since is not None and since.first > day:
        # a stone of 1950 that was inspected in 1940: one of the dates is wrong
        return Standing.NOT_KNOWN if begun else Standing.NOT_THERE
    ending = until is not None and until.first < day
    return Standing.THERE if begun and not ending else Standing.NOT_KNOWN


def _seen(plan: Plan) -> Mapping[ItemId, list[_When]]:
    """Return of each thing when it was surely there."""
    found: dict[ItemId, list[_When]] = {i: [] for i in plan.items}
    for item in plan.items.values():
        found[item.id] += (*_measured(item, plan), *_some(_told(item, item.kind.seen)))
        if item.status is not Status.PROPOSED:
            for target in _targets(item):
                found[target] += _some(_told(item, item.kind.since))
    return found


def _measured(item: Item[Any], plan: Plan) -> tuple[_When, ...]:
    """Return when a place was measured, or drawn on the plan that it was traced on."""
    if item.basis.base_plan is not None:
        return _some(_when(plan.items[item.basis.base_plan].details.date))
    on_the_ground = item.basis.method not in (Method.TRACED, Method.COMPUTED, Method.UNKNOWN)
    return _some(_when(item.basis.date)) if on_the_ground else ()


def _used_by(plan: Plan, day: str) -> set[ItemId]:
    """Return the graves, ashes plots and vaults that were surely used by a day."""
    dug = ((i.id, _told(i, i.kind.seen)) for kind in burial_kinds() for i in plan.of(kind))
    buried = ((i.details.grave, _when(i.details.buried)) for i in plan.of(burial.KIND))
    return {
        item
        for item, when in (*dug, *buried)
        if item is not None and when is not None and when.last <= day
    }


def _kept_back_on(plan: Plan, day: str) -> set[ItemId]:
    """Return those that are kept back now, and by a faculty surely were so on a day."""
    granted = ((i.details.grave, _when(i.details.granted)) for i in plan.of(reservation.KIND))
    by_then = {item for item, when in granted if item and when and when.last <= day}
    return {item for item in by_then if _is_kept_back(plan.items[item])}


def _is_kept_back(item: Item[Any]) -> bool:
    return item.details.state is type(item.details.state).RESERVED


def _as_then(item: Item[Any], standing: Standing) -> Item[Any]:
    """Return an item of which nobody knows that it was then in the state that it is in now.

    What is free now was not used before; since when it is used, kept back or closed is told
    by other dates, or by none.
    """
    if not item.kind.holds_burials:
        return item
    states = type(item.details.state)
    if standing is Standing.THERE and item.details.state is states.FREE:
        return item
    return replace(item, details=replace(item.details, state=states.UNKNOWN))


def _without(item: Item[Any], gone: set[ItemId]) -> Item[Any]:
    """Return an item that refers to nothing that is gone."""
    lost = {
        d.name: None for d in item.kind.references() if getattr(item.details, d.name) in gone
    }
    return replace(item, details=replace(item.details, **lost)) if lost else item


def _targets(item: Item[Any]) -> Iterator[ItemId]:
    named = (getattr(item.details, d.name) for d in item.kind.references())
    return (target for target in named if target is not None)


def _lies(item: Item[Any]) -> bool:
    return item.shape is not None and item.kind not in ON_PAPER


def _told(item: Item[Any], detail: str) -> _When | None:
    return _when(getattr(item.details, detail)) if detail else None


def _when(date: str) -> _When | None:
    # no month has more than 31 days, and texts of one form compare as their days do
    end = len(date)
    return _When(date + "0000-01-01"[end:], date + "9999-12-31"[end:]) if date else None


def _some(when: _When | None) -> tuple[_When, ...]:
    return () if when is None else (when,)
