"""Make the sheet of this month: a strip of twelve months, then what is due, group by group."""

from dataclasses import replace

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.month_strip import month_strip
from plan_editor.drawing.month_words import CAUTION, KEY, day_told, group_title, headline
from plan_editor.drawing.page import sizes_for
from plan_editor.drawing.panel import Panel, stacked, words
from plan_editor.drawing.schedule import Column, Table
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Printed, Supplied
from plan_editor.printing.tables import UPRIGHT, Lying, table_page, table_panels
from plan_editor.printing.usual import block, remarks_on
from plan_editor.records.month import Ahead, Group, ahead

MOST = 30
"""More lines of a group are only counted; the schedules have them all."""

_COLUMNS = (
    Column(title="Day", share=1.1),
    Column(title="What", share=2.2),
    Column(title="Why", share=3.2),
    Column(title="Done", share=0.7),
)
_GAP = 3.0


def compose(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return what is due in the month of the day asked for, upright on A4 if not asked else."""
    del supplied
    found = ahead(plan, asked.date)
    month = in_words(asked.date[:7])
    lying = Lying(paper=asked.paper) if asked.paper else UPRIGHT
    title = f"What needs doing, {month}"
    told = block(plan, asked, title=title, document="List", prefix="MONTH")
    tables = [_table(group) for group in found.of(asked.date[:7])]
    panels = table_panels(told, tables, lying, over=_over(found, lying))
    numbered = replace(told, sheets=len(panels))
    pages = tuple(
        table_page(numbered, (title, plan.name), panel, sheet, lying)
        for sheet, panel in enumerate(panels, 1)
    )
    return Printed(
        title=f"{title} – {plan.name}" if plan.name else title,
        paper=lying.paper,
        scale=None,
        pages=pages,
        remarks=remarks_on(pages),
    )


def _over(found: Ahead, lying: Lying) -> Panel:
    sizes = sizes_for(*lying.size)
    room = lying.room
    return stacked(
        (
            words(
                f"As known on {in_words(found.on)}: {headline(found)}",
                room,
                size=sizes.head,
                bold=True,
            ),
            month_strip(found.counts, room, size=sizes.body),
            words(f"{KEY} {CAUTION}", room, size=sizes.body),
            Panel(width=room, height=_GAP, ink=()),
        ),
        1.5,
    )


def _table(group: Group) -> Table:
    more = len(group.dues) - MOST
    note = f"The first {MOST} of them; the schedules tell the other {more}." if more > 0 else ""
    rows = tuple((day_told(d), d.title, d.says, "") for d in group.dues[:MOST])
    return Table(heading=group_title(group), columns=_COLUMNS, rows=rows, note=note)
