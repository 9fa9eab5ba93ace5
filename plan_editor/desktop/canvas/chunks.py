"""The squares of ground by which a kind is drawn: an edit redraws one of them, not all."""

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import ArrayLike

from plan_editor.geometry.nearby import Box, BoxTable
from plan_editor.plan.item import ItemId

SIDE = 30.0
"""The side of a square, in metres: some 130 graves."""

Key = tuple[int, int]


class Chunks:
    """Which items are drawn in which square: the one that holds the middle of their box."""

    def __init__(self) -> None:
        self._where: dict[ItemId, Key] = {}
        self._items: dict[Key, dict[ItemId, None]] = {}
        self._boxes: BoxTable[Key] = BoxTable()

    def __len__(self) -> int:
        return len(self._where)

    def put_many(self, ids: Sequence[ItemId], boxes: ArrayLike) -> None:
        """Take in many items that were not there.

        Args:
            ids: n items.
            boxes: n rows of least east and north, greatest east and north, in metres.
        """
        rows = np.asarray(boxes, dtype=np.float64).reshape(len(ids), 4)
        keys = np.floor((rows[:, :2] + rows[:, 2:]) / 2 / SIDE).astype(int)
        found, whose = np.unique(keys, axis=0, return_inverse=True)
        order = np.argsort(whose, kind="stable")
        ends = np.searchsorted(whose[order], np.arange(len(found)), side="right")
        begin = 0
        for key, end in zip(map(tuple, found.tolist()), ends.tolist(), strict=True):
            mine = order[begin:end]
            low, high = rows[mine, :2].min(axis=0), rows[mine, 2:].max(axis=0)
            self._widen(key, (*low.tolist(), *high.tolist()))
            inside = self._items.setdefault(key, {})
            for i in mine.tolist():
                inside[ids[i]] = None
                self._where[ids[i]] = key
            begin = end

    def put(self, item: ItemId, box: Box) -> set[Key]:
        """Take in an item or its new place; return the squares that must be drawn anew."""
        touched = self.drop(item)
        key = (int((box[0] + box[2]) / 2 // SIDE), int((box[1] + box[3]) / 2 // SIDE))
        self._widen(key, box)
        self._items.setdefault(key, {})[item] = None
        self._where[item] = key
        return touched | {key}

    def drop(self, item: ItemId) -> set[Key]:
        """Forget an item; return the square that must be drawn anew, if any."""
        key = self._where.pop(item, None)
        if key is None:
            return set()
        del self._items[key][item]
        return {key}

    def items(self, key: Key) -> Iterable[ItemId]:
        """Return the items of a square, in the order in which they came."""
        return self._items[key]

    def meeting(self, boxes: Iterable[Box]) -> list[Key]:
        """Return the squares whose items meet any of some boxes, in a fixed order."""
        return sorted({key for box in boxes for key in self._boxes.within(box)})

    def _widen(self, key: Key, box: Box) -> None:
        # never narrowed: a square that is a little too large is only looked at once too often
        if key in self._boxes:
            w, s, e, n = self._boxes.box(key)
            box = (min(w, box[0]), min(s, box[1]), max(e, box[2]), max(n, box[3]))
        self._boxes.put(key, box)
