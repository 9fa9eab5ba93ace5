"""What lies in a box or near a point: a table of bounding boxes, the only index of places.

Four contiguous columns of numbers are looked through whole at every question. That takes
hundredths of a millisecond for ten thousand boxes, and keeping it in step takes microseconds a
change, where a tree would have to be built anew.
"""

from collections.abc import Hashable, Sequence
from math import isnan
from typing import Generic, TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

K = TypeVar("K", bound=Hashable)

Box = tuple[float, float, float, float]
"""Least east, least north, greatest east, greatest north, in metres."""

Rows = NDArray[np.intp]

_LEAST_ROOM = 64


class BoxTable(Generic[K]):
    """Boxes by the id of what they belong to. Answers come in no order."""

    def __init__(self) -> None:
        self._columns = np.empty((4, _LEAST_ROOM))
        self._ids: list[K] = []
        self._rows: dict[K, int] = {}

    def __len__(self) -> int:
        return len(self._ids)

    def __contains__(self, key: object) -> bool:
        return key in self._rows

    def box(self, key: K) -> Box:
        """Return the box of an id.

        Raises:
            KeyError: it has none.
        """
        west, south, east, north = self._columns[:, self._rows[key]].tolist()
        return west, south, east, north

    def extent(self) -> Box | None:
        """Return the box round everything, or None where there is nothing."""
        if not self._ids:
            return None
        west, south, east, north = self._used()
        return float(west.min()), float(south.min()), float(east.max()), float(north.max())

    def put(self, key: K, box: Sequence[float]) -> None:
        """Keep the box of an id in place of the one it had; an empty box (NaN) drops it."""
        if any(map(isnan, box)):
            self.drop(key)
            return
        row = self._row_for(key)  # first: it may exchange the columns for roomier ones
        self._columns[:, row] = box

    def put_many(self, keys: Sequence[K], boxes: ArrayLike) -> None:
        """Keep many boxes at once, as ``put`` would one after another.

        Args:
            keys: n ids.
            boxes: n rows of least east, least north, greatest east, greatest north.
        """
        rows = np.asarray(boxes, dtype=np.float64).reshape(len(keys), 4)
        empty = np.isnan(rows).any(axis=1)
        if empty.any():
            for key, box in zip(keys, rows.tolist(), strict=True):
                self.put(key, box)
            return
        taken = [self._row_for(key) for key in keys]
        self._columns[:, taken] = rows.T

    def drop(self, key: K) -> None:
        """Forget the box of an id, if it has one."""
        row = self._rows.pop(key, None)
        if row is None:
            return
        last = self._ids.pop()
        if row < len(self._ids):  # the last row moves into the gap
            self._ids[row] = last
            self._rows[last] = row
            self._columns[:, row] = self._columns[:, len(self._ids)]

    def within(self, box: Sequence[float]) -> tuple[K, ...]:
        """Return the ids whose boxes meet this one; touching counts."""
        return self._named(self._meeting(*box))

    def near(self, east: float, north: float, reach: float) -> tuple[K, ...]:
        """Return the ids whose boxes come within reach, in metres, of a point or hold it."""
        rows = self._meeting(east - reach, north - reach, east + reach, north + reach)
        least_e, least_n, most_e, most_n = self._columns[:, rows]
        de = np.maximum(np.maximum(least_e - east, east - most_e), 0.0)
        dn = np.maximum(np.maximum(least_n - north, north - most_n), 0.0)
        return self._named(rows[de * de + dn * dn <= reach * reach])

    def _meeting(self, west: float, south: float, east: float, north: float) -> Rows:
        least_e, least_n, most_e, most_n = self._used()
        meeting = (least_e <= east) & (most_e >= west) & (least_n <= north) & (most_n >= south)
        return np.flatnonzero(meeting)

    def _used(self) -> NDArray[np.float64]:
        return self._columns[:, : len(self._ids)]

    def _named(self, rows: Rows) -> tuple[K, ...]:
        return tuple([self._ids[row] for row in rows.tolist()])

    def _row_for(self, key: K) -> int:
        row = self._rows.get(key)
        if row is None:
            row = self._rows[key] = len(self._ids)
            self._ids.append(key)
            self._make_room(len(self._ids))
        return row

    def _make_room(self, wanted: int) -> None:
        room = self._columns.shape[1]
        if wanted > room:
            roomier = np.empty((4, max(wanted, 2 * room)))
            roomier[:, :room] = self._columns
            self._columns = roomier
