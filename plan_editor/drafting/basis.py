"""How the place of something drawn by hand is known: the base plan that it was traced on."""

from shapely.geometry.base import BaseGeometry

from plan_editor.ground.base_plans import laid
from plan_editor.ground.traced import traced_sd
from plan_editor.plan.item import Basis, ItemId, Method
from plan_editor.plan.plan import Plan


def traced_on(plan: Plan, shape: BaseGeometry) -> Basis:
    """Return the basis of a shape that was drawn over the plan.

    It is traced on the base plan laid last of those that are shown and lie under all of it;
    where there is none, nothing is claimed.
    """
    for under in reversed(laid(plan)):
        outline = plan.items[under.item].shape
        if under.shown and outline is not None and outline.covers(shape):
            return traced(plan, under.item)
    return Basis()


def traced(plan: Plan, base_plan: ItemId) -> Basis:
    """Return the basis of what was traced on a base plan.

    It is as uncertain as that lies on the ground, and as a hand points: ``traced_sd``.
    """
    under = plan.items[base_plan]
    return Basis(
        method=Method.TRACED,
        source=under.details.name,
        base_plan=base_plan,
        sd_m=traced_sd(under),
    )
