"""Where things are and what they are called: kept in step with the plan, change by change."""

from collections.abc import Iterable, Iterator

import numpy as np
import shapely

from plan_editor.geometry.nearby import BoxTable
from plan_editor.plan.change import Change
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan


class Index:
    """The boxes of all shapes, and the items that bear a number."""

    def __init__(self, plan: Plan) -> None:
        placed = [i for i in plan.items.values() if i.shape is not None]
        # at one go, as item by item it takes ten times as long
        bounds = shapely.bounds([i.shape for i in placed]).reshape(-1, 4)
        half = np.array([i.kind.width_m(i.details) / 2 for i in placed]).reshape(-1, 1)
        self.boxes: BoxTable[ItemId] = BoxTable()
        self.boxes.put_many([i.id for i in placed], bounds + half * (-1.0, -1.0, 1.0, 1.0))
        self._numbers: dict[str, dict[ItemId, None]] = {}
        for item in plan.items.values():
            self._call(item.number, item.id)

    def numbered(self, number: str) -> tuple[ItemId, ...]:
        """Return the items that bear a number; blanks and capitals do not count."""
        return tuple(self._numbers.get(spoken(number), ()))

    def holding(self, part: str) -> Iterator[ItemId]:
        """Return the items whose number holds a part. Cost: a pass over the numbers."""
        for number, items in self._numbers.items():
            if part in number:
                yield from items

    def follow(self, changes: Iterable[Change]) -> None:
        """Take in what has changed."""
        for change in changes:
            if change.before is not None:
                self._numbers.get(spoken(change.before.number), {}).pop(change.id, None)
            if change.after is not None:
                self._call(change.after.number, change.id)
            box = None if change.after is None else change.after.box
            if box is None:
                self.boxes.drop(change.id)
            else:
                self.boxes.put(change.id, box)

    def _call(self, number: str, item: ItemId) -> None:
        if number:
            self._numbers.setdefault(spoken(number), {})[item] = None
