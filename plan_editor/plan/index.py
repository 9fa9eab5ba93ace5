"""Where things are and what they are called: kept in step with the plan, change by change."""

from collections.abc import Iterable

from plan_editor.geometry.nearby import BoxTable
from plan_editor.plan.change import Change
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan


class Index:
    """The boxes of all shapes, and the items that bear a number."""

    def __init__(self, plan: Plan) -> None:
        placed = [(i.id, i.box) for i in plan.items.values() if i.box is not None]
        self.boxes: BoxTable[ItemId] = BoxTable()
        self.boxes.put_many([i for i, _ in placed], [b for _, b in placed])
        self._numbers: dict[str, dict[ItemId, None]] = {}
        for item in plan.items.values():
            self._call(item.number, item.id)

    def numbered(self, number: str) -> tuple[ItemId, ...]:
        """Return the items that bear a number; blanks and capitals do not count."""
        return tuple(self._numbers.get(spoken(number), ()))

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
