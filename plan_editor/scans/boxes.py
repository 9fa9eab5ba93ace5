"""Many rectangles in a picture at once, as columns of numbers in pixels."""

from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray

Column = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Boxes:
    """Rectangles in a north-up picture, each number a column with one entry a rectangle.

    Args:
        right, down: of the middle, from the outer corner of the first pixel.
        width: along the head line.
        length: from head to foot.
        turn: of the head line from the way up, clockwise, in radians: its bearing.
    """

    right: Column
    down: Column
    width: Column
    length: Column
    turn: Column

    def __len__(self) -> int:
        """How many there are."""
        return len(self.right)

    def some(self, which: NDArray[np.bool_] | NDArray[np.int64]) -> "Boxes":
        """Return those that are wanted."""
        return Boxes(**{f.name: getattr(self, f.name)[which] for f in fields(self)})

    def moved(self, right: float, down: float) -> "Boxes":
        """Return them shifted by so many pixels."""
        return replace(self, right=self.right + right, down=self.down + down)

    def turned_about(self, which: NDArray[np.bool_]) -> "Boxes":
        """Return them with the head line of some at the other end."""
        return replace(self, turn=np.where(which, self.turn + np.pi, self.turn))

    def by_run(self, sides: Column) -> Column:
        """Return the mean of what is told of foot, head and long sides, by their lengths."""
        runs = np.stack([self.width, self.width, self.length, self.length], axis=1)
        mean: Column = (sides * runs).sum(axis=1) / runs.sum(axis=1)
        return mean

    def corners(self) -> Column:
        """Return their corners, n by 4 by 2, clockwise from the start of the head line."""
        up = np.stack([np.sin(self.turn), -np.cos(self.turn)], axis=1)
        foot = np.stack([np.cos(self.turn), np.sin(self.turn)], axis=1)
        half_up, half_foot = (
            up * self.width[:, None] / 2,
            foot * self.length[:, None] / 2,
        )
        middle = np.stack([self.right, self.down], axis=1)
        return np.stack(
            [
                middle - half_foot - half_up,
                middle - half_foot + half_up,
                middle + half_foot + half_up,
                middle + half_foot - half_up,
            ],
            axis=1,
        )


def together(boxes: list[Boxes]) -> Boxes:
    """Return all of them as one."""
    return Boxes(
        **{
            f.name: np.concatenate([np.empty(0), *(getattr(b, f.name) for b in boxes)])
            for f in fields(Boxes)
        }
    )
