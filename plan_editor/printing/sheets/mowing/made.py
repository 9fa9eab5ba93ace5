"""Make the mowing map: one page."""

from functools import partial

from plan_editor.drawing.dates import in_words
from plan_editor.plan.plan import Plan
from plan_editor.printing.plan_page import PlanPage, printed
from plan_editor.printing.sheet import Asked, Paper, Printed, Supplied
from plan_editor.printing.sheets.mowing.beside import panels
from plan_editor.printing.sheets.mowing.drawn import drawn
from plan_editor.printing.sheets.mowing.told import extent_told, title_of, told_by
from plan_editor.printing.usual import (
    block,
    middle_of,
    under,
)

_READ_IN_HAND = 500.0
"""At this scale or a larger one a grave can be told from its neighbour at arm's length."""


def compose(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the mowing map.

    Raises:
        CannotPrint: it does not fit; the text says which scale or paper would.
    """
    kept, refused = under(plan, asked, supplied.backdrops)
    told = told_by(plan, asked, kept)
    title = title_of(told)
    page = PlanPage(
        headline=(title, f"{plan.name} · mowing map of {in_words(asked.date)}".strip(" ·")),
        block=block(plan, asked, title=title, document="Mowing map", prefix="MOWING"),
        extent=extent_told(told),
        panels=partial(panels, told, middle_of(told.items)),
        draw=lambda viewport: drawn(told, viewport),
        will_do=lambda viewport: viewport.scale <= _READ_IN_HAND,
        papers=(Paper.A4, Paper.A3),
        remarks=refused,
    )
    return printed(plan, page, asked)
