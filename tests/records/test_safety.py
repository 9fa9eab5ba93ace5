from dataclasses import replace

import pytest

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import gate, inspection, memorial, tree, wall
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.inspection import Test as How
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.methods import method_for
from plan_editor.records.safety import latest_inspections, standings, unsafe

STONE = new_item(memorial.KIND, Rectangle(east=0, north=0, width=0.8, length=0.2), number="A 1")


def plan_with(*inspections):
    found = [
        new_item(
            inspection.KIND,
            details=InspectionDetails(target=STONE.id, date=date, result=result),
        )
        for date, result in inspections
    ]
    stray = new_item(inspection.KIND, details=InspectionDetails(date="2026-01-01"))
    return plan_of([STONE, *found, stray])


FAILED, SOUND, MINOR = Result.IMMEDIATE, Result.SOUND, Result.MINOR
SAFE = Result.MADE_SAFE


@pytest.mark.parametrize(
    ("inspections", "is_unsafe"),
    [
        ([], False),
        ([("2026-03-14", FAILED)], True),
        ([("2026-03-14", MINOR)], False),
        ([("2024-03-14", FAILED), ("2026-03-14", SOUND)], False),
        # entered out of order: the dates count
        ([("2026-03-14", SOUND), ("2024-03-14", FAILED)], False),
        ([("2024-03-14", SOUND), ("2026-03-14", FAILED)], True),
        # one day: nobody can tell which came first
        ([("2026-03-14", FAILED), ("2026-03-14", SOUND)], True),
        ([("2026-03-14", SOUND), ("2026-03-14", FAILED)], True),
        # what was made safe on the day of its failure was made safe after it
        ([("2026-03-14", FAILED), ("2026-03-14", SAFE)], False),
        ([("2026-03-14", SAFE), ("2026-03-14", FAILED)], False),
        ([("2026-03-14", SAFE), ("2026-03-15", FAILED)], True),
        ([("2026", SAFE), ("2026", FAILED)], True),
        # without a result it counts for nothing
        ([("2026-03-14", None)], False),
        ([("2024-03-14", FAILED), ("2026-03-14", None)], True),
        # doubtful dates never make a stone safe
        ([("", FAILED), ("2026-03-14", SOUND)], True),
        ([("2026-03-14", FAILED), ("", SOUND)], True),
        ([("2026", FAILED), ("2026-03-14", SOUND)], True),
        ([("2026-03-14", FAILED), ("2026", SOUND)], True),
        ([("2025", FAILED), ("2026", SOUND)], False),
        # one that is surely later is enough, whatever else there is
        ([("2024-03-14", FAILED), ("2026-03-14", SOUND), ("", SOUND)], False),
    ],
)
def test_the_latest_inspection_counts(inspections, is_unsafe):
    assert unsafe(plan_with(*inspections)) == ((STONE.id,) if is_unsafe else ())


@pytest.mark.parametrize(("on", "is_unsafe"), [("2025-06-30", True), ("2023-01-01", False)])
def test_on_an_earlier_day_only_what_was_known_then_counts(on, is_unsafe):
    plan = plan_with(("2024-03-14", FAILED), ("2026-03-14", SOUND))
    assert bool(unsafe(plan, on=on)) is is_unsafe


def test_a_standing_tells_all_its_inspections_the_latest_first():
    (standing,) = standings(plan_with(("2024-03-14", FAILED), ("2026-03-14", SOUND)))
    assert [i.details.date for i in standing.inspections] == ["2026-03-14", "2024-03-14"]
    assert standing.latest is standing.inspections[0]
    assert standing.item is STONE


def test_what_came_to_no_result_is_listed_and_does_not_count():
    (standing,) = standings(plan_with(("2024-03-14", SOUND), ("2026-03-14", None)))
    assert [i.details.result for i in standing.inspections] == [None, SOUND]
    assert standing.latest is standing.inspections[1]


def test_an_inspection_of_which_nothing_was_told_makes_no_stone_sound():
    assert InspectionDetails().result is None


def test_what_was_made_safe_is_out_of_danger_until_it_fails_again():
    made_safe = ("2026-03-15", Result.MADE_SAFE)
    assert unsafe(plan_with(("2026-03-14", FAILED), made_safe)) == ()
    assert unsafe(plan_with(("2026-03-15", FAILED), made_safe)) == ()
    assert unsafe(plan_with(("2026-03-14", FAILED), made_safe, ("2026-03-16", FAILED)))


def test_a_tree_a_wall_and_a_gate_can_be_unsafe_too():
    things = [new_item(k.KIND) for k in (tree, wall, gate)]
    found = [
        new_item(
            inspection.KIND,
            details=InspectionDetails(target=t.id, date="2026-03-14", result=FAILED),
        )
        for t in things
    ]
    plan = plan_of([*things, STONE, *found])
    assert set(unsafe(plan)) == {t.id for t in things}
    assert {s.item.id for s in standings(plan) if s.unsafe} == {t.id for t in things}
    assert [s.item for s in standings(plan, kinds=("memorial",))] == [STONE]
    assert set(latest_inspections(plan)) == {t.id for t in things}


@pytest.mark.parametrize("result", [FAILED, SAFE])
def test_what_was_found_unsafe_is_never_pushed(result):
    stone = replace(STONE, details=memorial.MemorialDetails(height_m=1.2))
    found = plan_with(("2026-03-14", result))
    method = method_for(plan_of([stone, *found.of(inspection.KIND)]), stone)
    assert method.test is How.VISUAL
    assert "Do not touch it" in method.says
