"""Who rests at a place, and where the place of an entry or a stone is."""

from typing import Any

from plan_editor.ground.rows import row_of
from plan_editor.kinds import burial
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan


def place_of(plan: Plan, item: ItemId) -> Item[Any] | None:
    """Return where to go for a thing: itself or its grave; None of neither."""
    thing = plan.items[item]
    if thing.shape is not None:
        return thing
    grave = plan.items.get(getattr(thing.details, "grave", None) or ItemId(""))
    return grave if grave is not None and grave.shape is not None else None


def resting_at(plan: Plan, item: ItemId) -> tuple[Item[BurialDetails], ...]:
    """Return the burials of a grave, or of the grave of a stone or an entry, oldest first."""
    thing = plan.items[item]
    if thing.kind == burial.KIND and thing.details.grave is None:
        return (thing,)
    grave = getattr(thing.details, "grave", None) or item
    found = (i for i in plan.of(burial.KIND) if i.details.grave == grave)
    return tuple(sorted(found, key=lambda i: (i.details.buried or i.details.died, i.number)))


def named(entry: Item[BurialDetails]) -> str:
    """Return who was buried and when, as a visitor reads it: ``Ann Weir, buried 1871``."""
    told = entry.details
    name = f"{told.forenames} {told.surname}".strip() or "Name not recorded"
    when = (told.died or told.buried)[:4]
    what = "died" if told.died else "buried"
    return f"{name}, {what} {when}" if when else name


def row_told(plan: Plan, place: ItemId) -> str:
    """Return which one it is in its row, counted from the nearer end; nothing without a row."""
    row = row_of(plan, place)
    if row is None:
        return ""
    ids = list(row.ids)
    at, count = ids.index(place), len(ids)
    near = at < count - at
    end = plan.items[ids[0] if near else ids[-1]]
    nth = at + 1 if near else count - at
    if nth == 1:
        return f"It is the first of {count} in its row."
    return f"It is number {nth} of {count} in its row, counted from {end.called()}."
