"""Schedules on paper: A4 upright, or A3 across where their columns need it."""

from dataclasses import replace

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.page import sizes_for
from plan_editor.drawing.schedule import Column, Table, breaks_words
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Paper, Printed
from plan_editor.printing.tables import UPRIGHT, Lying, table_page, table_panels
from plan_editor.printing.usual import block, remarks_on
from plan_editor.records.schedule import Heading, Made

ACROSS = Lying(paper=Paper.A3, across=True)

NOTHING = "There is nothing to tell."

WITHOUT_NAMES = "Living people are left out of it."
WITH_NAMES = "Names living people: keep it among the private papers of the parish."


def compose(plan: Plan, made: Made, *, maker: str = "") -> Printed:
    """Return the pages of a schedule, its heads repeated on each."""
    table = as_table(made)
    lying = UPRIGHT
    if breaks_words(table, lying.room, size=sizes_for(*lying.size).body):
        lying = ACROSS
    title = f"{made.schedule.title}, {in_words(made.asked.on)}"
    asked = Asked(date=made.asked.on, maker=maker)
    prefix = made.schedule.name.replace("_", "")[:7].upper()
    told = block(plan, asked, title=title, document="Schedule", prefix=prefix)
    panels = table_panels(told, (table,), lying)
    numbered = replace(told, sheets=len(panels))
    headline = (made.schedule.title, plan.name)
    pages = tuple(
        table_page(numbered, headline, panel, sheet, lying)
        for sheet, panel in enumerate(panels, 1)
    )
    return Printed(
        title=f"{title} – {plan.name}" if plan.name else title,
        paper=lying.paper,
        scale=None,
        pages=pages,
        remarks=remarks_on(pages),
    )


def as_table(made: Made) -> Table:
    """Return a schedule as a table for paper."""
    return Table(
        heading=f"As known on {in_words(made.asked.on)}",
        columns=tuple(_column(h) for h in made.headings),
        rows=tuple(line.cells for line in made.lines),
        note=" ".join(notes(made)),
    )


def notes(made: Made) -> tuple[str, ...]:
    """Return what is to be known of a schedule wherever it is shown."""
    told = [made.schedule.note] if made.schedule.note else []
    if made.schedule.private or any(h.private for h in made.schedule.headings):
        told.append(WITH_NAMES if made.asked.contacts else WITHOUT_NAMES)
    return (*told, *(() if made.lines else (NOTHING,)))


def _column(heading: Heading) -> Column:
    return Column(title=heading.title, share=heading.share, figures=heading.figures)
