"""Another day: the plan as it knew then, and the ground as it was then. Two questions."""

from collections import Counter
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time
from pathlib import Path

from plan_editor.commands.forms import capital, read_date
from plan_editor.commands.today import today
from plan_editor.drawing.dates import in_words
from plan_editor.errors import CannotUse
from plan_editor.ground.as_it_was import AsItWas, as_it_was
from plan_editor.plan.plan import Plan
from plan_editor.records.days import days_after, last_day
from plan_editor.storage.past import as_known, moment
from plan_editor.storage.plan_file import PlanFile

READ_ONLY = "read only"

_CLOCK = (
    "An entry of the history says an earlier time than one before it, so a clock was wrong at"
    " some time, and what was known on a day is as good as that."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A plan as it knew at the end of a day.

    Args:
        plan: as it was then.
        number: of the last entry of its log that had been made.
        when: ISO date and time, UTC, of that entry.
        day: ISO date of the day, which may stop after the year or the month.
        remarks: sentences for whoever relies on it.
    """

    plan: Plan
    number: int
    when: str
    day: str
    remarks: tuple[str, ...]

    @property
    def told(self) -> str:
        """What it is, as it stands over everything that shows it."""
        return f"as the plan knew it {at_the_end_of(self.day)}"


def read_day(text: str) -> str:
    """Return a day that was typed, as an ISO date that may stop after the year or the month.

    Raises:
        CannotUse: it is no date, or still to come.
    """
    day = read_date(text.strip())
    if day > today()[: len(day)]:
        raise CannotUse(
            f"{in_words(day)} is still to come. Choose today, or a day that has passed."
        )
    return day


def at_the_end_of(day: str) -> str:
    """Return in words up to when something was known: ``on 3 May 2026``."""
    return f"{'on' if len(day) > len('2026-05') else 'at the end of'} {in_words(day)}"


def end_of(day: str) -> datetime:
    """Return the instant at which a day, month or year ends by the clock of this computer."""
    after = date.fromisoformat(days_after(last_day(day), 1))
    return datetime.combine(after, time()).astimezone(UTC)


def known_on(path: Path, now: Plan, day: str) -> Known:
    """Return the plan as it knew at the end of a day; nothing is written.

    Args:
        path: the plan's file, or a working copy.
        now: the plan that its log leads to.
        day: ISO date, which may stop after the year or the month.

    Raises:
        CannotUse: the log begins later, or there is none.
        FileProblem: the file cannot be read, or its log is damaged.
    """
    found = moment(path, end_of(day))
    number = min(found.number, now.revision)
    return Known(
        plan=as_known(path, now, number),
        number=number,
        when=found.when,
        day=day,
        remarks=(_CLOCK,) if found.clock_went_back else (),
    )


def last_day_of(day: str) -> str:
    """Return the last day of a day, month or year, as far as it has passed."""
    return min(last_day(day), today())


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """The ground as it was on a day.

    Args:
        ground: what was there, was not, and is not known.
        day: ISO date, which may stop after the year or the month.
        counts: how much of it is not known, by kind, the most first.
    """

    ground: AsItWas
    day: str
    counts: tuple[tuple[str, int], ...]

    @property
    def told(self) -> str:
        """What it is, as it stands over everything that shows it."""
        return f"the ground as it was {at_the_end_of(self.day)}"

    @property
    def doubt(self) -> str:
        """How much of what is shown is not known to have been there, in a sentence."""
        there, unknown = len(self.ground.there), len(self.ground.not_known)
        if not unknown:
            return f"All {there} things shown were there, as far as is recorded."
        named = ", ".join(f"{count} {title}" for title, count in self.counts)
        return (
            f"{there} of the things shown were there. Of {unknown} no date tells, and they are"
            f" shown too: {named}."
        )


def stood_on(plan: Plan, day: str) -> Stood:
    """Return the ground as it was at the end of a day, month or year."""
    found = as_it_was(plan, last_day_of(day))
    counts = Counter(plan.items[i].kind for i in found.not_known)
    return Stood(
        ground=found,
        day=day,
        counts=tuple(
            (kind.plural.lower() if count > 1 else kind.title.lower(), count)
            for kind, count in counts.most_common()
        ),
    )


def open_known(path: Path, working_copy: Path, day: str) -> PlanFile:
    """Open a copy of the plan as it was known at the end of a day, only to be read.

    The day stands before the plan's name, which title blocks may cut short.

    Args:
        path: the plan's file.
        working_copy: its working copy.
        day: ISO date, which may stop after the year or the month.

    Raises:
        CannotUse: the log begins later, or there is none.
        FileProblem: the file cannot be read, or its log is damaged.
    """
    told: list[Known] = []

    def then(copy: Path, now: Plan) -> Plan:
        known = known_on(copy, now, day)
        told.append(known)
        return replace(known.plan, name=f"As known {at_the_end_of(day)}: {now.name}")

    file = PlanFile.of_another_day(path, working_copy, then, of_day=READ_ONLY)
    known = told[0]
    last = f"the last step until then was no. {known.number}"
    file.of_day = f"{capital(known.told)} ({last}): read only"
    file.remarks = known.remarks
    return file


def open_stood(path: Path, working_copy: Path, day: str) -> PlanFile:
    """Open a copy of the ground as it was at the end of a day, only to be read.

    Args:
        path: the plan's file.
        working_copy: its working copy.
        day: ISO date, which may stop after the year or the month.

    Raises:
        FileProblem: the file cannot be read.
    """
    told: list[Stood] = []

    def then(copy: Path, now: Plan) -> Plan:
        del copy
        stood = stood_on(now, day)
        told.append(stood)
        return replace(stood.ground.plan, name=f"As it was {at_the_end_of(day)}: {now.name}")

    file = PlanFile.of_another_day(path, working_copy, then, of_day=READ_ONLY)
    stood = told[0]
    file.of_day = f"{capital(stood.told)}, by the dates recorded of each thing: read only"
    file.doubtful = stood.ground.not_known
    file.remarks = (stood.doubt,)
    return file
