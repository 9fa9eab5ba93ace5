"""The plan check as window and command line have it: listed, mended, let stand."""

from dataclasses import replace

import pytest
import shapely

from plan_editor.commands.check_sketch import box_of, check_sketch
from plan_editor.commands.checking import (
    check,
    counted,
    counts,
    let_stand,
    mend,
    mend_all,
    tell_again,
)
from plan_editor.drafting.tools import select
from plan_editor.edits.places import Move
from plan_editor.errors import EditRefused, PlanEditorError
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import base_plan, grass, grave, section
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Item, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.session import Session

SPIKED = ((0, 0), (20, 0), (20, 10), (35.0, 10.004), (20, 10.008), (20, 30), (0, 30))


def grave_at(east: float, north: float, number: str = "") -> Item:
    place = Rectangle(east=east, north=north, width=1.22, length=2.74)
    return new_item(grave.KIND, place, number=number, basis=Basis(sd_m=0.02))


def spiked(east: float) -> Item:
    shape = shapely.affinity.translate(shapely.Polygon(SPIKED), east)
    return new_item(section.KIND, shape)


def session(*items: Item) -> Session:
    return Session(Document(plan_of(items)), first=select.TOOL)


def test_faults_come_first_and_are_counted() -> None:
    long = new_item(grave.KIND, Rectangle(east=40, north=0, width=1.2, length=12.0))
    plan = plan_of([long, spiked(100), grave_at(0, 0, "C 14"), grave_at(0, 9, "C-14")])
    checked = check(plan)
    assert checked is not None
    grades = [t.finding.severity.value for t in checked.told]
    assert grades == ["fault", "doubt", "remark"]
    assert counted(checked) == "1 fault, 1 doubt, 1 remark"
    assert [(r.name, n) for r, n in counts(checked)] == [
        ("numbers_twice", 1),
        ("sizes", 1),
        ("spikes", 1),
    ]


def test_a_check_can_be_stopped_and_an_unknown_rule_is_told() -> None:
    assert check(Plan(), cancelled=lambda: True) is None
    with pytest.raises(PlanEditorError, match="There is no rule called “x”"):
        check(Plan(), "x")


def told(of: Session, rule: str = ""):
    checked = check(of.document.plan, rule)
    assert checked is not None
    return checked.told


def test_a_mend_is_one_step_and_leaves_nothing() -> None:
    held = session(spiked(0))
    (one,) = told(held)
    assert mend(held, one).startswith("Done: take a spike out of")
    assert told(held) == ()
    held.document.undo()
    assert len(told(held)) == 1


def test_all_of_a_sort_are_mended_in_one_step() -> None:
    held = session(spiked(0), spiked(100), spiked(200))
    assert mend_all(held, told(held)) == (
        "3 findings are mended, in one step. It can be undone."
    )
    assert told(held) == ()
    assert held.document.undo_title == "Mend 3 findings: spikes in outlines"
    held.document.undo()
    assert len(told(held)) == 3


def test_two_gaps_beside_one_lawn_are_both_filled_in_one_step() -> None:
    boxes = ((0, 0, 20, 30), (20.3, 0, 40, 30), (40.3, 0, 60, 30))
    held = session(*(new_item(grass.KIND, shapely.box(*b)) for b in boxes))
    assert [t.rule.name for t in told(held)] == ["gaps", "gaps"]
    mend_all(held, told(held))
    assert told(held) == ()
    whole = shapely.union_all([i.shape for i in held.document.plan.of(grass.KIND)])
    assert whole.area == pytest.approx(1800.0, abs=0.2)
    held.document.undo()
    assert len(told(held)) == 2


def test_one_alone_of_its_sort_is_called_by_what_is_done() -> None:
    held = session(spiked(0))
    assert mend_all(held, told(held)).startswith("Done: take a spike out of")


def test_what_has_no_mend_is_refused() -> None:
    held = session(grave_at(0, 0), grave_at(0, 1.0))
    (one,) = told(held)
    with pytest.raises(EditRefused, match="Nothing was changed"):
        mend(held, one)
    with pytest.raises(EditRefused, match="None of these"):
        mend_all(held, (one,))


def test_a_finding_of_a_plan_that_has_changed_since_is_not_mended() -> None:
    item = spiked(0)
    held = session(item)
    (one,) = told(held)
    held.apply(Move(ids=(item.id,), east=1.0, north=0.0))
    with pytest.raises(EditRefused, match="changed since it was found"):
        mend(held, one)


def test_what_is_let_stand_is_told_again_once_its_things_change() -> None:
    one, other = grave_at(0, 0), grave_at(0, 1.0)
    held = session(one, other)
    let_stand(held, told(held))
    assert told(held) == ()
    checked = check(held.document.plan)
    assert checked is not None
    assert checked.stand == 1
    held.apply(Move(ids=(one.id,), east=0.0, north=0.01))
    assert len(told(held)) == 1


def test_all_that_was_let_stand_can_be_told_again() -> None:
    held = session(grave_at(0, 0), grave_at(0, 1.0))
    let_stand(held, told(held))
    tell_again(held)
    assert len(told(held)) == 1


def test_the_ground_shows_what_is_shared_with_some_room_round_it() -> None:
    one, other = grave_at(0, 0), grave_at(0, 1.0)
    plan = plan_of([one, other])
    (finding,) = (t.finding for t in told(session(one, other)))
    sketch = check_sketch(plan, finding)
    assert len(sketch.lines) == 3
    assert len(sketch.patches) == 1
    # they share 2.74 m by 0.22 m from (0, 1): 4 m round it
    assert box_of(plan, finding) == pytest.approx((-4.0, -3.0, 6.74, 5.22))


def test_what_has_no_place_has_nowhere_to_look() -> None:
    under = new_item(base_plan.KIND)
    (finding,) = (t.finding for t in told(session(under)))
    assert box_of(plan_of([under]), finding) is None
    placed = replace(finding, place=(5.0, 5.0))
    assert box_of(plan_of([under]), placed) == (1.0, 1.0, 9.0, 9.0)
    there = replace(finding, items=(under.id,))
    assert box_of(plan_of([grave_at(0, 0)]), there) is None
