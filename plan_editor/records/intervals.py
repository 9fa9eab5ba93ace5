"""When things are looked at again: by what an inspection says, or after the usual interval.

The intervals of ``resources/inspection_intervals.toml`` give way to the parish's own figures,
and these to the plan's own items of the kind *interval*.
"""

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from plan_editor.errors import CannotUse
from plan_editor.kinds import interval, parish
from plan_editor.kinds.inspection import Result
from plan_editor.kinds.interval import After
from plan_editor.plan.plan import Plan
from plan_editor.records.days import first_day, months_after
from plan_editor.records.safety import Standing, inspected_kinds, standings
from plan_editor.resources import resource

_NEVER = "It was never inspected with a result."
_UNSAFE = "Found unsafe {date}. Keep people away until it was made safe and that is recorded."
_LONGEST = 600
"""Months that an interval may have, as of the kind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """After how many months things of a kind are looked at again.

    Args:
        of: name of a kind.
        after: after what result; ``ANY`` for every one that has none of its own.
        months: from that inspection on; 0 means at once.
        source: on whose word.
    """

    of: str
    after: After
    months: int
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NextLook:
    """When a thing is to be looked at next.

    Args:
        standing: what is known of the thing.
        date: ISO date; empty where it was never inspected, or nobody knows when.
        says: why, in a sentence or two.
    """

    standing: Standing
    date: str
    says: str


@cache
def shipped_intervals() -> tuple[Interval, ...]:
    """Return the intervals that come with the program."""
    return read_intervals(resource("inspection_intervals.toml"))


def read_intervals(path: Path) -> tuple[Interval, ...]:
    """Return the intervals of a table.

    Raises:
        CannotUse: the table cannot be read, or an interval lacks something; the text tells.
    """
    try:
        table = tomllib.loads(path.read_text("utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as fault:
        raise CannotUse(f"{path.name} cannot be read as a table: {fault}.") from fault
    rows = table.get("interval", [])
    if not isinstance(rows, list) or not rows:
        raise CannotUse(f"{path.name} holds no [[interval]].")
    return tuple(_read(row, f"{path.name}, interval {n}") for n, row in enumerate(rows, 1))


def intervals(plan: Plan) -> tuple[Interval, ...]:
    """Return what holds on a plan, what goes first standing first."""
    own = (i.details for i in plan.of(interval.KIND))
    told = (
        Interval(
            of=_kind_called(d.of),
            after=d.after,
            months=d.months,
            source=d.source or "The parish's own interval.",
        )
        for d in own
        if d.months is not None
    )
    return (*told, *_of_the_parish(plan), *shipped_intervals())


def next_looks(plan: Plan, on: str) -> tuple[NextLook, ...]:
    """Return when each thing is to be looked at next, as known on an ISO date.

    What was never inspected with a result is due, if things of its kind have an interval; a
    thing whose inspection names the day is due then. What is unsafe is due from the day on
    which it was found so. A fault is not left longer than the plan lets things of the kind be
    left at all.
    """
    holding = _holding(plan)
    found = (_next(s, holding.get(s.item.kind.name, ())) for s in standings(plan, on=on))
    return tuple(look for look in found if look is not None)


def _of_the_parish(plan: Plan) -> tuple[Interval, ...]:
    """Return the intervals that the parish's own figures give; none where it has none."""
    first = next(plan.of(parish.KIND), None)
    if first is None:
        return ()
    told = first.details
    years = max(1, round(told.inspection_years * 12))
    given = ((After.SOUND, years), (After.MINOR, told.minor_fault_months))
    return tuple(
        Interval(of="memorial", after=after, months=months, source=told.inspection_source)
        for after, months in given
    )


def _holding(plan: Plan) -> dict[str, tuple[Interval, ...]]:
    found: dict[str, tuple[Interval, ...]] = {}
    for one in intervals(plan):
        found[one.of] = (*found.get(one.of, ()), one)
    return found


def _next(standing: Standing, holding: tuple[Interval, ...]) -> NextLook | None:
    latest = standing.latest
    if latest is None or latest.details.result is None:
        return NextLook(standing=standing, date="", says=_NEVER) if holding else None
    told = latest.details
    when = told.date or "on a day that is not recorded"
    if told.result is Result.IMMEDIATE:
        says = _UNSAFE.format(date=when)
        return NextLook(standing=standing, date=told.date and first_day(told.date), says=says)
    found = f"{str(told.result).capitalize()}, {when}."
    if told.next_due:
        says = f"{found} The inspector named the day."
        return NextLook(standing=standing, date=first_day(told.next_due), says=says)
    after = _after(holding, told.result)
    if after is None:
        return None
    date = months_after(first_day(told.date), after.months) if told.date else ""
    says = f"{found} Again after {_months(after.months)}. {after.source}"
    return NextLook(standing=standing, date=date, says=says)


def _after(holding: Iterable[Interval], result: Result | None) -> Interval | None:
    """Return the interval after a result.

    One for just this result goes before one for any, unless it is the longer: a plan that looks
    at its trees every half year does so all the more after a fault. After a sound result the
    first that stands there counts.
    """
    told = [i for i in holding if i.after in (After.ANY, After(str(result)))]
    if not told or result is Result.SOUND:
        return next(iter(told), None)
    exact = next((i for i in told if i.after is not After.ANY), None)
    usual = next((i for i in told if i.after is After.ANY), None)
    both = [i for i in (exact, usual) if i is not None]
    return min(both, key=lambda i: i.months)


def _months(months: int) -> str:
    if months and not months % 12:
        return "a year" if months == 12 else f"{months // 12} years"
    return "a month" if months == 1 else f"{months} months"


def _kind_called(text: str) -> str:
    """Return the name of the kind that a person wrote: ``Notice board`` or ``notice_board``."""
    return "_".join(text.casefold().replace("_", " ").split())


def _read(row: Any, place: str) -> Interval:
    try:
        found = Interval(
            of=str(row["of"]),
            after=After(row["after"]),
            months=int(row["months"]),
            source=str(row["source"]),
        )
    except KeyError as missing:
        raise CannotUse(f"{place}: it has no {missing}.") from missing
    except (TypeError, ValueError) as fault:
        raise CannotUse(f"{place}: {fault}.") from fault
    if found.of not in inspected_kinds():
        raise CannotUse(f"{place}: things of the kind “{found.of}” are not inspected.")
    if not 0 <= found.months <= _LONGEST:
        raise CannotUse(f"{place}: {found.months} months is no interval.")
    return found
