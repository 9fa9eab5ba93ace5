"""The list of stones, and what it takes to record an inspection."""

from dataclasses import replace

import pytest
from strategies import kind_of, plain

from plan_editor.commands.safety import (
    NEVER,
    NO_RESULT,
    inspected_lines,
    record_inspection,
    zones_of,
)
from plan_editor.errors import CannotUse
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.rules import Purpose
from plan_editor.kinds import inspection, memorial
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of


def stone(number):
    place = Rectangle(east=0, north=0, width=0.8, length=0.2)
    return new_item(memorial.KIND, place, number=number)


def found(stone, date, result):
    details = InspectionDetails(target=stone.id, date=date, result=result)
    return new_item(inspection.KIND, details=details)


def test_the_most_urgent_stands_first_then_by_number():
    two, ten, odd, bad = (stone(n) for n in ("C 2", "C 10", "C²", "C 3"))
    plan = plan_of([ten, odd, two, bad, found(bad, "2026-03-14", Result.IMMEDIATE)])
    assert [line.number for line in inspected_lines(plan)] == ["C 3", "C 2", "C 10", "C²"]


def test_list_and_zones_agree_where_a_date_lies_in_the_future():
    # a slip of the pen: 2205 for 2025
    one = stone("C 1")
    plan = plan_of(
        [
            one,
            found(one, "2025-03-14", Result.IMMEDIATE),
            found(one, "2205-03-14", Result.SOUND),
        ]
    )
    (line,) = inspected_lines(plan)
    assert (line.state, line.urgent) == ("immediate action", 0)
    assert zones_of(plan, Purpose.PEOPLE)


def test_an_inspection_without_a_result_is_told_as_such():
    one, other = stone("C 1"), stone("C 2")
    plan = plan_of([one, other, found(one, "2025-03-14", None)])
    assert [line.state for line in inspected_lines(plan)] == [NO_RESULT, NEVER]


@pytest.mark.parametrize("missing", ["date", "result"])
def test_an_inspection_wants_its_date_and_its_result(missing):
    one = replace(plain(kind_of("memorial"), 1), number="31")
    values = {"date": "2026-03-14", "result": Result.SOUND, missing: None}
    with pytest.raises(CannotUse, match=missing):
        record_inspection(Document(plan_of([one])), one.id, values)
