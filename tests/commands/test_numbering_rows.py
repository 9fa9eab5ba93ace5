"""What a row may be numbered with, and what is said where that cannot be."""

import pytest
from shapely import box

from plan_editor.commands.rows import Numbering, first_number, new_numbers
from plan_editor.edits.numbering import Gaps
from plan_editor.errors import CannotUse
from plan_editor.geometry.ranks import Axis, at_pitch
from plan_editor.ground.rows import Row, rows
from plan_editor.kinds import grave, section
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan, plan_of

NORTH = Axis(start=(0.0, 0.0), bearing_deg=0.0)


def row_of_three(numbers: tuple[str, str, str], prefix: str) -> tuple[Plan, Row]:
    places = at_pitch(NORTH, (1.2, 2.4), 3, 1.5, right=True)
    graves = [new_item(grave.KIND, p, number=n) for p, n in zip(places, numbers, strict=True)]
    details = section.SectionDetails(name="North", prefix=prefix)
    ground = new_item(section.KIND, box(-10, -10, 10, 10), details=details)
    plan = plan_of([*graves, ground])
    (row,) = rows(plan)
    return plan, row


@pytest.mark.parametrize(
    ("numbers", "prefix", "first"),
    [
        (("A 4", "A 5", "A 6"), "", "A 4"),
        (("A 4", "A 5", "A 6"), "N", "N 4"),
        (("N 4", "N 5", "N 6"), "N", "N 4"),
        (("", "", ""), "N", "N 1"),
        (("", "", ""), "", ""),
    ],
)
def test_a_row_is_numbered_as_its_section_has_it(
    numbers: tuple[str, str, str], prefix: str, first: str
) -> None:
    assert first_number(*row_of_three(numbers, prefix)) == first


def test_gaps_between_numbers_cannot_be_kept_where_one_has_none() -> None:
    plan, row = row_of_three(("A 1", "", "A 5"), "")
    with pytest.raises(CannotUse, match=r"The gaps cannot be kept: one has no number\."):
        new_numbers(plan, row, Numbering(first="B 1", gaps=Gaps.AS_NUMBERED))
    lying = new_numbers(plan, row, Numbering(first="B 1", gaps=Gaps.AS_THEY_LIE))
    assert [new for _, _, new in lying] == ["B 1", "B 2", "B 3"]
