"""Texts of a drawing: where each line of writing begins, how high and which way it runs."""

from collections.abc import Iterable
from math import cos, radians, sin
from typing import Any, TypeAlias

import numpy as np
from ezdxf.enums import TextEntityAlignment as Align
from ezdxf.lldxf.encoding import decode_dxf_unicode
from ezdxf.math import Vec3

from plan_editor.drawing.lettering import CAPITAL, width
from plan_editor.exchange.formats.dxf.pieces import Pieces, Space

Entity: TypeAlias = Any

_LINE_STEP = 5 / 3
"""From one baseline to the next by the height of a capital (DXF reference, MTEXT, group 44)."""

_ACROSS = {0: 0.0, 1: 0.5, 2: 1.0, 4: 0.5}
_UP = {0: 0.0, 1: -0.3, 2: 0.5, 3: 1.0}
_BETWEEN = (Align.ALIGNED, Align.FIT)
_INVISIBLE = 1  # flag of an attribute


def written(entity: Entity) -> Pieces | None:
    """Return a text as pieces, one for each of its lines, or None where it is none.

    Raises:
        Exception: whatever ezdxf raises where the entity is damaged.
    """
    match entity.dxftype():
        case "TEXT":
            return _one_line(entity)
        case "ATTRIB" | "ATTDEF":
            return _attribute(entity)
        case "MTEXT":
            return _many_lines(entity)
        case _:
            return None


def _attribute(entity: Entity) -> Pieces:
    if entity.dxf.get("flags", 0) & _INVISIBLE:
        return Pieces()
    if entity.has_embedded_mtext_entity:
        return _many_lines(entity.virtual_mtext_entity())
    return _one_line(entity)


def _one_line(entity: Entity) -> Pieces:
    text = _plain(entity.plain_text())
    height = float(entity.dxf.height)
    align, first, second = entity.get_placement()
    turn = radians(entity.dxf.get("rotation", 0.0))
    if align in _BETWEEN and second is not None:
        turn = (Vec3(second) - Vec3(first)).angle
    right = np.array([cos(turn), sin(turn), 0.0]) * height
    up = np.array([-sin(turn), cos(turn), 0.0]) * height
    start = np.array(Vec3(first).xyz)
    if align not in _BETWEEN:
        across = _ACROSS.get(entity.dxf.get("halign", 0), 0.0)
        raised = 0.5 if align is Align.MIDDLE else _UP.get(entity.dxf.get("valign", 0), 0.0)
        start = start - right * across * _width(text) - up * raised
    plane = entity.ocs()
    frame = np.array([start, right, up])
    if plane.transform:
        frame = frame @ np.array([plane.ux.xyz, plane.uy.xyz, plane.uz.xyz])
    return _pieces([(text, frame)])


def _many_lines(entity: Entity) -> Pieces:
    height = float(entity.dxf.char_height)
    broad = float(entity.dxf.get("width", 0.0) or 0.0) / height
    found = [_plain(t) for t in entity.all_columns_plain_text(split=True)]
    lines = [part for text in found for part in _wrapped(text, broad)]
    axes = entity.ucs()
    right, up = np.array(axes.ux.xyz) * height, np.array(axes.uy.xyz) * height
    start = np.array(Vec3(entity.dxf.insert).xyz)
    step = _LINE_STEP * float(entity.dxf.get("line_spacing_factor", 1.0) or 1.0)
    row, column = divmod(int(entity.dxf.get("attachment_point", 1)) - 1, 3)
    whole = 1 + step * (len(lines) - 1)
    top = {0: 0.0, 1: whole / 2}.get(row, whole)
    return _pieces(
        (text, np.array([start - right * column / 2 * _width(text) + up * drop, right, up]))
        for text, drop in ((t, top - 1 - step * i) for i, t in enumerate(lines))
    )


def _wrapped(text: str, broad: float) -> list[str]:
    """Return a paragraph as lines of a width, given in heights of a capital; 0 for any."""
    if broad <= 0 or _width(text) <= broad:
        return [text]
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and _width(longer) > broad:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _pieces(found: Iterable[tuple[str, Space]]) -> Pieces:
    kept = [(text, frame) for text, frame in found if text.strip()]
    if not kept:
        return Pieces()
    return Pieces(texts=tuple(t for t, _ in kept), frames=np.array([f for _, f in kept]))


def _plain(text: str) -> str:
    # bytes that the drawing's code page does not have come as lone surrogates
    decoded = decode_dxf_unicode(text)
    return decoded.encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def _width(text: str) -> float:
    # by the height of a capital, in the font in which it will be drawn
    return width(text) / CAPITAL
