"""The lines and texts of a foreign drawing laid on the ground, straight or bent."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.drawing.backdrop import Lettering, LineWork
from plan_editor.drawing.ink import Points
from plan_editor.geometry.bending import PARTS, derivatives
from plan_editor.geometry.mappings import Mapping

LOWEST = 1e-9
"""Of a text that has no height the surroundings are looked at so near, in the file's units."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lettered:
    """Texts on the ground; one row each.

    Args:
        texts: what they say.
        places: east and north of where their baselines begin, in metres.
        heights: of the lettering, in metres.
        turns_deg: of their baselines, anticlockwise from east.
    """

    texts: tuple[str, ...]
    places: Points
    heights: NDArray[np.float64]
    turns_deg: NDArray[np.float64]


def lines_on_ground(work: LineWork, mapping: Mapping) -> tuple[Points, ...]:
    """Return the lines that have a length as east and north in metres.

    Where the way to the ground bends, long pieces are given places between, to bend as well.
    """
    lines = [line for line in work.lines if len(line) > 1]
    if not lines:
        return ()
    if not mapping.is_straight:
        lines = _with_places_between(lines)
    ends = np.cumsum([len(line) for line in lines])
    return tuple(np.split(mapping.to_ground(np.concatenate(lines)), ends[:-1]))


def texts_on_ground(texts: tuple[Lettering, ...], mapping: Mapping) -> Lettered:
    """Return texts as they lie on the ground, with their height and turn there."""
    places = np.array([(t.x, t.y) for t in texts], dtype=np.float64).reshape(-1, 2)
    heights = np.array([t.height for t in texts], dtype=np.float64)
    turns = np.radians([t.turn_deg for t in texts])
    local = derivatives(mapping, places, np.maximum(heights, LOWEST))
    along = np.einsum("nij,nj->ni", local, np.stack([np.cos(turns), np.sin(turns)], axis=1))
    stretch = np.hypot(*along.T)
    return Lettered(
        texts=tuple(t.text for t in texts),
        places=mapping.to_ground(places),
        heights=heights * np.abs(np.linalg.det(local)) / stretch,
        turns_deg=np.degrees(np.arctan2(along[:, 1], along[:, 0])),
    )


def _with_places_between(lines: list[Points]) -> list[Points]:
    shapes = shapely.linestrings(
        np.concatenate(lines), indices=np.repeat(np.arange(len(lines)), [len(v) for v in lines])
    )
    x0, y0, x1, y1 = shapely.total_bounds(shapes)
    longest = max(x1 - x0, y1 - y0) / PARTS
    if not longest > 0.0:
        return lines
    return [shapely.get_coordinates(s) for s in shapely.segmentize(shapes, longest)]
