"""What is due, on which day, and to which thing: one list that every reader of dates shares.

What can come due is declared in ``records/dues/``, one file each.
"""

from collections.abc import Callable
from dataclasses import dataclass

from plan_editor.declared import declared
from plan_editor.plan.item import ItemId
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """One thing that is due, or that a day brings.

    Args:
        sort: name of the sort of due.
        key: which of its sort it is, on whatever day: the id of the thing or the record that
            brings it, with a word besides where that brings several. No two of a sort share
            one, and it stays as it is when the day moves.
        date: ISO date from which it is due; empty for what ought to have been done long ago.
        title: what is due, in a few words: ``Look at memorial C 14``. Nobody living is named,
            and nobody whose burial is still to come.
        says: why, in a sentence.
        item: what to go to.
    """

    sort: str
    key: str
    date: str
    title: str
    says: str = ""
    item: ItemId | None = None

    def overdue(self, on: str) -> bool:
        """Return whether its day lies before another, an ISO date."""
        return self.date < on


Find = Callable[[Plan, str], tuple[Due, ...]]
"""Find all of a sort on a plan, past and to come, as known on an ISO date."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SortOfDue:
    """A sort of due.

    Args:
        name: never changes.
        title: of its group: ``Inspections``.
        task: whether somebody has to do something; otherwise it is a day to know of.
        find: finds them.
        source: on whose word the days rest.
    """

    name: str
    title: str
    task: bool
    find: Find
    source: str = ""


def sorts_of_due() -> tuple[SortOfDue, ...]:
    """Return every sort of due there is, by name."""
    found = declared("plan_editor.records.dues", "DUE", SortOfDue)
    return tuple(sorted(found, key=lambda s: s.name))


def dues(plan: Plan, on: str, *, until: str = "") -> tuple[Due, ...]:
    """Return what is due, the earliest first.

    Args:
        plan: the plan.
        on: ISO date of the day in question.
        until: the last day that is looked at, an ISO date; empty for no end.
    """
    found = (d for sort in sorts_of_due() for d in sort.find(plan, on))
    kept = (d for d in found if not until or d.date <= until)
    return tuple(sorted(kept, key=lambda d: (d.date, d.sort, natural(d.title))))
