"""Every item at one moment."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import D_co, Kind
from plan_editor.survey.grids.grid import Grid

Items = Mapping[ItemId, Item[Any]]
_NOTHING: Items = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Every item at one moment. Frozen: an edit makes another plan.

    Args:
        name: what the ground is called: ``St Elfric, Harrowmere``.
        grid: the coordinate system, and where in it the plan's origin lies.
        items: every item by its id.
        by_kind: the same items again, by the name of their kind.
        revision: how many log entries led to it.
    """

    name: str = ""
    grid: Grid = field(default_factory=Grid)
    items: Items = field(default_factory=lambda: _NOTHING)
    by_kind: Mapping[str, Items] = field(default_factory=lambda: MappingProxyType({}))
    revision: int = 0

    def of(self, kind: Kind[D_co]) -> Iterator[Item[D_co]]:
        """Return the items of a kind, in the order in which they came."""
        return iter(self.by_kind.get(kind.name, _NOTHING).values())

    def count(self, kind: Kind) -> int:
        """Return how many items of a kind there are."""
        return len(self.by_kind.get(kind.name, _NOTHING))

    def after(self, changes: Iterable[Change], grid: Grid | None = None) -> "Plan":
        """Return the plan after these changes. Cost: one pass over the ids of the plan.

        Args:
            changes: each item once at most.
            grid: in which it lies then, and in which the changes are told; None for its own.
        """
        changes = tuple(changes)
        by_kind = dict(self.by_kind)
        for name in {_kind_name(c) for c in changes}:
            of_kind = (c for c in changes if _kind_name(c) == name)
            by_kind[name] = _after(by_kind.get(name, _NOTHING), of_kind)
            if not by_kind[name]:  # a plan is what it holds, not what it once held
                del by_kind[name]
        return Plan(
            name=self.name,
            grid=grid or self.grid,
            items=_after(self.items, changes),
            by_kind=MappingProxyType(by_kind),
            revision=self.revision + 1,
        )


def plan_of(
    items: Iterable[Item[Any]], *, name: str = "", grid: Grid | None = None, revision: int = 0
) -> Plan:
    """Return a plan that holds these items."""
    kept = {item.id: item for item in items}
    by_kind: dict[str, dict[ItemId, Item[Any]]] = {}
    for item in kept.values():
        by_kind.setdefault(item.kind.name, {})[item.id] = item
    return Plan(
        name=name,
        grid=grid or Grid(),
        items=MappingProxyType(kept),
        by_kind=MappingProxyType({k: MappingProxyType(v) for k, v in by_kind.items()}),
        revision=revision,
    )


def _kind_name(change: Change) -> str:
    item = change.after or change.before
    return item.kind.name if item is not None else ""


def _after(items: Items, changes: Iterable[Change]) -> Items:
    # a union of a proxy is thirty times faster than dict() of it
    kept: dict[ItemId, Item[Any]] = items | {}  # type: ignore[operator]  # MappingProxyType has |
    for change in changes:
        if change.after is None:
            kept.pop(change.id, None)
        else:
            kept[change.id] = change.after
    return MappingProxyType(kept)
