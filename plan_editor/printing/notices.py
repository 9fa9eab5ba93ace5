"""Notices of one page, to be read standing: on a stone, and in public."""

from dataclasses import replace
from enum import StrEnum
from functools import partial

import numpy as np

from plan_editor.drawing.ink import Fill
from plan_editor.drawing.lettering import shortened
from plan_editor.drawing.panel import Panel, words
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Page, Printed, Supplied
from plan_editor.printing.usual import UNNAMED, remarks_on
from plan_editor.printing.worded_page import (
    Lettering,
    column_of,
    filled,
    fitted,
    paper_of,
    remarks_of,
)
from plan_editor.records.days import last_day
from plan_editor.records.notice_words import IN_PUBLIC, ON_STONE, blanks, stone_called, terms
from plan_editor.records.wordings import BY_HAND, Worded, Wording, wording_named

_SIZES = Lettering(heading=21.0, body=8.9)
_MARGIN = 20.0
_BAND = 9.0
_FOOT = 4.2
_LOW = 24.0
"""Words end so high above the lower edge; the parish's name stands below."""

_UNMARKED = (
    "Fix it beside the stone or tie it on: no nails, no glue, nothing that marks the stone."
)
_NOT_UNSAFE = "No inspection says that it is unsafe: read the words before they go up."


def on_stone(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the notice that is fixed to a stone.

    Raises:
        CannotPrint: its words are too long for a page.
    """
    del supplied
    printed = _notice(plan, asked, wording_named(plan, "notice"), ON_STONE)
    return replace(printed, remarks=(_UNMARKED, *printed.remarks))


def in_public(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the notice that is put up or printed where people read it.

    Raises:
        CannotPrint: its words are too long for a page.
    """
    del supplied
    return _notice(plan, asked, wording_named(plan, "public"), IN_PUBLIC)


def _notice(plan: Plan, asked: Asked, wording: Wording, step: StrEnum) -> Printed:
    paper, larger = paper_of(asked)
    told = terms(plan, asked.item, step, last_day(asked.date))
    given = blanks(plan, told, name="")
    found = filled(wording, given)
    across, high = (side / larger for side in paper.value)
    room = across - 2 * _MARGIN
    top = high - _MARGIN - _BAND
    panel = fitted(
        partial(_column, found, given["contact"], room * larger, larger),
        (top - _LOW) * larger,
        wording.title,
    )
    foot = _FOOT * larger
    name = shortened(given["parish"] or UNNAMED, foot, room * larger, bold=True)
    parish = words(name, room * larger, size=foot, bold=True)
    ink = (
        _band(across * larger, high * larger, _BAND * larger),
        *panel.at(_MARGIN * larger, top * larger),
        *parish.at(_MARGIN * larger, _LOW * larger - foot),
    )
    page = Page(width=paper.value[0], height=paper.value[1], ink=ink)
    return Printed(
        title=f"{wording.title}: {stone_called(plan, told)}",
        paper=paper,
        scale=None,
        pages=(page,),
        remarks=(
            *(() if told.found else (_NOT_UNSAFE,)),
            *remarks_of(wording, found),
            *remarks_on((page,)),
        ),
    )


def _column(found: Worded, contact: str, room: float, larger: float, part: float) -> Panel:
    by = part * larger
    sizes = Lettering(heading=_SIZES.heading * by, body=_SIZES.body * by)
    return column_of(found, room, sizes, bold=(contact, BY_HAND))


def _band(across: float, high: float, deep: float) -> Fill:
    """Return a band along the upper edge, by which a notice is seen from afar."""
    corners = [(0.0, high), (across, high), (across, high - deep), (0.0, high - deep)]
    return Fill(rings=(np.array(corners),))
