"""Pieces as Qt keeps them, and how they are painted.

Measured: an area filled without antialiasing and then outlined with it, a pixel wide, looks
like one filled with it and costs a twentieth; lines thicker than a pixel are drawn one by one.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath

from plan_editor.desktop.canvas.dashes import dashed
from plan_editor.desktop.canvas.paths import path_of, segments_of
from plan_editor.desktop.canvas.pieces import PAPER_MM, pieces
from plan_editor.desktop.canvas.runs import NO_POINTS, Points, Runs, runs_of
from plan_editor.desktop.canvas.sight import LABELS_FROM, MARKS_FROM, OUTLINES_FROM, Sight
from plan_editor.desktop.canvas.stamps import draw_large, stamp
from plan_editor.desktop.canvas.style import FINE, PX_PER_MM, Style, hatching
from plan_editor.drawing.symbols import symbol
from plan_editor.plan.item import Item, Status
from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Look, Pen

LETTER_PX = 11

SYMBOL_GROWTH = 1.4
"""Symbols are so much larger than on paper: a screen is looked at from farther away."""

DASHES = {Status.PROPOSED: (4.0, 1.5), Status.TO_BE_REMOVED: (1.0, 1.5)}
"""What is not there yet, or not for long, is dashed whatever its look says; mm on paper."""

DOTS = (0.3, 1.0)
"""Of the circles within which the ground is left alone; mm on paper."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawn:
    """What is kept ready of one look in one square of ground.

    Args:
        areas, outline, solids, thin, dotted: paths, or None where there is nothing.
        dashes: the outline cut into dashes; the outline itself where it is not dashed.
        segments: the dashes once more, piece by piece, where they are thicker than a pixel.
        points, letters: where symbols and letters stand.
        across: how broad in metres is what each symbol stands for.
        turns: by how many degrees clockwise each symbol is turned.
    """

    areas: QPainterPath | None
    outline: QPainterPath | None
    dashes: QPainterPath | None
    segments: list[QLineF]
    solids: QPainterPath | None
    thin: QPainterPath | None
    dotted: QPainterPath | None
    points: Points
    across: NDArray[np.float64]
    turns: NDArray[np.float64]
    letters: Points


def drawn(kind: Kind, look: Look, status: Status, items: Sequence[Item[Any]]) -> Drawn:
    """Return items of one look and status made ready to be painted."""
    made = pieces(kind, look, items)
    pen = look.pen or Pen()
    dash = DASHES.get(status, pen.dash)
    dashes = dashed(made.outline, on_ground(dash)) if dash else made.outline
    areas = _path(made.areas)
    outline = areas if made.outline is made.areas else _path(made.outline)
    thick = pen.width > FINE
    return Drawn(
        areas=areas,
        outline=outline,
        dashes=None if thick else _path(dashes) if dash else outline,
        segments=segments_of(dashes) if thick else [],
        solids=areas if made.solids is made.areas else _path(made.solids),
        thin=_path(made.thin),
        dotted=_path(dashed(made.dotted, on_ground(DOTS))),
        points=made.points,
        across=made.across,
        turns=made.turns,
        letters=made.letters,
    )


def drawn_from_afar(
    kind: Kind, look: Look, status: Status, items: Sequence[Item[Any]]
) -> Drawn:
    """Return small things made ready to be painted where only their areas can be seen."""
    del kind, look, status  # they tell the colour only
    return Drawn(
        areas=_path(runs_of([i.shape for i in items if i.shape is not None])),
        outline=None,
        dashes=None,
        segments=[],
        solids=None,
        thin=None,
        dotted=None,
        points=NO_POINTS,
        across=np.empty(0),
        turns=np.empty(0),
        letters=NO_POINTS,
    )


def on_ground(dash: tuple[float, ...]) -> tuple[float, ...]:
    """Return lengths on and off, from millimetres on the sheet to metres on the ground."""
    return tuple(length * PAPER_MM for length in dash)


def _path(runs: Runs) -> QPainterPath | None:
    return path_of(runs) if runs else None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Dressed:
    """A look, and how it is drawn on the screen.

    Args:
        small: things that are too small to have an outline when seen from far off.
    """

    look: Look
    style: Style
    small: bool


def paint(painter: QPainter, dress: Dressed, ready: Sequence[Drawn], sight: Sight) -> None:
    """Paint what is ready of one look, fills first.

    Args:
        painter: draws metres, north up.
        dress: how.
        ready: from each square that is exposed.
        sight: what is looked at.
    """
    look, dressed, small = dress.look, dress.style, dress.small
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setPen(Qt.PenStyle.NoPen)
    if small and sight.scale < OUTLINES_FROM:
        fill(painter, dressed.far, (d.areas for d in ready))
        return
    near = sight.scale >= MARKS_FROM or not small
    if dressed.fill is not None and not sight.over_base_plan:
        fill(painter, dressed.fill, (d.areas for d in ready))
    if dressed.hatch is not None:
        brush = hatching(dressed.hatch, sight.palette, scale=sight.scale, ratio=sight.ratio)
        fill(painter, brush, (d.areas for d in ready))
    if near or look.solid:
        fill(painter, dressed.solid, (d.solids for d in ready))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(dressed.pen)
    _outlines(painter, ready, near=near)
    if near:
        _near(painter, dressed, ready, sight)
    _stamps(painter, look, dressed, ready, sight)


def _near(painter: QPainter, dressed: Style, ready: Sequence[Drawn], sight: Sight) -> None:
    """Draw what is too fine to be seen from afar."""
    painter.setPen(dressed.edge)
    _draw(painter, (d.solids for d in ready))
    painter.setPen(dressed.thin)
    _draw(painter, (d.thin for d in ready))
    if sight.scale >= LABELS_FROM:
        _draw(painter, (d.dotted for d in ready))


def fill(
    painter: QPainter, brush: QBrush | QColor, paths: Iterable[QPainterPath | None]
) -> None:
    """Fill paths, without their outline."""
    painter.setBrush(brush)
    _draw(painter, paths)


def _draw(painter: QPainter, paths: Iterable[QPainterPath | None]) -> None:
    for path in paths:
        if path is not None:
            painter.drawPath(path)


def _outlines(painter: QPainter, ready: Sequence[Drawn], *, near: bool) -> None:
    for piece in ready:
        if piece.segments:
            painter.drawLines(piece.segments)
    _draw(painter, (d.dashes if near else d.outline for d in ready if not d.segments))


def _stamps(
    painter: QPainter, look: Look, dressed: Style, ready: Sequence[Drawn], sight: Sight
) -> None:
    """Draw symbols and letters: upright, at whole pixels of the screen."""
    points = [d for d in ready if len(d.points)] if look.symbol else []
    letters = [d.letters for d in ready if len(d.letters)]
    painter.save()
    painter.resetTransform()
    if points:
        _symbols(painter, look, dressed, points, sight)
    if letters and look.along is not None and sight.scale >= MARKS_FROM:
        _letters(
            painter, look.along.text, dressed, sight.pixels(np.concatenate(letters)), sight
        )
    painter.restore()


def _symbols(
    painter: QPainter, look: Look, dressed: Style, ready: Sequence[Drawn], sight: Sight
) -> None:
    """Draw symbols as large as their look, or as the thing itself where that is larger."""
    # from far off a symbol shrinks with the ground: it is never larger than at 1:400
    shrunk = min(1.0, 2 * sight.scale * PAPER_MM / PX_PER_MM)
    least = shrunk * look.symbol_mm * PX_PER_MM * SYMBOL_GROWTH
    side = max(round(least), 2)
    picture = stamp(look.symbol, dressed.colour.name(), side, sight.ratio)
    broad = np.concatenate([d.across for d in ready]) * sight.scale / symbol(look.symbol).core
    places = sight.pixels(np.concatenate([d.points for d in ready]))
    turns = np.concatenate([d.turns for d in ready]).tolist()
    for (x, y), size, turn in zip(places, broad.tolist(), turns, strict=True):
        if size <= side and not turn:
            painter.drawPixmap(x - side // 2, y - side // 2, picture)
        else:
            place = (x, y, max(size, least))
            draw_large(painter, look.symbol, dressed.pen, place, turn)


def _letters(
    painter: QPainter, text: str, dressed: Style, places: list[list[int]], sight: Sight
) -> None:
    half = LETTER_PX // 2
    font = painter.font()
    font.setPixelSize(LETTER_PX)
    painter.setFont(font)
    painter.setPen(dressed.colour)
    ground = QColor(sight.palette.ground)
    for x, y in places:
        box = QRectF(x - half, y - half, 2 * half, 2 * half)
        painter.fillRect(box, ground)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
