"""A mark gets other coordinates."""

import pytest
import shapely

from plan_editor.edits.marks import AddMark, PlaceMark
from plan_editor.errors import EditRefused
from plan_editor.kinds import mark, tap
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, ItemId, Method, new_item
from plan_editor.plan.plan import plan_of

SURE = Basis(method=Method.INSTRUMENT, source="Survey of 2026", date="2026-05", sd_m=0.01)


def _placed(item, **where):
    document = Document(plan_of([item]))
    document.apply(PlaceMark(id=item.id, basis=SURE, **where))
    return document


def test_place_and_basis_change_in_one_step_and_come_back_in_one():
    item = new_item(
        mark.KIND, shapely.Point(1, 2), number="M1", basis=Basis(method=Method.TRACED, sd_m=0.2)
    )
    document = _placed(item, east=3.0004, north=4.0)
    after = document.plan.items[item.id]
    assert after.shape == shapely.Point(3.0, 4.0)
    assert (after.basis, after.number) == (SURE, "M1")
    document.undo()
    assert document.plan.items[item.id] == item


def test_what_is_no_mark_or_not_there_or_would_lie_nowhere_is_refused():
    here = shapely.Point(0, 0)
    with pytest.raises(EditRefused, match="not a mark"):
        _placed(new_item(tap.KIND, here), east=1, north=1)
    with pytest.raises(EditRefused, match="100 km"):
        _placed(new_item(mark.KIND, here), east=553_000.0, north=1)
    gone = PlaceMark(id=ItemId("0" * 32), east=0, north=0, basis=SURE)
    with pytest.raises(EditRefused, match="no longer on the plan"):
        gone.changes(plan_of([]))


def test_its_title_names_the_mark():
    edit = PlaceMark(id=ItemId("0" * 32), east=0, north=0, basis=SURE, called="mark M3")
    assert edit.title == "Give mark M3 other coordinates"


def test_a_new_mark_has_its_place_and_how_it_is_known():
    document = Document(plan_of([]))
    told = mark.MarkDetails(description="SW buttress", permanent=False)
    edit = AddMark(number="M4", east=1.0, north=2.0, details=told, basis=SURE)
    document.apply(edit)
    item = document.plan.items[edit.id]
    assert (item.shape, item.details, item.basis) == (shapely.Point(1, 2), told, SURE)
    assert document.undo_title == "Add mark M4"
    far = AddMark(number="M5", east=553_000.0, north=0.0, details=told, basis=SURE)
    with pytest.raises(EditRefused, match="Mark M5 would lie more than 100 km"):
        document.apply(far)
    with pytest.raises(EditRefused):  # two of one number
        document.apply(AddMark(number="m4", east=9.0, north=2.0, details=told, basis=SURE))
