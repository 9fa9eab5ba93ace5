"""A step of tracing a family is recorded whole or not at all."""

import pytest

from plan_editor.edits.tracing import RecordStep
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import bench, memorial, tracing
from plan_editor.kinds.tracing import Step, TracingDetails
from plan_editor.plan.item import ItemId, new_item
from plan_editor.plan.plan import plan_of

STONE = new_item(memorial.KIND, Rectangle(east=0, north=0, width=0.8, length=0.2))
BENCH = new_item(bench.KIND, Rectangle(east=4, north=0, width=1.5, length=0.5))
PLAN = plan_of([STONE, BENCH])
THERE = {"stone": STONE.id, "bench": BENCH.id, "nothing": ItemId("0" * 32)}


def recorded(target=STONE.id, **told):
    edit = RecordStep(target=target, details=TracingDetails(**told), called="memorial C 3")
    return edit, edit.changes(PLAN)


def test_a_step_is_recorded_of_its_stone():
    edit, (change,) = recorded(step=Step.NOTICE_ON_STONE, date="2026-03-01", days=28)
    assert edit.title == "Record “notice fixed to the stone” of memorial C 3"
    assert change.before is None
    assert change.after is not None
    assert change.after.kind == tracing.KIND
    assert change.after.details.target == STONE.id


@pytest.mark.parametrize(
    ("target", "told", "says"),
    [
        ("nothing", {"date": "2026"}, "no longer on the plan"),
        ("bench", {"date": "2026"}, "no stone and no grave"),
        ("stone", {}, "without its day"),
        ("stone", {"step": Step.REPLY, "date": "2026", "days": 28}, "runs for no days"),
    ],
)
def test_what_proves_nothing_is_refused(target, told, says):
    with pytest.raises(EditRefused, match=says):
        recorded(THERE[target], **told)
