"""Ink as entities of a drawing: on a paper sheet in millimetres, or on the ground to scale."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment

from plan_editor.drawing.ink import (
    Anchor,
    Clip,
    Clipped,
    Fill,
    Ink,
    Picture,
    Points,
    Stroke,
    Text,
)
from plan_editor.drawing.lettering import CAPITAL
from plan_editor.exchange.formats.dxf.board import Entity
from plan_editor.exchange.formats.dxf.numbers import BOLD, STYLE
from plan_editor.exchange.formats.dxf.pens import Attributes, dressed
from plan_editor.exchange.formats.dxf.words import in_one_line
from plan_editor.plan.look import Pen

_ALIGN = {
    Anchor.LEFT: TextEntityAlignment.LEFT,
    Anchor.MIDDLE: TextEntityAlignment.CENTER,
    Anchor.RIGHT: TextEntityAlignment.RIGHT,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Onto:
    """What ink is put on.

    Args:
        document: the drawing.
        space: its model space, or a sheet of it.
        lines: the layer of strokes and fills.
        texts: the layer of texts.
        to_space: from millimetres of the paper to the coordinates of the space.
        unit: of the space, in a millimetre of the paper.
        dashes: by how much line types are lengthened, so that dashes are as on paper.
        note: called with every entity that is made.
    """

    document: Document
    space: Any
    lines: str
    texts: str
    to_space: Callable[[Points], Points]
    unit: float
    dashes: float = 1.0
    note: Callable[[Entity], None] = lambda _: None


def draw_ink(onto: Onto, ink: Iterable[Ink]) -> None:
    """Draw ink in its order; pictures are left out, for a drawing only points to them."""
    for piece in ink:
        _piece(onto, piece)


def _piece(onto: Onto, piece: Ink) -> None:
    match piece:
        case Stroke():
            for line in piece.lines:
                _line(onto, line, piece.pen, closed=piece.closed)
        case Fill():
            _fill(onto, piece)
        case Text():
            _text(onto, piece)
        case Clipped():
            draw_ink(onto, (cut for inner in piece.ink for cut in _cut(inner, piece.box)))
        case Picture():
            pass


def _line(onto: Onto, line: Points, pen: Pen, *, closed: bool) -> None:
    attributes = _attributes(onto, pen)
    points = onto.to_space(line).tolist()
    if len(points) == 2 and not closed:
        onto.note(onto.space.add_line(*points, dxfattribs=attributes))
    else:
        made = onto.space.add_lwpolyline(
            points, format="xy", close=closed, dxfattribs=attributes
        )
        onto.note(made)


def _attributes(onto: Onto, pen: Pen) -> Attributes:
    told = dressed(onto.document, pen).attributes() | {"layer": onto.lines}
    return told | {"ltscale": onto.dashes} if pen.dash else told


def _fill(onto: Onto, fill: Fill) -> None:
    attributes = _attributes(onto, Pen(colour=fill.colour))
    made = onto.space.add_hatch(color=attributes["color"], dxfattribs=attributes)
    for ring in fill.rings:
        made.paths.add_polyline_path(onto.to_space(ring).tolist(), is_closed=True)
    onto.note(made)


def _text(onto: Onto, text: Text) -> None:
    colour = dressed(onto.document, Pen(colour=text.colour)).attributes()
    attributes = {
        "layer": onto.texts,
        "style": BOLD if text.bold else STYLE,
        "height": text.size * CAPITAL * onto.unit,
        "rotation": text.turn_deg,
        "color": colour["color"],
    }
    ((x, y),) = onto.to_space(np.array([(text.x, text.y)])).tolist()
    made = onto.space.add_text(in_one_line(text.text), dxfattribs=attributes)
    made.set_placement((x, y), align=_ALIGN[text.anchor])
    onto.note(made)


def _cut(ink: Ink, box: Clip) -> tuple[Ink, ...]:
    """Return what of a piece of ink lies in a box; a text or picture is in it or not."""
    match ink:
        case Stroke():
            lines = [np.vstack([x, x[:1]]) if ink.closed else x for x in ink.lines]
            cut = shapely.clip_by_rect(shapely.multilinestrings(lines), *box)
            kept = tuple(shapely.get_coordinates(x) for x in shapely.get_parts(cut))
            return (Stroke(lines=kept, pen=ink.pen),)
        case Text():
            inside = box[0] <= ink.x <= box[2] and box[1] <= ink.y <= box[3]
            return (ink,) if inside else ()
        case Fill():
            whole = shapely.contains(
                shapely.box(*box), shapely.multipoints(np.vstack(ink.rings))
            )
            return (ink,) if whole else ()
        case Clipped():
            return tuple(cut for inner in ink.ink for cut in _cut(inner, box))
        case Picture():
            return ()
