"""Lines as ink: one stroke, or two edges to scale where they have a width."""

from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.along import decorated, scalloped
from plan_editor.drawing.hatching import hatched
from plan_editor.drawing.ink import Fill, Ink, Points, Stroke
from plan_editor.drawing.rings import lines_of, rings_of
from plan_editor.plan.look import Look, Mark, Pen

THINNEST = 0.5
"""A line thinner than this on paper is one stroke of this width, in millimetres."""

_HAIR = 0.001
_MITRE = 2.0


def line_ink(lines: NDArray[np.object_], look: Look, widths: Points) -> tuple[Ink, ...]:
    """Return the ink of lines on paper, each with its width to scale (0.0 of none)."""
    wide = widths >= THINNEST
    thin = (widths > 0.0) & ~wide
    return (
        *_wide(lines[wide], look, widths[wide]),
        *_plain(lines[thin], look, THINNEST),
        *_plain(lines[widths == 0.0], look, None),
    )


def _plain(lines: NDArray[np.object_], look: Look, width: float | None) -> tuple[Ink, ...]:
    if not len(lines) or look.pen is None:
        return ()
    pen = look.pen if width is None else replace(look.pen, width=width)
    points = lines_of(lines)
    if look.along:
        return decorated(points, look.along, pen)
    return (Stroke(lines=points, pen=pen),)


def _wide(lines: NDArray[np.object_], look: Look, widths: Points) -> tuple[Ink, ...]:
    if not len(lines):
        return ()
    strips = shapely.buffer(
        lines, widths / 2, cap_style="flat", join_style="mitre", mitre_limit=_MITRE
    )
    # joined, so that the edges run round a crossing and not through it
    merged = shapely.get_parts(shapely.union_all(strips))
    ink: list[Ink] = []
    if look.fill:
        ink.append(Fill(rings=rings_of(merged), colour=look.fill))
    if look.hatch:
        ink.extend(hatched(merged, look.hatch))
    if look.pen:
        ink.extend(_edges(merged, lines, widths, look))
        ink.extend(_middle(lines, look, look.pen))
    return tuple(ink)


def _edges(
    merged: NDArray[np.object_], lines: NDArray[np.object_], widths: Points, look: Look
) -> tuple[Ink, ...]:
    pen = look.pen or Pen()
    if look.along and look.along.mark is Mark.SCALLOPS:
        return (scalloped(rings_of(merged), look.along, pen),)
    if not look.edges_only:
        return (Stroke(lines=rings_of(merged), pen=pen, closed=True),)
    ends = shapely.buffer(_ends(lines, widths), _HAIR, cap_style="square")
    edges = shapely.difference(shapely.boundary(merged), shapely.union_all(ends))
    whole = shapely.line_merge(edges)
    return (Stroke(lines=lines_of(whole), pen=pen),)


def _middle(lines: NDArray[np.object_], look: Look, pen: Pen) -> tuple[Ink, ...]:
    if look.along is None or look.along.mark is Mark.SCALLOPS:
        return ()
    _, *marks = decorated(lines_of(lines), look.along, pen)
    return tuple(marks)


def _ends(lines: NDArray[np.object_], widths: Points) -> NDArray[np.object_]:
    """Return the short lines across both ends of each strip."""
    across: list[BaseGeometry] = []
    for line, width in zip(lines, widths, strict=True):
        if line.is_closed:
            continue
        points = shapely.get_coordinates(line)
        for end, inner in ((points[0], points[1]), (points[-1], points[-2])):
            way = (end - inner) / np.hypot(*(end - inner))
            side = way[::-1] * (-0.5, 0.5) * width
            across.append(shapely.linestrings([end - side, end + side]))
    return np.array(across, dtype=object)
