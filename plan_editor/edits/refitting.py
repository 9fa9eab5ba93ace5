"""A base plan placed again, and what was traced on it taken along."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.edits.base_plans import base_plan_of, placed_by
from plan_editor.edits.chosen import things
from plan_editor.errors import EditRefused, PlanEditorError
from plan_editor.geometry.mappings import Mapping
from plan_editor.geometry.moving import carried
from plan_editor.geometry.outlines import rectangle_of
from plan_editor.ground.traced import traced_sd
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.survey.fits.models import Control, Model

OUT_OF_SQUARE_M = 1.0
"""A rectangle whose corners go farther than this from any rectangle is not taken along."""

Places = NDArray[np.float64]
Way = Callable[[Places], Places]


@dataclass(frozen=True, slots=True, kw_only=True)
class RefitBasePlan:
    """Place a base plan again, and move what was traced on it as the paper moves under it.

    Each corner goes back to where it was clicked on the paper, and from there to where the new
    fit has that. A rectangle stays one. What was as uncertain as the old fit becomes as
    uncertain as the new one.

    Args:
        id: the base plan.
        control: as many points as the kind of fit takes, or more.
        model: the kind of fit.
        called: what the title calls the things that go along; see ``taking_along``.
    """

    id: ItemId
    control: tuple[Control, ...]
    model: Model = Model.SIMILARITY
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        along = self.called or "what was traced"
        return f"Place a base plan again by {len(self.control)} points, with {along}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the base plan and what was traced on it, before and after.

        Raises:
            EditRefused: the base plan is not on the plan or not placed yet, the points do not
                place it, or something traced on it would cross itself or vanish.
        """
        item = base_plan_of(plan, self.id)
        before = item.details.mapping
        if before is None:
            raise EditRefused(
                f"{item.called()} is not placed yet, so nothing was traced on it. Nothing was"
                " changed. Place it first."
            )
        after = placed_by(item, self.control, self.model)
        there = after.details.mapping
        assert there is not None  # noqa: S101  # it was placed the line before
        return (Change(item, after), *_along(plan, item, after, _way(before, there)))


def taking_along(
    plan: Plan, base_plan: ItemId, control: tuple[Control, ...], model: Model
) -> RefitBasePlan:
    """Return the edit that takes along what is traced on a base plan now, and says how much."""
    called = f"{things([i.id for i in traced(plan, base_plan)])} traced on it"
    return RefitBasePlan(id=base_plan, control=control, model=model, called=called)


def traced(plan: Plan, base_plan: ItemId) -> tuple[Item[Any], ...]:
    """Return what was traced on a base plan and has a place."""
    return tuple(
        i
        for i in plan.items.values()
        if i.basis.base_plan == base_plan and i.id != base_plan and i.shape is not None
    )


def _along(
    plan: Plan, before: Item[BasePlanDetails], after: Item[BasePlanDetails], way: Way
) -> Iterator[Change]:
    items = traced(plan, before.id)
    shapes = carried([o for i in items if (o := _outline(i)) is not None], way)
    for item, shape in zip(items, shapes, strict=True):
        basis = replace(item.basis, sd_m=_as_well_known(item.basis.sd_m, before, after))
        yield Change(item, replace(_moved(item, shape), basis=basis))


def _as_well_known(
    sd: float | None, before: Item[BasePlanDetails], after: Item[BasePlanDetails]
) -> float | None:
    """Return what is stated of something traced that goes along; what was typed stays."""
    if sd == traced_sd(before):
        return traced_sd(after)
    return after.basis.sd_m if sd == before.basis.sd_m else sd


def _outline(item: Item[Any]) -> BaseGeometry | None:
    # the corners of a rectangle lie truer than those of its outline in whole millimetres
    return item.shape if item.rectangle is None else Polygon(item.rectangle.corners())


def _moved(item: Item[Any], shape: BaseGeometry) -> Item[Any]:
    try:
        if item.rectangle is None:
            return item.at(shape)
        if (there := rectangle_of(shape, within=OUT_OF_SQUARE_M)) is not None:
            return item.on(there)
    except ValueError as fault:
        raise EditRefused(_cannot(item, str(fault))) from fault
    raise EditRefused(_cannot(item, "it would no longer be a rectangle"))


def _cannot(item: Item[Any], why: str) -> str:
    return (
        f"{item.called()} was traced on the base plan and cannot go along: {why}. Nothing was"
        " changed. Leave what was traced where it is, or look at the points again."
    )


def _way(before: Mapping, after: Mapping) -> Way:
    def way(places: Places) -> Places:
        if not len(places):
            return places
        try:
            with np.errstate(all="ignore"):
                there = after.to_ground(before.to_paper(places))
        except (PlanEditorError, np.linalg.LinAlgError) as fault:
            raise EditRefused(_NO_WAY) from fault
        if not np.isfinite(there).all():
            raise EditRefused(_NO_WAY)
        return there

    return way


_NO_WAY = (
    "What was traced on the base plan cannot go along: the fit that it had leads to no place on"
    " the paper. Nothing was changed. Leave what was traced where it is."
)
