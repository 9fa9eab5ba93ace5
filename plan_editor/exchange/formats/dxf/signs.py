"""Signs that tell a state: bars and strokes across graves, marks along lines, crossings out."""

from dataclasses import replace
from functools import partial
from typing import Any

import numpy as np

from plan_editor.drawing.along import decorated
from plan_editor.drawing.areas import area_ink
from plan_editor.drawing.compose import Group
from plan_editor.drawing.ink import Ink, Stroke
from plan_editor.drawing.removal import crossed_through
from plan_editor.drawing.rings import lines_of
from plan_editor.exchange.formats.dxf.board import Board, mark
from plan_editor.exchange.formats.dxf.hatches import add_hatch
from plan_editor.exchange.formats.dxf.ink_made import Onto, draw_ink
from plan_editor.exchange.formats.dxf.layers import Presentation, layer_of
from plan_editor.exchange.formats.dxf.shapes import look_of
from plan_editor.plan.item import Item, Status
from plan_editor.plan.kind import Form
from plan_editor.plan.look import Across, Look, Mark, Pen


def draw_signs(board: Board, group: Group) -> None:
    """Draw the hatches and signs of a group's items, each marked with whose it is."""
    look = look_of(group)
    areas = [i for i in group.items if i.form in {Form.AREA, Form.RECTANGLE}]
    if look.hatch is not None and areas:
        layer = layer_of(board.document, group.kind, Presentation.HATCHING)
        for item in areas:
            if item.shape is not None:
                mark(add_hatch(board, item.shape, look.hatch, layer), item, "hatch")
    if _has_signs(group, look):
        for item in group.items:
            _draw(board, group, item, _signs(board, group, look, item))


def _has_signs(group: Group, look: Look) -> bool:
    told = look.head_bar or look.face or look.across is not Across.NONE
    return told or look.along is not None or group.status is Status.TO_BE_REMOVED


def _signs(board: Board, group: Group, look: Look, item: Item[Any]) -> tuple[Ink, ...]:
    shapes = board.viewport.shapes([item.shape])
    ink: list[Ink] = []
    if item.form is Form.RECTANGLE:
        strokes = area_ink(shapes, replace(look, fill=None, hatch=None, solid=False), shapes)
        ink.extend(s for s in strokes if isinstance(s, Stroke) and not s.closed)
    if item.form is Form.LINE and look.along and look.along.mark is not Mark.SCALLOPS:
        _, *marks = decorated(lines_of(shapes), look.along, look.pen or Pen())
        ink.extend(marks)
    if group.status is Status.TO_BE_REMOVED:
        ink.extend(crossed_through(np.asarray(shapes)))
    return tuple(ink)


def _draw(board: Board, group: Group, item: Item[Any], ink: tuple[Ink, ...]) -> None:
    if not ink:
        return
    onto = Onto(
        document=board.document,
        space=board.space,
        lines=layer_of(board.document, group.kind, Presentation.HATCHING),
        texts=layer_of(board.document, group.kind, Presentation.TEXT),
        to_space=board.from_paper,
        unit=board.metres_per_mm,
        note=partial(mark, item=item, part="sign"),
    )
    draw_ink(onto, ink)
