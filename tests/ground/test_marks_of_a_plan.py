"""The marks of a plan, and what was measured from them."""

from dataclasses import replace

from yards import mark_at, yard

from plan_editor.ground.marks import marks, measured_from, next_number, standing_marks
from plan_editor.kinds import observation
from plan_editor.plan.item import Status, new_item


def test_marks_that_are_proposed_or_nowhere_do_not_stand():
    proposed = replace(mark_at(1, 1), status=Status.PROPOSED)
    nowhere = replace(mark_at(2, 2), shape=None)
    plan = yard((5, 5), more=[proposed, nowhere])
    assert len(tuple(marks(plan))) == 3
    assert len(standing_marks(plan)) == 1


def test_the_next_number_is_the_first_that_is_free():
    numbered = [replace(mark_at(n, 1), number=n_) for n, n_ in enumerate(("M1", "m 2", "M4"))]
    assert next_number(yard(more=numbered)) == "M3"
    assert next_number(yard()) == "M1"


def test_lines_from_a_mark_and_to_it_are_counted():
    first, other = mark_at(1, 1), mark_at(9, 1)
    lines = [
        new_item(observation.KIND, details=observation.ObservationDetails(**ends))
        for ends in (
            {"from_mark": first.id},
            {"from_mark": other.id, "to_mark": first.id},
            {"from_mark": other.id},
        )
    ]
    plan = yard(more=[first, other, *lines])
    assert measured_from(plan, first.id) == 2
    assert measured_from(plan, other.id) == 2
