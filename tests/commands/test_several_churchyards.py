"""Sheets of a plan on which two churchyards lie 600 m apart."""

import pytest
from shapely import box

from plan_editor.commands.churchyards import churchyard_alone, churchyard_names
from plan_editor.commands.making import compose, sheet_named
from plan_editor.errors import CannotUse
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import boundary, grave
from plan_editor.kinds.boundary import BoundaryDetails
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.printing.sheet import Asked, sheets


class NoMedia:
    def read(self, digest: str) -> bytes:
        raise AssertionError(digest)


def yard(name: str, east: float) -> tuple[Item, ...]:
    ground = new_item(
        boundary.KIND, box(east, 0, east + 40, 30), details=BoundaryDetails(name=name)
    )
    places = (
        Rectangle(east=east + 5, north=5 + 2 * n, width=1.2, length=2.4) for n in range(5)
    )
    return (ground, *(new_item(grave.KIND, p) for p in places))


def plan() -> Plan:
    items = (*yard("St Elfric", 0.0), *yard("Upper ground", 640.0))
    return plan_of(items, name="Harrowmere")


SCALED = [s.name for s in sheets() if not s.about and s.name != "month"]
"""Sheets of the whole plan that hold a plan; what needs doing this month holds none."""


@pytest.mark.parametrize("name", SCALED)
def test_one_of_them_is_drawn_at_the_scale_of_one(name: str) -> None:
    asked = Asked(date="2026-05-16", churchyard="Upper ground")
    both = compose(plan(), NoMedia(), sheet_named(name), Asked(date="2026-05-16"))
    alone = compose(plan(), NoMedia(), sheet_named(name), asked)
    # 40 m lie across an A4 sheet at 1:200 as 200 mm, 680 m at no better than 1:2000
    assert alone.scale is not None
    assert both.scale is not None
    assert alone.scale <= 200.0
    assert both.scale >= 1000.0
    assert not any("churchyards" in r for r in alone.remarks)
    (remark,) = (r for r in both.remarks if "churchyards" in r)
    assert "600 m apart" in remark
    assert "St Elfric, Upper ground" in remark


def test_neighbours_are_drawn_together_without_a_word() -> None:
    near = plan_of((*yard("St Elfric", 0.0), *yard("Upper ground", 60.0)))
    assert churchyard_alone(near, "") == (near, ())
    assert churchyard_names(near) == ("St Elfric", "Upper ground")


def test_one_that_is_not_there_is_refused_with_those_that_are() -> None:
    with pytest.raises(CannotUse, match="There are: St Elfric, Upper ground"):
        churchyard_alone(plan(), "Lower ground")
    with pytest.raises(CannotUse, match="None is drawn as an area"):
        churchyard_alone(plan_of([]), "Lower ground")
