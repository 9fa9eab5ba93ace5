"""The round of an inspection: what is due, in walking order from a gate."""

from math import hypot

import pytest
import shapely

from plan_editor.errors import CannotUse
from plan_editor.kinds import building, gate, inspection, memorial
from plan_editor.kinds.inspection import Result
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records import inspection_round
from plan_editor.records.inspection_round import NO_GATE, due_round

DAY = "2026-06-01"


def _stone(east, north, number, height_m=1.0):
    return new_item(
        memorial.KIND,
        shapely.Point(east, north).buffer(0.2),
        details=memorial.MemorialDetails(height_m=height_m),
        number=number,
    )


def _looked_at(stone, date, result):
    details = inspection.InspectionDetails(target=stone.id, date=date, result=result)
    return new_item(inspection.KIND, details=details)


def _gate(east, **details):
    return new_item(gate.KIND, shapely.Point(east, 0), details=gate.GateDetails(**details))


def _numbers(told):
    return [s.item.number for s in told.stops if s.item.number]


def _sound_gate(at):
    """Return a gate and an inspection, so that it is not due itself."""
    return at, _looked_at(at, "2026-05-01", Result.SOUND)


def test_a_round_begins_at_the_nearest_gate_and_takes_what_is_due_in_order():
    stones = [_stone(10, 10 * n, f"A {n}") for n in (3, 1, 2)]
    done = _stone(10, 50, "A 5")
    plan = plan_of(
        [
            *_sound_gate(_gate(10)),
            *_sound_gate(_gate(300)),
            *stones,
            done,
            _looked_at(done, "2026-05-01", Result.SOUND),
        ]
    )
    told = due_round(plan, DAY)
    assert _numbers(told) == ["A 1", "A 2", "A 3"]
    assert told.length_m == pytest.approx(30.0, abs=0.05)
    assert told.gate is not None
    assert told.gate.lies.centroid.x == 10
    assert told.straight == (True, True, True)
    assert told.assumed == ()


def test_a_round_tells_how_each_is_looked_at_and_what_was_found():
    small, tall = _stone(0, 5, "A 1", 0.4), _stone(0, 9, "A 2", 2.4)
    plan = plan_of(
        [*_sound_gate(_gate(0)), small, tall, _looked_at(small, "2019", Result.SOUND)]
    )
    first, second = due_round(plan, DAY).stops
    assert first.latest is not None
    assert (first.method.test, second.method.test) == ("visual", "engineer")
    assert second.latest is None


def test_a_round_goes_round_the_church():
    church = new_item(building.KIND, shapely.box(-10, 5, 10, 15))
    plan = plan_of(
        [
            *_sound_gate(_gate(0)),
            church,
            _looked_at(church, "2026-05-01", Result.SOUND),
            _stone(0, 20, "A 1"),
        ]
    )
    told = due_round(plan, DAY)
    # two corners, each passed at 0.3 m
    assert told.length_m == pytest.approx(2 * hypot(10.3, 4.7) + 10.6, abs=0.02)
    assert told.straight == (False,)


def test_locked_gates_are_used_where_there_is_no_other():
    locked = _sound_gate(_gate(0, locked=True))
    assert due_round(plan_of([*locked, _stone(0, 5, "A 1")]), DAY).gate == locked[0]
    both = [*locked, *_sound_gate(_gate(90))]
    assert due_round(plan_of([*both, _stone(0, 5, "A 1")]), DAY).gate == both[2]


def test_without_a_gate_a_round_begins_in_the_south():
    told = due_round(plan_of([_stone(0, 9, "A 2"), _stone(0, 5, "A 1")]), DAY)
    assert _numbers(told) == ["A 1", "A 2"]
    assert told.assumed == (NO_GATE,)


def test_where_nothing_is_due_the_round_is_empty():
    assert due_round(plan_of([]), DAY).stops == ()


def test_more_than_one_round_can_hold_is_refused(monkeypatch):
    monkeypatch.setattr(inspection_round, "MOST", 2)
    plan = plan_of([_stone(0, n, f"A {n}") for n in range(3)])
    with pytest.raises(CannotUse, match="3 things are due, more than the 2"):
        due_round(plan, DAY)
