"""The edit that makes things into another kind: a fence that turns out to be a hedge."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from shapely.geometry.base import BaseGeometry

from plan_editor.edits.chosen import chosen, things
from plan_editor.edits.copying import derived
from plan_editor.errors import EditRefused
from plan_editor.geometry.buffers import widened
from plan_editor.geometry.outlines import Rectangle, rectangle_of
from plan_editor.plan.change import Change
from plan_editor.plan.checks import pointing_at
from plan_editor.plan.detail import Detail
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.kind import Form, Kind, kinds
from plan_editor.plan.plan import Plan
from plan_editor.plan.values import fault_of_value, own_choice

Place = BaseGeometry | Rectangle


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeKind:
    """Make items into another kind: each goes, and another comes in its place.

    What is recorded under the same name, with the same sort of value, is kept; so are number,
    status and how the place is known. What pointed to one points to what came in its place.

    Args:
        kind: what they become.
        seed: the ids of what comes follow from it.
    """

    ids: tuple[ItemId, ...]
    kind: Kind
    seed: ItemId = field(default_factory=new_id)
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Make {self.called or things(self.ids)} into {self.kind.one}"

    @property
    def became(self) -> tuple[ItemId, ...]:
        """The ids of what comes, in the order of what goes."""
        return derived(self.seed, len(dict.fromkeys(self.ids)))

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return what goes, what comes, and what points to it then.

        Raises:
            EditRefused: one of them is not on the plan, cannot have that form as the other
                kind, or something points to it that may not point to the other kind.
        """
        items = chosen(plan, self.ids)
        new = dict(zip((i.id for i in items), self.became, strict=True))
        made = tuple(self._made(item, new) for item in items)
        return (
            *(Change(i, None) for i in items),
            *(Change(None, i) for i in made),
            *_following(plan, self.kind, new),
        )

    def _made(self, item: Item[Any], new: Mapping[ItemId, ItemId]) -> Item[Any]:
        place = None if item.kind == self.kind else place_as(item, self.kind)
        if place is None:
            raise EditRefused(
                f"{item.called()} cannot become {self.kind.one}: it has another form, or none."
                " Nothing was changed. Draw it anew instead."
            )
        kept = _kept(item, self.kind)
        led = {
            d.name: new.get(kept[d.name], kept[d.name])
            for d in self.kind.references()
            if d.name in kept
        }
        bare: Item[Any] = replace(
            item,
            id=new[item.id],
            kind=self.kind,
            details=self.kind.details(**{**kept, **led}),
            shape=None,
            rectangle=None,
        )
        return bare.on(place) if isinstance(place, Rectangle) else bare.at(place)


def kinds_for(items: Sequence[Item[Any]]) -> tuple[Kind, ...]:
    """Return the kinds that every one of some items could become, by their titles."""
    found = (
        k
        for k in kinds()
        if k.drawn and not k.pinned and all(i.kind != k and place_as(i, k) for i in items)
    )
    return tuple(sorted(found, key=lambda k: k.title)) if items else ()


def lost(items: Sequence[Item[Any]], kind: Kind) -> tuple[str, ...]:
    """Return the titles of what is recorded of items and is not of the other kind."""
    titles = (
        d.about.title
        for item in items
        for d in item.kind.entries()
        if d.name not in _kept(item, kind)
        and getattr(item.details, d.name) not in (d.default, None, "")
    )
    return tuple(dict.fromkeys(titles))


def place_as(item: Item[Any], kind: Kind) -> Place | None:
    """Return where an item would lie as another kind; None where that cannot be.

    A line with a width becomes its outline where the other kind has no lines.
    """
    if item.kind.pinned or item.shape is None:
        return None
    match item.form:
        case Form.RECTANGLE if Form.RECTANGLE in kind.forms:
            return item.rectangle
        case Form.RECTANGLE | Form.AREA if Form.RECTANGLE in kind.forms:
            return rectangle_of(item.shape) or item.shape
        case Form.RECTANGLE | Form.AREA:
            return item.shape if Form.AREA in kind.forms else None
        case Form.LINE if Form.LINE not in kind.forms and Form.AREA in kind.forms:
            width = item.kind.width_m(item.details)
            return widened(item.shape, width) if width else None
        case form:
            return item.shape if form in kind.forms else None


def _kept(item: Item[Any], kind: Kind) -> dict[str, Any]:
    """Return what is recorded of an item that another kind can hold, by its names there."""
    there = {d.name: d for d in item.kind.entries()}
    alike = (d for d in kind.entries() if d.name in there and _alike(there[d.name], d))
    values = ((d, own_choice(d, getattr(item.details, d.name))) for d in alike)
    return {d.name: value for d, value in values if not fault_of_value(d, value)}


def _alike(own: Detail, other: Detail) -> bool:
    return (
        own.value == other.value
        and own.choices == other.choices
        and set(own.about.refers_to) <= set(other.about.refers_to)
    )


def _following(plan: Plan, kind: Kind, new: Mapping[ItemId, ItemId]) -> Iterator[Change]:
    """Return what points to the items, pointing to what comes in their place."""
    referring = {i.id: i for i, _, _ in pointing_at(plan, new.keys()) if i.id not in new}
    for item in referring.values():
        led = {}
        for detail in item.kind.references():
            target = getattr(item.details, detail.name)
            if target not in new:
                continue
            if kind.name not in detail.about.refers_to:
                raise EditRefused(
                    f"{item.called()} points to {plan.items[target].called()} as"
                    f" “{detail.about.title}”, and cannot point to {kind.one}. Nothing was"
                    " changed. Change or remove that first."
                )
            led[detail.name] = new[target]
        yield Change(item, replace(item, details=replace(item.details, **led)))
