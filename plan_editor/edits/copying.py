"""The edits that bring in copies of things: beside them, or from another plan."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any
from uuid import UUID, uuid5

from shapely.geometry.base import BaseGeometry

from plan_editor.edits.chosen import called, chosen, things
from plan_editor.errors import EditRefused
from plan_editor.geometry.moving import moved
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.tolerance import rounded
from plan_editor.plan.change import Change
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Basis, Item, ItemId, new_id
from plan_editor.plan.plan import Plan

Items = tuple[Item[Any], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Duplicate:
    """Lay copies of items beside them, by metres east and north.

    A copy has no number and nobody has measured it; what is recorded stays. A reference to
    another of the copied things leads to its copy; others are left out, because what lies at
    one grave does not lie at two.

    Args:
        seed: the ids of the copies follow from it.
    """

    ids: tuple[ItemId, ...]
    east: float
    north: float
    seed: ItemId = field(default_factory=new_id)
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Duplicate {self.called or things(self.ids)}"

    @property
    def copies(self) -> tuple[ItemId, ...]:
        """The ids of the copies, in the order of what is copied."""
        return derived(self.seed, len(dict.fromkeys(self.ids)))

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the copies as they come.

        Raises:
            EditRefused: one of them is not on the plan, has no place, or is a base plan.
        """
        items = chosen(plan, self.ids)
        for item in items:
            if item.shape is None or item.kind.pinned:
                raise EditRefused(
                    f"{item.called()} is nothing that is laid beside itself. Nothing was"
                    " changed. Choose things on the ground."
                )
        bare = tuple(
            replace(i, number="", basis=Basis()) for i in shifted(items, self.east, self.north)
        )
        return tuple(Change(None, i) for i in renamed(bare, self.copies))


@dataclass(frozen=True, slots=True, kw_only=True)
class Paste:
    """Bring in things that were copied or cut, here or in another plan.

    A number that is taken here is left out; so is what points to something that is not among
    the things.

    Args:
        items: their ids tell them apart among each other only.
        seed: the ids that they are given follow from it.
    """

    items: Items
    seed: ItemId = field(default_factory=new_id)

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Paste {called(self.items)}"

    @property
    def pasted(self) -> tuple[ItemId, ...]:
        """The ids that the things are given, in their order."""
        return derived(self.seed, len(self.items))

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the things as they come.

        Raises:
            EditRefused: two of them bear one id.
        """
        if len({i.id for i in self.items}) != len(self.items):
            raise EditRefused("One thing would be pasted twice at once. Nothing was changed.")
        there = {k: {spoken(i.number) for i in of.values()} for k, of in plan.by_kind.items()}
        free = (_numbered_freely(item, there) for item in self.items)
        return tuple(Change(None, i) for i in renamed(tuple(free), self.pasted))


def derived(seed: ItemId, count: int) -> tuple[ItemId, ...]:
    """Return so many ids that follow from one."""
    return tuple(ItemId(uuid5(UUID(seed), str(n)).hex) for n in range(count))


def shifted(items: Sequence[Item[Any]], east: float, north: float) -> Items:
    """Return items shifted by metres, taken to the whole millimetre; some have no place."""
    east, north = rounded(east), rounded(north)
    return tuple(_shifted(item, east, north) for item in items)


def renamed(items: Sequence[Item[Any]], ids: Sequence[ItemId]) -> Items:
    """Return items under other ids; what points to one of them follows, the rest is dropped."""
    after = {item.id: new for item, new in zip(items, ids, strict=True)}
    return tuple(_renamed(item, after) for item in items)


def outward(items: Iterable[Item[Any]], within: Collection[ItemId]) -> int:
    """Return how many references lead from items to something that is not among these."""
    told = (getattr(i.details, d.name) for i in items for d in i.kind.references())
    return sum(1 for target in told if target is not None and target not in within)


def _shifted(item: Item[Any], east: float, north: float) -> Item[Any]:
    place: BaseGeometry | Rectangle | None = item.rectangle or item.shape
    if isinstance(place, Rectangle):
        return item.on(place.moved(east, north))
    if place is None:
        return item
    return replace(item, shape=moved([place], east, north)[0])


def _renamed(item: Item[Any], after: Mapping[ItemId, ItemId]) -> Item[Any]:
    names = (d.name for d in item.kind.references())
    led = {n: after.get(getattr(item.details, n)) for n in names}
    traced = item.basis.base_plan
    basis = replace(item.basis, base_plan=None if traced is None else after.get(traced))
    details = replace(item.details, **led)
    return replace(item, id=after[item.id], details=details, basis=basis)


def _numbered_freely(item: Item[Any], there: dict[str, set[str]]) -> Item[Any]:
    number = spoken(item.number)
    if not number or not item.kind.numbered:
        return item
    taken = there.setdefault(item.kind.name, set())
    if number in taken:
        return replace(item, number="")
    taken.add(number)
    return item
