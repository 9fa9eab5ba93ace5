"""Schedules made from a plan's file, for the command line and the window's worker."""

from pathlib import Path

from plan_editor.commands.making import Made, check_out
from plan_editor.commands.reading import read
from plan_editor.errors import CannotUse
from plan_editor.exchange.tables_out import TableOut, write_csv, write_workbook
from plan_editor.plan.plan import Plan
from plan_editor.printing.pdf import write as write_pdf
from plan_editor.printing.schedules import compose, notes
from plan_editor.records import schedule as records
from plan_editor.records.schedule import Asked, Schedule, schedules

SUFFIXES = (".pdf", ".xlsx", ".csv")
"""How the name of a schedule's file may end, which says what it is written as."""


def schedule_named(name: str) -> Schedule:
    """Return the schedule of that name.

    Raises:
        CannotUse: there is none; the text names those that there are.
    """
    for one in schedules():
        if one.name == name:
            return one
    known = ", ".join(sorted(s.name for s in schedules()))
    raise CannotUse(f"There is no schedule “{name}”. There are: {known}.")


def schedule_of(plan: Plan, name: str, asked: Asked) -> records.Made:
    """Return a schedule of a plan.

    Raises:
        CannotUse: there is none of that name.
    """
    return records.made(plan, schedule_named(name), asked)


def make_schedule(
    plan_path: Path, name: str, asked: Asked, out: Path, *, maker: str = ""
) -> tuple[Made, int]:
    """Write a schedule of a plan as PDF, workbook or CSV; return that, and how many lines.

    Raises:
        CannotPrint: the PDF cannot be laid out or written.
        CannotUse: there is no schedule of that name, the file's name ends in none of
            ``SUFFIXES``, or it would take the place of a plan.
        FileProblem: the plan cannot be read or the file not written.
    """
    schedule = schedule_named(name)
    suffix = out.suffix.lower()
    if suffix not in SUFFIXES:
        raise CannotUse(
            f"{out.name or out}: a schedule is written as {', '.join(SUFFIXES)}, by how the"
            " file's name ends. Nothing was written."
        )
    found = read(plan_path)
    check_out(out, plan_path)
    told = records.made(found.plan, schedule, asked)
    made = Made(path=out, revision=found.plan.revision, remarks=found.remarks)
    if suffix == ".pdf":
        made = _printed(found.plan, told, made, maker)
    elif suffix == ".xlsx":
        write_workbook(_table(found.plan, told), out)
    else:
        write_csv(_table(found.plan, told), out)
    return made, len(told.lines)


def _printed(plan: Plan, told: records.Made, made: Made, maker: str) -> Made:
    printed = compose(plan, told, maker=maker)
    write_pdf(printed, made.path)
    return Made(
        path=made.path,
        revision=made.revision,
        paper=printed.paper.name,
        pages=len(printed.pages),
        remarks=(*made.remarks, *printed.remarks),
    )


def _table(plan: Plan, told: records.Made) -> TableOut:
    about = (told.schedule.title, plan.name, f"As known on {told.asked.on}")
    return TableOut(
        title=told.schedule.title,
        heads=tuple(h.title for h in told.headings),
        figures=tuple(h.figures for h in told.headings),
        rows=tuple(line.cells for line in told.lines),
        notes=tuple(filter(None, (*about, *notes(told)))),
    )
