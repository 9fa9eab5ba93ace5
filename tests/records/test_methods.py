"""How a thing is looked at: bands of height as councils use them."""

import pytest

from plan_editor.kinds import bench, building, inspection, memorial, parish, tree, wall
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.inspection import Test as How
from plan_editor.kinds.memorial import MemorialDetails, MemorialForm
from plan_editor.kinds.parish import ParishDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.methods import method_for


def stone(height_m, form=MemorialForm.HEADSTONE):
    return new_item(memorial.KIND, details=MemorialDetails(height_m=height_m, form=form))


@pytest.mark.parametrize(
    ("height_m", "test"),
    [
        # councils after the Ministry of Justice, 2009: by eye under 500 mm, by hand from there,
        # an engineer above 1500 mm
        (0.499, How.VISUAL),
        (0.5, How.HAND),
        (1.5, How.HAND),
        (1.501, How.ENGINEER),
        (None, How.VISUAL),
    ],
)
def test_the_height_says_how_a_memorial_is_tested(height_m, test):
    one = stone(height_m)
    found = method_for(plan_of([one]), one)
    assert found.test is test
    assert found.calls_an_engineer is (test is How.ENGINEER)
    assert "trained" in found.caution


def test_the_parish_may_have_bands_of_its_own():
    # the Institute of Cemetery and Crematorium Management has 625 mm
    figures = ParishDetails(test_height_mm=625.0, engineer_height_mm=1200.0)
    here = new_item(parish.KIND, details=figures)
    low, tall = stone(0.6), stone(1.3)
    plan = plan_of([low, tall, here])
    assert method_for(plan, low).test is How.VISUAL
    assert method_for(plan, tall).test is How.ENGINEER
    assert "1200 mm" in method_for(plan, tall).says


@pytest.mark.parametrize(("height_m", "test"), [(0.624, How.HAND), (0.625, How.FORCE)])
def test_after_a_fault_a_gauge_is_used_from_625_mm(height_m, test):
    one = stone(height_m)
    told = InspectionDetails(target=one.id, date="2025-03-14", result=Result.MINOR)
    plan = plan_of([one, new_item(inspection.KIND, details=told)])
    assert method_for(plan, one).test is test
    assert method_for(plan, one, on="2025-01-01").test is How.HAND


def test_a_ledger_is_looked_at_only():
    ledger = stone(0.9, MemorialForm.LEDGER)
    assert method_for(plan_of([ledger]), ledger).test is How.VISUAL


def test_a_wall_is_never_pushed_and_a_high_one_asks_for_an_engineer():
    low = new_item(wall.KIND, details=wall.WallDetails(height_m=1.5))
    high = new_item(wall.KIND, details=wall.WallDetails(height_m=2.0))
    unknown = new_item(wall.KIND)
    plan = plan_of([low, high, unknown])
    tests = [method_for(plan, w).test for w in (low, high, unknown)]
    assert tests == [How.VISUAL, How.ENGINEER, How.VISUAL]
    assert all("Never push a wall" in method_for(plan, w).says for w in (low, high))


def test_trees_buildings_and_benches_are_looked_at():
    things = [new_item(k.KIND) for k in (tree, building, bench)]
    plan = plan_of(things)
    found = [method_for(plan, t) for t in things]
    assert {m.test for m in found} == {How.VISUAL}
    assert ["tree inspector" in m.says for m in found] == [True, False, False]
    assert ["architect" in m.says for m in found] == [False, True, False]
