"""Areas as ink: flat colour, hatch, outline, and the strokes that tell the state of a grave."""

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.drawing.along import decorated, scalloped
from plan_editor.drawing.hatching import hatched
from plan_editor.drawing.ink import Fill, Ink, Points, Stroke
from plan_editor.drawing.rings import rings_of
from plan_editor.plan.look import Across, Along, Look, Mark, Pen

HEAD_BAR = 0.5
"""Width of the bar across the head end, in millimetres."""

_BAR_PART = 0.6
_FACE_MM = 1.2
_THIN = 0.18


def area_ink(
    areas: NDArray[np.object_], look: Look, rectangles: NDArray[np.object_]
) -> tuple[Ink, ...]:
    """Return the ink of areas on paper.

    Args:
        areas: all of them.
        look: how they are drawn.
        rectangles: those of them whose outline begins with a head line.
    """
    rings = rings_of(areas)
    ink: list[Ink] = []
    if look.fill:
        ink.append(Fill(rings=rings, colour=look.fill))
    if look.hatch:
        ink.extend(hatched(areas, look.hatch))
    if look.pen:
        ink.extend(_outlined(rings, look, look.pen))
        ink.extend(_strokes(rectangles, look, look.pen))
    return tuple(ink)


def _outlined(rings: tuple[Points, ...], look: Look, pen: Pen) -> tuple[Ink, ...]:
    if look.solid:
        # filled to its edge: a pen would make a stone larger than it is
        return (Fill(rings=rings, colour=pen.colour),)
    if look.along and look.along.mark is Mark.SCALLOPS:
        return (scalloped(rings, look.along, pen),)
    outline = Stroke(lines=rings, pen=pen, closed=True)
    return (outline, *_along(rings, look.along, pen)) if look.along else (outline,)


def _along(rings: tuple[Points, ...], along: Along, pen: Pen) -> tuple[Ink, ...]:
    closed = tuple(np.vstack([ring, ring[:1]]) for ring in rings)
    _, *marks = decorated(closed, along, pen)
    return tuple(marks)


def _strokes(rectangles: NDArray[np.object_], look: Look, pen: Pen) -> tuple[Ink, ...]:
    wanted = look.head_bar or look.face or look.across is not Across.NONE
    if not wanted or not len(rectangles):
        return ()
    corners = shapely.get_coordinates(shapely.get_exterior_ring(rectangles)).reshape(-1, 5, 2)
    ink: list[Ink] = []
    if look.head_bar:
        ink.append(Stroke(lines=_bars(corners), pen=Pen(width=HEAD_BAR, colour=pen.colour)))
    if look.face:
        ink.append(Stroke(lines=_faces(corners), pen=Pen(width=_THIN, colour=pen.colour)))
    diagonals = {Across.NONE: (), Across.ONE: ((0, 2),), Across.TWO: ((0, 2), (1, 3))}
    lines = tuple(d for ends in diagonals[look.across] for d in corners[:, ends])
    if lines:
        ink.append(Stroke(lines=lines, pen=Pen(width=pen.width, colour=pen.colour)))
    return tuple(ink)


def _bars(corners: Points) -> tuple[Points, ...]:
    start, end = corners[:, 0], corners[:, 1]
    middle, half = (start + end) / 2, (end - start) * _BAR_PART / 2
    return tuple(np.stack([middle - half, middle + half], axis=1))


def _faces(corners: Points) -> tuple[Points, ...]:
    middle = (corners[:, 0] + corners[:, 1]) / 2
    back = corners[:, 3] - corners[:, 0]
    out = -back / np.hypot(back[:, 0], back[:, 1])[:, None] * _FACE_MM
    return tuple(np.stack([middle, middle + out], axis=1))
