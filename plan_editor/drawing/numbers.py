"""Where the numbers of graves and other rectangles may stand."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.drawing.along import upright
from plan_editor.drawing.ink import Points
from plan_editor.drawing.lettering import CAPITAL, SMALLEST, size_of, width
from plan_editor.drawing.wish import Wish

NUMBERS = (size_of(2.0), SMALLEST)
"""Sizes of the number of a grave, in millimetres: the smaller where it then fits inside."""

_ENOUGH = 0.7
_THIN_HALO = 0.12
_GAP = 0.55
_WITHIN = 0.35


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Rectangles:
    """Rectangles on paper: middles of head and foot, unit ways, sizes, and turn of the text."""

    head: Points
    foot: Points
    down: Points
    along: Points
    length: Points
    broad: Points
    level: NDArray[np.bool_]
    turn: Points


def _rectangles(shapes: NDArray[np.object_]) -> _Rectangles:
    corners = shapely.get_coordinates(shapely.get_exterior_ring(shapes)).reshape(-1, 5, 2)
    head = (corners[:, 0] + corners[:, 1]) / 2
    foot = (corners[:, 2] + corners[:, 3]) / 2
    length = np.hypot(*(foot - head).T)
    broad = np.hypot(*(corners[:, 1] - corners[:, 0]).T)
    down = (foot - head) / length[:, None]
    turn = np.degrees(np.arctan2(down[:, 1], down[:, 0]))
    # text runs along whichever side is nearer to level
    level = np.abs((turn + 90.0) % 180.0 - 90.0) <= 45.0
    return _Rectangles(
        head=head,
        foot=foot,
        down=down,
        along=(corners[:, 1] - corners[:, 0]) / broad[:, None],
        length=length,
        broad=broad,
        level=level,
        turn=np.where(level, turn, turn + 90.0),
    )


def numbers_at(
    shapes: NDArray[np.object_], texts: list[str], owns: list[int], like: str
) -> list[Wish]:
    """Return the numbers of rectangles: outside the foot, or else inside it, or else beside."""
    found = _rectangles(shapes)
    widths = np.array([width(t) for t in texts])
    tried = [(size, _places(found, widths * size, size * CAPITAL)) for size in NUMBERS]
    size, places = next(
        (t for t in tried if (~np.isnan(t[1][:, 1, 0])).mean() >= _ENOUGH), tried[0]
    )
    middle = (found.head + found.foot) / 2
    return [
        Wish(
            text=text,
            places=places[n],
            target=(float(middle[n, 0]), float(middle[n, 1])),
            turn_deg=upright(float(found.turn[n])),
            size=size,
            own=owns[n],
            halo=size * _THIN_HALO,
            like=like,
        )
        for n, text in enumerate(texts)
    ]


def _places(r: _Rectangles, long: Points, high: float) -> Points:
    """Return where the middle of a text may be, (n, 7, 2), the dearest first."""
    deep = np.where(r.level, long, high)[:, None] / 2
    wide = np.where(r.level, high, long)[:, None] / 2
    outside = r.foot + r.down * (deep + _GAP)
    inside = r.foot - r.down * (deep + _WITHIN)
    too_large = (2 * (wide[:, 0] + _WITHIN) > r.broad) | (2 * (deep[:, 0] + _WITHIN) > r.length)
    inside[too_large] = np.nan
    middle = (r.head + r.foot) / 2
    aside = r.along * (r.broad[:, None] / 2 + wide + _GAP)
    return np.stack(
        [
            outside,
            inside,
            outside + r.along * wide,
            outside - r.along * wide,
            r.head - r.down * (deep + _GAP),
            middle + aside,
            middle - aside,
        ],
        axis=1,
    )
