"""What a schedule declares: a table of the plan for the screen, for paper and for a workbook.

Schedules are declared in ``records/schedules/``, one file each.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from plan_editor.declared import declared
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A column.

    Args:
        title: over it.
        share: of a page's width, beside the shares of the others.
        figures: whether it holds figures.
        private: whether it tells of living people; it is left out unless asked for.
    """

    title: str
    share: float = 1.0
    figures: bool = False
    private: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A row: as many texts as there are columns, and the thing it tells of."""

    cells: tuple[str, ...]
    item: ItemId | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is asked of a schedule.

    Args:
        on: ISO date of the day in question.
        contacts: whether names of living people may stand in it.
    """

    on: str
    contacts: bool = False


Lines = Callable[[Plan, Asked], tuple[Line, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """A table of the plan.

    Args:
        name: on the command line: ``unsafe``.
        title: in the window and on paper.
        purpose: one sentence on whom it is for.
        headings: its columns.
        lines: its rows, in the order in which they are read.
        note: under the title: the basis of what it tells, and cautions.
        private: whether it tells of living people only; then it is empty unless asked for.
    """

    name: str
    title: str
    purpose: str
    headings: tuple[Heading, ...]
    lines: Lines
    note: str = ""
    private: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A schedule as it is shown, printed or written.

    Args:
        schedule: of which sort.
        asked: what was asked.
        headings: its columns, without those that are private and were not asked for.
        lines: its rows, with a cell for each of these columns.
    """

    schedule: Schedule
    asked: Asked
    headings: tuple[Heading, ...]
    lines: tuple[Line, ...]


def made(plan: Plan, schedule: Schedule, asked: Asked) -> Made:
    """Return a schedule of a plan; nobody living is named in it unless that is asked for."""
    if schedule.private and not asked.contacts:
        return Made(schedule=schedule, asked=asked, headings=schedule.headings, lines=())
    kept = [n for n, h in enumerate(schedule.headings) if asked.contacts or not h.private]
    return Made(
        schedule=schedule,
        asked=asked,
        headings=tuple(schedule.headings[n] for n in kept),
        lines=tuple(
            replace(line, cells=tuple(line.cells[n] for n in kept))
            for line in schedule.lines(plan, asked)
        ),
    )


def schedules() -> tuple[Schedule, ...]:
    """Return every schedule there is, by title."""
    found = declared("plan_editor.records.schedules", "SCHEDULE", Schedule)
    return tuple(sorted(found, key=lambda s: s.title))
