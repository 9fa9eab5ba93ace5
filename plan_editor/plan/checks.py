"""What must be true of every plan, whatever edit led to it.

An edit that would break it is refused.
"""

from collections.abc import Callable, Iterable, Iterator
from collections.abc import Set as AbstractSet
from typing import Any

from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import outlines
from plan_editor.geometry.tolerance import FARTHEST
from plan_editor.plan.change import Change
from plan_editor.plan.item import BASE_PLAN, FORM_OF_GEOMETRY, Item, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan
from plan_editor.plan.values import fault_of_value, is_date, is_number, is_text

Numbered = Callable[[str], Iterable[ItemId]]
"""Who bears a number, on the plan as it is."""


def checked(plan: Plan, changes: tuple[Change, ...], numbered: Numbered) -> tuple[Change, ...]:
    """Return the changes as they are, if the plan after them would be true.

    Raises:
        EditRefused: one item is changed twice, or is no longer what it was, or would become
            another kind; a value is not one that its detail may hold; a shape is not one that
            its kind has; a reference would point at nothing; two of a numbered kind would bear
            one number.
    """
    if len({c.id for c in changes}) != len(changes):
        raise EditRefused("One thing would be changed twice in one step. Nothing was changed.")
    for change in changes:
        _check_before(plan, change)
        if change.after is not None and (fault := fault_of(change.after)):
            raise EditRefused(f"{change.after.called()} {fault}. Nothing was changed.")
    _check_rectangles(changes)
    _check_references(plan, changes)
    _check_numbers(plan, changes, numbered)
    return changes


def fault_of(item: Item[Any]) -> str:
    """Return what is wrong with an item by itself, as the end of a sentence, or ""."""
    return _fault_of_shape(item) or _fault_of_basis(item) or _fault_of_details(item)


def references(item: Item[Any]) -> Iterator[tuple[str, tuple[str, ...], ItemId]]:
    """Return each reference of an item: what it is called, the kinds allowed, the item."""
    for detail in item.kind.references():
        if target := getattr(item.details, detail.name):
            yield detail.about.title, detail.about.refers_to, target
    if item.basis.base_plan is not None:
        yield "traced on", (BASE_PLAN,), item.basis.base_plan


def pointing_at(
    plan: Plan, wanted: AbstractSet[ItemId]
) -> Iterator[tuple[Item[Any], str, ItemId]]:
    """Return each reference to one of these: who refers, what it is called, to which.

    Cost: one pass over the plan.
    """
    if not wanted:
        return
    for item in plan.items.values():
        if item.kind.references() or item.basis.base_plan is not None:
            for title, _, target in references(item):
                if target in wanted:
                    yield item, title, target


def _fault_of_shape(item: Item[Any]) -> str:
    if item.shape is None:
        fits = item.rectangle is None and Form.NONE in item.kind.forms
        return "" if fits else "needs a place on the plan"
    if item.shape.geom_type not in FORM_OF_GEOMETRY or not _has_form(item):
        return "cannot have a shape of that form"
    if not item.shape.is_valid:
        return "has an outline that crosses itself"
    # written so that a corner that is not a number is refused too
    if not all(abs(b) <= FARTHEST for b in item.shape.bounds):
        return "lies more than 100 km from the plan's origin"
    return ""


def _has_form(item: Item[Any]) -> bool:
    # a loose area may stand for a rectangle: an old family plot, or what a program drew
    loose = item.form is Form.AREA and Form.RECTANGLE in item.kind.forms
    return loose or item.form in item.kind.forms


def _fault_of_basis(item: Item[Any]) -> str:
    basis = item.basis
    if not all(map(is_text, (item.number, basis.source))):
        return "has a number or a source that is not a text"
    if not is_date(basis.date):
        return f"was measured on “{basis.date}”, which is no date"
    if basis.sd_m is not None and not (is_number(basis.sd_m) and basis.sd_m >= 0.0):
        return "has a standard deviation that is not a length"
    return ""


def _fault_of_details(item: Item[Any]) -> str:
    faults = (fault_of_value(d, getattr(item.details, d.name)) for d in item.kind.entries())
    return next(filter(None, faults), "")


def _check_before(plan: Plan, change: Change) -> None:
    before, after, there = change.before, change.after, plan.items.get(change.id)
    if before is not there and before != there:
        what = next(i.called() for i in (there, before, after) if i is not None)
        raise EditRefused(
            f"{what} is no longer what it was. Nothing was changed. Look at it again, then"
            " repeat this."
        )
    if before is None or after is None:
        return
    if before.kind != after.kind or before.id != after.id:
        raise EditRefused(
            f"{before.called()} cannot become {after.kind.one}. Nothing was"
            " changed. Add that as something new."
        )


def _check_rectangles(changes: Iterable[Change]) -> None:
    held = [c.after for c in changes if c.after is not None and c.after.rectangle is not None]
    wanted = outlines([i.rectangle for i in held if i.rectangle is not None])
    for item, outline in zip(held, wanted, strict=True):
        if item.shape != outline:
            raise EditRefused(
                f"{item.called()} has an outline that is not that of its rectangle."
                " Nothing was changed."
            )


def _check_references(plan: Plan, changes: tuple[Change, ...]) -> None:
    after = {c.id: c.after for c in changes}
    for item in filter(None, after.values()):
        for title, allowed, target in references(item):
            there = after[target] if target in after else plan.items.get(target)
            if there is None or there.kind.name not in allowed:
                what = "something that is not on the plan" if there is None else there.called()
                raise EditRefused(
                    f"{item.called()} would point to {what} as “{title}”. Nothing was changed."
                )
    gone = {i for i, item in after.items() if item is None}
    for item, title, target in pointing_at(plan, gone):
        if item.id not in after:
            raise EditRefused(
                f"{item.called()} still points to {plan.items[target].called()} as “{title}”."
                " Nothing was changed. Remove or change that first."
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
                f"There is already {item.kind.one} numbered {item.number}. Nothing was changed."
            )
        taken.add(key)


def spoken(number: str) -> str:
    """Return a number as it sounds: ``C 14`` and ``c14`` are the same."""
    return "".join(number.split()).casefold()
