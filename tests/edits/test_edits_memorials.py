"""A memorial that was applied for joins the plan when it is fixed."""

from dataclasses import replace

import pytest
from shapely import box

from plan_editor.edits.memorials import FixStone
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import application, ashes_plot, grave, memorial, note
from plan_editor.kinds.application import ApplicationDetails, AskedFor, Decision, Shape
from plan_editor.kinds.memorial import Anchor, MemorialDetails, MemorialForm
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, Method, Status, new_item
from plan_editor.plan.plan import plan_of

SPACE = new_item(grave.KIND, Rectangle(east=10, north=0, width=1.2, length=2.7), number="C 14")
ALLOWED = ApplicationDetails(
    grave=SPACE.id,
    decision=Decision.ALLOWED,
    form=Shape.HEADSTONE,
    height_mm=1000.0,
    width_mm=700.0,
    thickness_mm=100.0,
    material="York sandstone",
    inscription="Ada Farrow\n1943–2026",
    foundation_width_mm=900.0,
    applicant="A. Living Person",
)


def asked(**changed: object) -> Item:
    return new_item(application.KIND, details=replace(ALLOWED, **changed))


def test_the_stone_stands_at_the_head_of_its_grave_and_faces_the_foot() -> None:
    wanted = asked()
    document = Document(plan_of([SPACE, wanted]))
    edit = FixStone(application=wanted.id, fixed="2026-11-20", called="grave C 14")
    document.apply(edit)
    assert document.undo_title == "Fix the memorial on grave C 14"
    stone = document.plan.items[edit.id]
    assert stone.details == MemorialDetails(
        form=MemorialForm.HEADSTONE,
        height_m=1.0,
        material="York sandstone",
        anchor=Anchor.FOUNDATION,
        grave=SPACE.id,
        erected="2026-11-20",
        inscription="Ada Farrow\n1943–2026",
    )
    # the head is the west side, 1.2 m long: 0.25 m are left at each end of 0.7
    assert stone.lies.equals(box(10.0, 0.25, 10.1, 0.95))
    assert stone.rectangle.facing_deg == pytest.approx(270.0)
    assert stone.number == "C 14"
    assert (stone.basis.method, stone.basis.date) == (Method.COMPUTED, "2026-11-20")
    after = document.plan.items[wanted.id].details
    assert (after.memorial, after.fixed) == (stone.id, "2026-11-20")
    with pytest.raises(EditRefused, match="was fixed already"):
        FixStone(application=wanted.id, fixed="2026-11-21").changes(document.plan)
    document.undo()
    assert edit.id not in document.plan.items


def test_a_ledger_lies_in_the_middle_and_has_no_height() -> None:
    wanted = asked(
        form=Shape.LEDGER, height_mm=1900.0, width_mm=800.0, foundation_width_mm=None
    )
    stone, *_ = FixStone(application=wanted.id, fixed="2026").changes(plan_of([SPACE, wanted]))
    assert stone.after.lies.equals(box(10.4, 0.2, 12.3, 1.0))
    assert stone.after.details.height_m is None
    assert stone.after.details.anchor is Anchor.UNKNOWN


def test_a_stone_that_is_replaced_is_to_be_removed() -> None:
    old = new_item(
        memorial.KIND, Rectangle(east=10, north=0.2, width=0.8, length=0.2), number="c14"
    )
    wanted = asked(asked_for=AskedFor.REPLACEMENT, memorial=old.id)
    document = Document(plan_of([SPACE, old, wanted]))
    edit = FixStone(application=wanted.id, fixed="2026-11-20")
    document.apply(edit)
    assert document.plan.items[old.id].status is Status.TO_BE_REMOVED
    assert document.plan.items[edit.id].number == ""  # the old one bears it still


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"decision": Decision.WAITING}, "recorded as “waiting”"),
        ({"decision": Decision.FACULTY_NEEDED}, "recorded as “faculty needed”"),
        ({"asked_for": AskedFor.REPAIR}, "is for “repair”"),
        ({"form": Shape.UNKNOWN}, "form of the memorial is not told"),
        ({"grave": None}, "Where the memorial stands cannot be told"),
        ({"width_mm": None}, "Where the memorial stands cannot be told"),
        ({"thickness_mm": None}, "Where the memorial stands cannot be told"),
    ],
)
def test_what_is_not_allowed_or_not_told_is_refused(
    changed: dict[str, object], says: str
) -> None:
    wanted = asked(**changed)
    with pytest.raises(EditRefused, match=says) as told:
        FixStone(application=wanted.id, fixed="2026").changes(plan_of([SPACE, wanted]))
    assert "Nothing was changed." in str(told.value)


def test_a_day_a_rectangle_and_an_application_are_wanted() -> None:
    loose = new_item(ashes_plot.KIND, box(0, 0, 1, 1))
    word, wanted, odd = new_item(note.KIND), asked(), asked(grave=loose.id)
    plan = plan_of([SPACE, loose, word, wanted, odd])
    for edit, says in (
        (FixStone(application=wanted.id, fixed=""), "day on which it was fixed"),
        (FixStone(application=word.id, fixed="2026"), "is no application"),
        (FixStone(application=odd.id, fixed="2026"), "drawn as a rectangle"),
    ):
        with pytest.raises(EditRefused, match=says):
            edit.changes(plan)
