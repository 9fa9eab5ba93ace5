"""The edit that takes back one earlier entry of the log, though others followed it."""

from dataclasses import dataclass
from typing import Any

from plan_editor.errors import EditRefused
from plan_editor.plan.change import Change
from plan_editor.plan.differences import differences
from plan_editor.plan.document import Entry
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

MOST_NAMED = 3
"""So many things that stand in the way are named."""


class _InTheWay(Exception):  # named for what happened
    """What was done since to a thing, as the middle of a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeBack:
    """Take back what one earlier entry did, and nothing that was done since.

    Of a thing that was changed since, field by field: where a field still has what the entry
    gave it, it gets back what it had. Where it has something else, the edit is refused.

    Args:
        entry: the entry, with its changes.
        day: on which it was made, in words.
        since: of each thing that was changed after it, by what, as the end of a sentence:
            ``by “Turn grave C 14” on 4 May 2026``.
    """

    entry: Entry
    day: str
    since: tuple[tuple[ItemId, str], ...] = ()

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Take back “{self.entry.title}” of {self.day}"

    @property
    def takes_back(self) -> int:
        """The number of the entry."""
        return self.entry.number

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the things without what the entry did to them.

        Raises:
            EditRefused: something that it changed was changed otherwise since, or the plan was
                moved to another grid by it or after it.
        """
        self._refuse_moved_grid(plan)
        made: list[Change] = []
        in_the_way: list[str] = []
        for change in self.entry.changes:
            there = plan.items.get(change.id)
            try:
                made.append(Change(there, _without(change, there)))
            except _InTheWay as found:
                in_the_way.append(self._told(change, there, str(found)))
        if in_the_way:
            raise EditRefused(_refusal(in_the_way))
        return tuple(c for c in made if c.before is not None or c.after is not None)

    def _refuse_moved_grid(self, plan: Plan) -> None:
        if self.entry.moves_grid:
            raise EditRefused(
                "The whole plan was moved to another grid by that, and everything was placed"
                " there since. Nothing was changed. Move the plan back by its marks instead."
            )
        if self.entry.grid != plan.grid and any(map(_is_placed, self.entry.changes)):
            raise EditRefused(
                "The plan was moved to another grid since, so the places of that day are those"
                " of the old grid. Nothing was changed. Look at the plan as it was known then,"
                " and draw it anew."
            )

    def _told(self, change: Change, there: Item[Any] | None, what: str) -> str:
        item = there or change.after or change.before
        assert item is not None  # noqa: S101  # a change has an item on one side
        by = dict(self.since).get(change.id, "")
        return f"{item.called()} was {what} since {by}".strip()


def _without(change: Change, there: Item[Any] | None) -> Item[Any] | None:
    """Return a thing without what a change did to it.

    Raises:
        _InTheWay: it was changed since in a way that speaks against it.
    """
    before, after = change.before, change.after
    if there in (before, after):
        return before
    if there is None:
        raise _InTheWay("removed")
    if before is None or after is None:
        raise _InTheWay("changed" if after is not None else "brought back")
    return _field_by_field(before, after, there)


def _field_by_field(before: Item[Any], after: Item[Any], there: Item[Any]) -> Item[Any]:
    for found in differences(before, after):
        now = found.field.value(there)
        if now == found.after:
            there = found.field.having(there, found.before)
        elif now != found.before:
            raise _InTheWay("changed")
    return there


def _is_placed(change: Change) -> bool:
    """Return whether a change tells of a place, and so holds in its own grid only."""
    sides = tuple(side for side in (change.before, change.after) if side is not None)
    if len(sides) == 1:
        return True  # even what has no shape may tell of a bearing or of points
    return any(d.field.is_place for d in differences(*sides))


def _refusal(in_the_way: list[str]) -> str:
    more = len(in_the_way) - MOST_NAMED
    rest = f", and {more} more stand in the way" if more > 0 else ""
    named = "; ".join(in_the_way[:MOST_NAMED])
    return f"{named}{rest}. Nothing was changed. Take that back first."
