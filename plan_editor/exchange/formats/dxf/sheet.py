"""The paper sheet drawn: the plan to scale in its window, frame, title block, bar and north."""

from typing import Any

import numpy as np
from ezdxf.document import Drawing as Document

from plan_editor.drawing.grid import grid_ticks
from plan_editor.drawing.ink import Ink, Points, Stroke
from plan_editor.drawing.lettering import size_of
from plan_editor.drawing.north_point import north_point
from plan_editor.drawing.norths import facts_of, norths, up_told
from plan_editor.drawing.panel import Panel, beside, stacked, words
from plan_editor.drawing.scale_bar import scale_bar
from plan_editor.drawing.title_block import TitleBlock, title_block
from plan_editor.exchange.formats.dxf.ink_made import Onto, draw_ink
from plan_editor.exchange.formats.dxf.layers import Presentation, layer
from plan_editor.exchange.formats.dxf.paper import PANEL, PaperSheet
from plan_editor.ground.rules import Rule
from plan_editor.plan.look import Pen
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.grid import Grid

_LAYER = "Z-SHEET-E-"
_WINDOW_LAYER = "VIEWPORTS"
_FRAME = Pen(width=0.7)
_GAP = 4.0
_NORTH_MM = 22.0
_SMALL = size_of(2.0)
_HEAD = size_of(2.5)
_NAME = size_of(3.5)
_UNNAMED = "Churchyard without a name"

CAUTIONS = (
    "A plan cannot show burials that were never recorded: probe before digging.",
    "A leaning stone may fall without warning; testing is for trained people.",
    "Digging needs a competent person, with buried services located and the sides held.",
    "Rules of the diocese and the local authority go before this drawing.",
)
"""On every sheet."""


def draw_sheet(
    document: Document, plan: Plan, sheet: PaperSheet, *, issued: str, rules: tuple[Rule, ...]
) -> None:
    """Draw the sheet, in the place of the empty one that every drawing has.

    Args:
        document: the drawing.
        plan: the plan that is on it.
        sheet: paper and scale.
        issued: ISO date.
        rules: on whose word zones to keep off are drawn.
    """
    scale = sheet.viewport.scale
    name = f"Plan 1 to {scale:g}"
    document.layouts.rename("Layout1", name)
    page: Any = document.layout(name)
    page.page_setup(
        size=(sheet.width, sheet.height), margins=(0, 0, 0, 0), units="mm",
        name=sheet.paper, device="None",
    )  # fmt: skip
    _window(document, page, plan, sheet)
    onto = Onto(
        document=document,
        space=page,
        lines=layer(document, _LAYER, Presentation.BORDER, "Sheet", Pen()),
        texts=layer(document, _LAYER, Presentation.TEXT, "Sheet", Pen()),
        to_space=_as_it_is,
        unit=1.0,
        dashes=1000.0 / scale,  # line types are lengthened for the ground, not for the paper
    )
    draw_ink(
        onto, _ink(sheet, plan.grid, _says(plan, sheet, issued), _panels(plan, sheet, rules))
    )


def _window(document: Document, page: Any, plan: Plan, sheet: PaperSheet) -> None:
    view = sheet.viewport
    left, bottom, right, top = view.frame
    document.layers.add(_WINDOW_LAYER).dxf.plot = 0
    window = page.add_viewport(
        center=view.middle,
        size=(right - left, top - bottom),
        view_center_point=plan.grid.to_crs(view.east, view.north),
        view_height=(top - bottom) / view.mm_per_metre,
        status=2,
    )
    window.dxf.flags |= 1 << 14  # the scale is locked


def _as_it_is(points: Points) -> Points:
    return points


def _ink(
    sheet: PaperSheet, grid: Grid, says: TitleBlock, panels: tuple[Panel, ...]
) -> tuple[Ink, ...]:
    left, bottom, right, top = sheet.frame
    inner = sheet.viewport.frame
    block = title_block(says, PANEL)
    return (
        Stroke(lines=(_box(left, bottom, right, top), _box(*inner)), pen=_FRAME, closed=True),
        *grid_ticks(sheet.viewport, grid),
        *stacked(panels, _GAP).at(inner[2] + _GAP, top - _GAP),
        *block.at(inner[2], bottom + block.height),
    )


def _panels(plan: Plan, sheet: PaperSheet, rules: tuple[Rule, ...]) -> tuple[Panel, ...]:
    room = PANEL - 2 * _GAP
    facts = facts_of(plan, (sheet.viewport.east, sheet.viewport.north))
    known = facts and norths(_NORTH_MM, facts.convergence_deg, size=_SMALL)
    cautions = (*CAUTIONS, *(rule.caution for rule in rules))
    bases = (f"Zones to keep off: {rule.title}. {rule.source}" for rule in rules)
    told = (f"{up_told(plan, facts)} Coordinates in metres.", *bases)
    return (
        words(plan.name or _UNNAMED, room, size=_NAME, bold=True),
        beside((north_point(_NORTH_MM), *((known,) if known else ())), 2 * _GAP),
        words(f"SCALE 1 : {sheet.viewport.scale:g}", room, size=_HEAD, bold=True),
        scale_bar(sheet.viewport.scale, room),
        *(words(text, room, size=_SMALL) for text in told),
        words("Cautions", room, size=_HEAD, bold=True),
        *(words(text, room, size=_SMALL) for text in cautions),
    )


def _says(plan: Plan, sheet: PaperSheet, issued: str) -> TitleBlock:
    return TitleBlock(
        owner=plan.name or _UNNAMED,
        title="Plan for exchange",
        supplement="",
        document="Drawing",
        number=f"DXF-{issued.replace('-', '')}"[:16],
        issued=issued,
        sheet=1,
        sheets=1,
        creator="",
        scale=sheet.viewport.scale,
        paper=sheet.paper,
    )


def _box(left: float, bottom: float, right: float, top: float) -> Points:
    return np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
