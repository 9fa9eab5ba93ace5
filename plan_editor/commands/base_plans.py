"""Base plans as lines of a list, and the edits that show, hide and fade them."""

from dataclasses import dataclass
from typing import Any

from plan_editor.edits.basic import Describe
from plan_editor.edits.chosen import called_on
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import BASE_PLAN, Item, ItemId
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class BasePlanLine:
    """One base plan in the list; the misfit in words, empty where none is known."""

    item: ItemId
    name: str
    placed: bool
    misfit: str
    shown: bool
    opacity: float


def lines(plan: Plan) -> tuple[BasePlanLine, ...]:
    """Return every base plan, the first laid first."""
    return tuple(_line(i) for i in plan.by_kind.get(BASE_PLAN, {}).values())


def give_shown(plan: Plan, item: ItemId, *, shown: bool) -> Edit:
    """Return the edit that shows or hides a base plan."""
    return _give(plan, item, "shown", shown)


def give_opacity(plan: Plan, item: ItemId, opacity: float) -> Edit:
    """Return the edit that sets how strongly a base plan shows, from 0 to 1."""
    return _give(plan, item, "opacity", opacity)


def _give(plan: Plan, item: ItemId, name: str, value: Any) -> Edit:
    return Describe(ids=(item,), details=((name, value),), called=called_on(plan, (item,)))


def _line(item: Item[Any]) -> BasePlanLine:
    told = item.details
    return BasePlanLine(
        item=item.id,
        name=told.name,
        placed=bool(told.fit),
        misfit="" if told.rmse_m is None else f"{told.rmse_m:.2f} m",
        shown=told.shown,
        opacity=told.opacity,
    )
