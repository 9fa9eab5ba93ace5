"""Base plans as lines of a list, and the edits that show, hide and fade them."""

from dataclasses import dataclass
from typing import Any

from plan_editor.edits.basic import Describe
from plan_editor.edits.chosen import called_on
from plan_editor.errors import CannotUse
from plan_editor.plan.checks import spoken
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import BASE_PLAN, Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.survey.fits.models import Model


@dataclass(frozen=True, slots=True, kw_only=True)
class BasePlanLine:
    """One base plan in the list.

    Args:
        item: the base plan.
        name: what it is called.
        is_scan: a picture; otherwise a drawing.
        placed: it lies on the ground.
        misfit: in words, empty where none is known.
        fitted: how it was placed, in words; empty where not by points.
        shown, opacity: whether and how strongly it is to be seen.
    """

    item: ItemId
    name: str
    is_scan: bool
    placed: bool
    misfit: str
    fitted: str
    shown: bool
    opacity: float


def lines(plan: Plan) -> tuple[BasePlanLine, ...]:
    """Return every base plan, the first laid first."""
    return tuple(_line(i) for i in plan.by_kind.get(BASE_PLAN, {}).values())


def base_plan_named(plan: Plan, name: str) -> BasePlanLine:
    """Return the base plan of a name; capitals and blanks do not matter.

    Raises:
        CannotUse: there is none, or there are several.
    """
    there = lines(plan)
    found = [one for one in there if spoken(one.name) == spoken(name)]
    if len(found) == 1:
        return found[0]
    if found:
        raise CannotUse(
            f"There are {len(found)} base plans called “{name}”. Nothing was changed. Give one"
            " of them another name."
        )
    names = ", ".join(f"“{one.name}”" for one in there) or "none yet"
    raise CannotUse(
        f"There is no base plan called “{name}”. Nothing was changed. There are: {names}."
    )


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
        is_scan=told.content == "scan",
        placed=bool(told.fit),
        # a warp goes through its points as near as one likes: what it misses shows elsewhere
        misfit=_metres(told.loo_rmse_m if told.model is Model.WARP else told.rmse_m),
        fitted=_fitted(told),
        shown=told.shown,
        opacity=told.opacity,
    )


def _fitted(told: Any) -> str:
    count = len(told.control_points)
    if not (told.fit and count and told.rmse_m is not None):
        return ""
    found = f"Fit: {told.model.value}, by {count} points that agree within {told.rmse_m:.2f} m."
    if told.loo_rmse_m is None:
        return found
    return f"{found} A point left out is missed by {told.loo_rmse_m:.2f} m."


def _metres(misfit: float | None) -> str:
    return "" if misfit is None else f"{misfit:.2f} m"
