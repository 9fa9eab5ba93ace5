"""Where rectangles might lie: every place and size is tried, coarsely, at one bearing.

In a picture turned so that the sides run level and upright, how much of a side of any length is
inked is a difference of two running sums, and four of them say how much of a whole outline is.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from plan_editor.scans.boxes import Boxes
from plan_editor.scans.sought import Size
from plan_editor.scans.strokes import Floats
from plan_editor.scans.turned import Inked

POOL = 2
"""Pixels to a side of those that are searched."""

LEAST_INKED = 0.42
"""An outline of which less is inked, in the coarse, is none."""

NEXT_TO = 2
"""The best within so many coarse pixels each way is kept."""

MOST = 6000
"""Of one piece and bearing no more are kept, the best first."""


def candidates(picture: Inked, size: Size) -> Boxes:
    """Return where rectangles of a size, in pixels, may lie in a turned picture."""
    best, sizes, which = _best(
        _coarse(picture.level, axis=0), _coarse(picture.upright, axis=1), size
    )
    y, x = _peaks(best)
    width, length = sizes[which[y, x]].T
    return Boxes(
        right=POOL * (x + 0.5 + length % 2 / 2),
        down=POOL * (y + 0.5 + width % 2 / 2),
        width=POOL * width.astype(np.float64),
        length=POOL * length.astype(np.float64),
        turn=np.zeros(len(x)),
    )


def _coarse(strokes: Floats, axis: int) -> Floats:
    """Return strokes in coarse pixels, each one as wide as its neighbours to both sides."""
    full = np.minimum(strokes, np.float32(1.0))
    wide = full if axis == 0 else full.T
    thick = wide.copy()
    np.maximum(thick[1:], wide[:-1], out=thick[1:])
    np.maximum(thick[:-1], wide[1:], out=thick[:-1])
    high, across = (n // POOL * POOL for n in thick.shape)
    pools = thick[:high, :across].reshape(high // POOL, POOL, across // POOL, POOL)
    pooled: Floats = pools.max(axis=(1, 3))
    return pooled if axis == 0 else np.ascontiguousarray(pooled.T)


def _best(
    level: Floats, upright: Floats, size: Size
) -> tuple[Floats, NDArray[np.int64], NDArray[np.int16]]:
    """Return the inked share of the best outline about each place, and of which size it is."""
    sizes = np.array(list(_sizes(size)), dtype=np.int64).reshape(-1, 2)
    best = np.zeros_like(level)
    which = np.zeros(level.shape, dtype=np.int16)
    for n, (width, length, inked) in enumerate(_each_size(level, upright, sizes)):
        rows = slice(width // 2, width // 2 + inked.shape[0])
        columns = slice(length // 2, length // 2 + inked.shape[1])
        better = inked > best[rows, columns]
        best[rows, columns][better] = inked[better]
        which[rows, columns][better] = n
    return best, sizes, which


def _sizes(size: Size) -> Iterator[tuple[int, int]]:
    for width in _steps(size.width.low, size.width.high):
        for length in _steps(size.length.low, size.length.high):
            yield width, length


def _steps(low: float, high: float) -> range:
    first, last = round(low / POOL), round(high / POOL)
    return range(max(2, first), max(2, last) + 1, max(1, round(last / 24)))


def _each_size(
    level: Floats, upright: Floats, sizes: NDArray[np.int64]
) -> Iterator[tuple[int, int, Floats]]:
    high, wide = level.shape
    across = np.pad(np.cumsum(level, axis=1, dtype=np.float32), ((0, 0), (1, 0)))
    downward = np.pad(np.cumsum(upright, axis=0, dtype=np.float32), ((1, 0), (0, 0)))
    for width, length in sizes.tolist():
        if width >= high or length >= wide:
            yield width, length, np.zeros((0, 0), dtype=np.float32)
            continue
        sides = (across[:, length:] - across[:, :-length]) / np.float32(length)
        ends = (downward[width:] - downward[:-width])[:-1] / np.float32(width)
        most = wide - length
        inked = sides[:-width, :most] + sides[width:, :most]
        inked += ends[:, :most]
        inked += ends[:, length:]
        inked *= np.float32(0.25)
        yield width, length, inked


def _peaks(best: Floats) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Return the rows and columns of what is best round about."""
    padded = np.pad(best, NEXT_TO)
    high, wide = best.shape
    round_about = np.zeros_like(best)
    rows = np.zeros((high, wide + 2 * NEXT_TO), dtype=np.float32)
    for n in range(2 * NEXT_TO + 1):
        np.maximum(rows, padded[n : n + high], out=rows)
    for n in range(2 * NEXT_TO + 1):
        np.maximum(round_about, rows[:, n : n + wide], out=round_about)
    y, x = np.nonzero((best >= LEAST_INKED) & (best >= round_about))
    if len(y) > MOST:
        first = np.argsort(-best[y, x], kind="stable")[:MOST]
        y, x = y[first], x[first]
    return y, x
