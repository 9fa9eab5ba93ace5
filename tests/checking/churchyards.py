"""Small churchyards for the tests of the plan check, and what is found in them."""

from collections.abc import Iterable
from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.checking.rule import Finding, findings, rule_named
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import base_plan, boundary, grave
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Item, ItemId, Method, new_item
from plan_editor.plan.plan import Plan, plan_of

CONTROL = (0.0, 0.0, 0.0, 40.0, 1000.0, 0.0, 50.0, 40.0, 0.0, 800.0, 0.0, 0.0)
"""Three points of a scan of 1000 by 800 pixels, each 5 cm on the ground: enough for a fit."""


def grave_at(  # noqa: PLR0913  # a test says only what it is about
    east: float,
    north: float,
    number: str = "",
    *,
    sd_m: float | None = 0.02,
    method: Method = Method.TRACED,
    on: ItemId | None = None,
    turned: float = 0.0,
    size: tuple[float, float] = (1.22, 2.74),
) -> Item[Any]:
    """Return a grave with its head to the west, 4 ft by 9 ft, its south-west corner there."""
    place = Rectangle(east=east, north=north, width=size[0], length=size[1], bearing_deg=turned)
    basis = Basis(method=method, sd_m=sd_m, base_plan=on, source="" if on is None else "1962")
    return new_item(grave.KIND, place, number=number, basis=basis)


def ground(shape: BaseGeometry | None = None, *, sd_m: float | None = 0.02) -> Item[Any]:
    """Return a boundary, of 60 m by 40 m where no other is said."""
    shape = shape if shape is not None else shapely.box(-10.0, -10.0, 50.0, 30.0)
    return new_item(boundary.KIND, shape, basis=Basis(sd_m=sd_m))


def old_plan(
    *, miss: float | None = 0.1, sd_m: float | None = 0.07, size: float = 40.0, **details: Any
) -> Item[Any]:
    """Return a base plan that shows a square of ground."""
    told = {"name": "1962", "control": CONTROL, "loo_rmse_m": miss} | details
    return new_item(
        base_plan.KIND,
        shapely.box(0.0, 0.0, size, size),
        details=BasePlanDetails(**told),
        basis=Basis(sd_m=sd_m),
    )


def found(rule: str, items: Iterable[Item[Any]] | Plan) -> tuple[Finding, ...]:
    """Return what a rule finds among these items."""
    plan = items if isinstance(items, Plan) else plan_of(items)
    return tuple(findings(plan, rule_named(rule)))


def mended(rule: str, items: Iterable[Item[Any]]) -> Plan:
    """Return the plan after the one mend there is; it leaves nothing to find, and goes back."""
    before = plan_of(items)
    (finding,) = found(rule, before)
    assert finding.mend is not None
    document = Document(before)
    document.apply(finding.mend)
    after = document.plan
    assert found(rule, after) == ()
    document.undo()
    assert dict(document.plan.items) == dict(before.items)
    return after
