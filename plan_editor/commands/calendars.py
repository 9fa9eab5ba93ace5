"""The calendar of what is due, made from a plan's file."""

from pathlib import Path

from plan_editor.commands.making import Made, check_out
from plan_editor.commands.reading import read
from plan_editor.errors import CannotUse
from plan_editor.exchange.calendars import write_calendar

SUFFIX = ".ics"


def make_calendar(plan_path: Path, on: str, out: Path) -> tuple[Made, int]:
    """Write what is due as a calendar; return that, and how many events it has.

    Raises:
        CannotUse: the file's name does not end in ``SUFFIX``, or it would take the place of a
            plan.
        FileProblem: the plan cannot be read or the file not written.
    """
    if out.suffix.lower() != SUFFIX:
        raise CannotUse(
            f"{out.name or out}: the file of a calendar ends in {SUFFIX}. Nothing was written."
        )
    found = read(plan_path)
    check_out(out, plan_path)
    count = write_calendar(found.plan, on, out)
    return Made(path=out, revision=found.plan.revision, remarks=found.remarks), count
