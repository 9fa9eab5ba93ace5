"""Lines and texts of a drawing, gathered in arrays so that a block is moved in one step."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Space = NDArray[np.float64]
"""An array of shape (n, 3): x, y, z in the units of the drawing."""

Matrix = NDArray[np.float64]
"""Of shape (4, 4); a row (x, y, z, 1) times it is the place it goes to."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """What a block or a whole drawing comes to.

    Args:
        points: those of all lines, one line after another, shape (n, 3).
        lengths: how many points each line has.
        texts: what is written.
        frames: for each text its place, and the height of its capitals along and across the
            writing, as rows; shape (m, 3, 3).
        left_out: how many of what were left out.
    """

    points: Space = field(default_factory=lambda: np.empty((0, 3)))
    lengths: NDArray[np.int64] = field(default_factory=lambda: np.empty(0, dtype=np.int64))
    texts: tuple[str, ...] = ()
    frames: Space = field(default_factory=lambda: np.empty((0, 3, 3)))
    left_out: "Counter[str]" = field(default_factory=Counter)

    def moved(self, matrix: Matrix) -> "Pieces":
        """Return them where a matrix puts them."""
        linear, shift = matrix[:3, :3], matrix[3, :3]
        frames = self.frames @ linear
        frames[:, 0] += shift
        return Pieces(
            points=self.points @ linear + shift,
            lengths=self.lengths,
            texts=self.texts,
            frames=frames,
            left_out=self.left_out,
        )

    def finite(self) -> "Pieces":
        """Return them without lines and texts that have a coordinate that is no number."""
        starts = np.cumsum(self.lengths) - self.lengths
        sound = np.asarray(np.isfinite(self.points).all(axis=1))
        kept = np.logical_and.reduceat(sound, starts) if len(starts) else sound[:0]
        written = np.asarray(np.isfinite(self.frames).all(axis=(1, 2)))
        lost = int((~kept).sum() + (~written).sum())
        return Pieces(
            points=self.points[np.repeat(kept, self.lengths)],
            lengths=self.lengths[kept],
            texts=tuple(t for t, good in zip(self.texts, written, strict=True) if good),
            frames=self.frames[written],
            left_out=self.left_out + Counter({NO_NUMBER: lost}),
        )


NO_NUMBER = "no number"
"""What is left out because a coordinate of it is infinite or no number at all."""


def pieces_of(lines: Sequence[Space]) -> Pieces:
    """Return lines, each of shape (n, 3), as pieces; one of a single point is dropped."""
    lines = [line for line in lines if len(line) > 1]
    if not lines:
        return Pieces()
    return Pieces(points=np.concatenate(lines), lengths=np.array([len(line) for line in lines]))


def together(parts: Iterable[Pieces]) -> Pieces:
    """Return all of them as one."""
    parts = [Pieces(), *parts]
    return Pieces(
        points=np.concatenate([p.points for p in parts]),
        lengths=np.concatenate([p.lengths for p in parts]),
        texts=tuple(t for p in parts for t in p.texts),
        frames=np.concatenate([p.frames for p in parts]),
        left_out=sum((p.left_out for p in parts), Counter()),
    )
