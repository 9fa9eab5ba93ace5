"""What must be true of every plan, whatever edit led to it.

An edit that would break it is refused.
"""

from collections.abc import Callable, Iterable, Iterator
from collections.abc import Set as AbstractSet
from typing import Any

from plan_editor.errors import EditRefused
from plan_editor.geometry.tolerance import FARTHEST
from plan_editor.plan.change import Change
from plan_editor.plan.item import BASE_PLAN, Item, ItemId
from plan_editor.plan.kind import Detail, Form, Value
from plan_editor.plan.plan import Plan

Numbered = Callable[[str], Iterable[ItemId]]
"""Who bears a number, on the plan as it is."""


def checked(plan: Plan, changes: tuple[Change, ...], numbered: Numbered) -> tuple[Change, ...]:
    """Return the changes as they are, if the plan after them would be true.

    Raises:
        EditRefused: one item is changed twice; a number is outside its range; a shape is not
            one that its kind has; a reference would point at nothing; two of a numbered kind
            would bear one number.
    """
    if len({c.id for c in changes}) != len(changes):
        raise EditRefused("One thing would be changed twice in one step. Nothing was changed.")
    for change in changes:
        if change.after is not None:
            _check_item(change.after)
    _check_references(plan, changes)
    _check_numbers(plan, changes, numbered)
    return changes


def fault_of(item: Item[Any]) -> str:
    """Return what is wrong with an item by itself, as the end of a sentence, or ""."""
    if item.form not in item.kind.forms and not _loose_rectangle(item):
        return "cannot have a shape of that form"
    if item.shape is not None:
        if not item.shape.is_valid:
            return "has an outline that crosses itself"
        if max(abs(b) for b in item.shape.bounds) > FARTHEST:
            return "lies more than 100 km from the plan's origin"
    return next((f for f in map(_fault_in(item), item.kind.entries()) if f), "")


def references(item: Item[Any]) -> Iterator[tuple[str, tuple[str, ...], ItemId]]:
    """Return each reference of an item: what it is called, the kinds allowed, the item."""
    for detail in item.kind.references():
        if target := getattr(item.details, detail.name):
            yield detail.about.title, detail.about.refers_to, target
    if item.basis.base_plan is not None:
        yield "traced on", (BASE_PLAN,), item.basis.base_plan


def pointing_at(plan: Plan, gone: AbstractSet[ItemId]) -> Iterator[tuple[Item[Any], str]]:
    """Return the items that refer to one of these, each with what the reference is called."""
    for item in plan.items.values():
        if item.kind.references() or item.basis.base_plan is not None:
            for title, _, target in references(item):
                if target in gone:
                    yield item, title


def _loose_rectangle(item: Item[Any]) -> bool:
    # an outline that is no rectangle: an old family plot, or what another program drew
    return Form.RECTANGLE in item.kind.forms and item.form is Form.AREA


def _fault_in(item: Item[Any]) -> Any:
    def fault(detail: Detail) -> str:
        value = getattr(item.details, detail.name)
        numbers = value if detail.value is Value.NUMBERS else (value,)
        return next((f for v in numbers if (f := _fault_of_value(detail, v))), "")

    return fault


def _fault_of_value(detail: Detail, value: Any) -> str:
    told = detail.about
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return ""
    unit = f" {told.unit}" if told.unit else ""
    if told.low is not None and not value >= told.low:
        return f"has “{told.title}” {value:g}{unit}; the least is {told.low:g}{unit}"
    if told.high is not None and not value <= told.high:
        return f"has “{told.title}” {value:g}{unit}; the most is {told.high:g}{unit}"
    return ""


def _check_item(item: Item[Any]) -> None:
    if fault := fault_of(item):
        raise EditRefused(f"{item.called()} {fault}. Nothing was changed.")


def _check_references(plan: Plan, changes: tuple[Change, ...]) -> None:
    after = {c.id: c.after for c in changes}
    for item in filter(None, after.values()):
        for title, allowed, target in references(item):
            there = after[target] if target in after else plan.items.get(target)
            if there is None or there.kind.name not in allowed:
                raise EditRefused(
                    f"{item.called()} would point, as “{title}”, at something that is not on"
                    " the plan. Nothing was changed."
                )
    gone = {i for i, item in after.items() if item is None}
    if not gone:
        return
    for item, title in pointing_at(plan, gone):
        if item.id not in after:
            raise EditRefused(
                f"{item.called()} still points to what would be removed, as “{title}”."
                " Remove or change that first. Nothing was changed."
            )


def _check_numbers(plan: Plan, changes: Iterable[Change], numbered: Numbered) -> None:
    after = {c.id: c.after for c in changes}
    taken: set[tuple[str, str]] = set()
    for item in after.values():
        if item is None or not item.number or not item.kind.numbered:
            continue
        key = (item.kind.name, spoken(item.number))
        others = (plan.items[i] for i in numbered(item.number) if i not in after)
        if key in taken or any(o.kind == item.kind for o in others):
            raise EditRefused(
                f"There is already a {item.kind.title.lower()} numbered {item.number}."
                " Nothing was changed."
            )
        taken.add(key)


def spoken(number: str) -> str:
    """Return a number as it sounds: ``C 14`` and ``c14`` are the same."""
    return "".join(number.split()).casefold()
