"""What needs doing this month, and how much is due in each of the twelve months from now."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from plan_editor.plan.plan import Plan
from plan_editor.records.days import months_after
from plan_editor.records.due import Due, SortOfDue, dues, sorts_of_due

MONTHS = 12

_MONTH = len("2026-11")


class Part(StrEnum):
    """When something is due, as seen from the day in question."""

    OVERDUE = "overdue"
    IN_MONTH = "due"
    UNDATED = "without a day"


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """What is due of one sort in one part, the earliest first."""

    part: Part
    sort: SortOfDue
    dues: tuple[Due, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """How much a month holds.

    Args:
        month: ``2026-11``.
        tasks: things to be done from the day in question on.
        overdue: of the month in question, what ought to have been done before that day.
        days: days to know of.
    """

    month: str
    tasks: int
    overdue: int
    days: int

    @property
    def all(self) -> int:
        """All of it."""
        return self.tasks + self.overdue + self.days


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """What is due, as known on a day.

    Args:
        on: ISO date of that day.
        counts: of the twelve months from then on.
        groups: of each of these months, by month: overdue first, then what is due, then what
            has no day; both of these are told in the first month only.
    """

    on: str
    counts: tuple[Count, ...]
    groups: tuple[tuple[str, tuple[Group, ...]], ...]

    def of(self, month: str) -> tuple[Group, ...]:
        """Return the groups of a month; none of a month that is not among the twelve."""
        return dict(self.groups).get(month, ())

    def undated(self) -> int:
        """Return how many things to be done have no day."""
        first = self.of(self.on[:_MONTH])
        return sum(len(g.dues) for g in first if g.part is Part.UNDATED)


def ahead(plan: Plan, on: str) -> Ahead:
    """Return what is due in the twelve months from a day on, and what is overdue then.

    Days to know of that are past are left out.

    Args:
        plan: the plan.
        on: ISO date.
    """
    sorts = {s.name: s for s in sorts_of_due()}
    last = months_after(f"{on[:_MONTH]}-01", MONTHS)
    kept = [d for d in dues(plan, on) if sorts[d.sort].task or not d.overdue(on)]
    by_month: dict[str, list[Due]] = {m: [] for m in _months(on)}
    for due in kept:
        if due.date < last:
            by_month[_month(due, on)].append(due)
    return Ahead(
        on=on,
        counts=tuple(_count(m, found, sorts, on) for m, found in by_month.items()),
        groups=tuple((m, tuple(_groups(found, sorts, on))) for m, found in by_month.items()),
    )


def _months(on: str) -> list[str]:
    first = f"{on[:_MONTH]}-01"
    return [months_after(first, n)[:_MONTH] for n in range(MONTHS)]


def _month(due: Due, on: str) -> str:
    return (on if due.overdue(on) else due.date)[:_MONTH]


def _part(due: Due, on: str) -> Part:
    if not due.date:
        return Part.UNDATED
    return Part.OVERDUE if due.overdue(on) else Part.IN_MONTH


def _count(month: str, found: list[Due], sorts: dict[str, SortOfDue], on: str) -> Count:
    dated = [d for d in found if d.date]
    overdue = sum(d.overdue(on) for d in dated)
    days = sum(not sorts[d.sort].task for d in dated)
    return Count(month=month, tasks=len(dated) - overdue - days, overdue=overdue, days=days)


def _groups(found: list[Due], sorts: dict[str, SortOfDue], on: str) -> Iterable[Group]:
    order = tuple(Part)
    keyed = sorted(
        (
            (order.index(_part(d, on)), not sorts[d.sort].task, sorts[d.sort].title, d)
            for d in found
        ),
        key=lambda k: k[:3],
    )
    for (part, _, _), group in groupby(keyed, key=lambda k: k[:3]):
        told = tuple(d for *_, d in group)
        yield Group(part=order[part], sort=sorts[told[0].sort], dues=told)
