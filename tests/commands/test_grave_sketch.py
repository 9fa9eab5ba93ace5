"""Where entries and graves lie, outlined and looked at."""

import pytest

from plan_editor.commands.grave_sketch import graves_box, graves_sketch
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.item import ItemId, new_item
from plan_editor.plan.plan import plan_of

PLACE = Rectangle(east=10, north=20, width=1.2, length=2.4)
C14 = new_item(grave.KIND, PLACE, number="C 14")
JOHN = new_item(burial.KIND, details=BurialDetails(grave=C14.id))
LOST = new_item(burial.KIND)
PLAN = plan_of((C14, JOHN, LOST))


# 1.2 m along its head line, which leads north, and 2.4 m to the right of it; 6 m all round
def test_an_entry_lies_where_its_grave_lies() -> None:
    assert graves_box(PLAN, JOHN.id) == graves_box(PLAN, C14.id)
    assert graves_box(PLAN, C14.id) == pytest.approx((4.0, 14.0, 18.4, 27.2))
    (line,) = graves_sketch(PLAN, JOHN.id).lines
    assert len(line.points) == 5


def test_what_has_no_place_is_not_looked_at() -> None:
    assert graves_box(PLAN, LOST.id, ItemId("gone")) is None
    assert graves_sketch(PLAN, LOST.id).lines == ()
