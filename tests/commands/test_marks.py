"""Marks by hand: the list, a new one, other coordinates for one."""

import pytest
import shapely

from plan_editor.commands.marks import (
    OF_MARK,
    OF_PLACE,
    add_mark,
    asked,
    left_behind,
    mark_lines,
    place_mark,
)
from plan_editor.edits.base_plans import placed, scan_item
from plan_editor.errors import CannotUse
from plan_editor.ground.marks import next_number
from plan_editor.kinds import mark, observation
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Method, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.survey.grids.grid import Grid

GRID = Grid(crs="EPSG:27700", east=553_000.0, north=421_000.0)
KNOWN = {
    "number": "M1",
    "description": "NE buttress, top of plinth",
    "permanent": True,
    "method": Method.INSTRUMENT,
    "source": "Survey of 2026",
    "date": "2026-05-02",
    "sd_m": 0.012,
}


def _document(*items):
    return Document(plan_of(items, grid=GRID))


def test_a_mark_by_hand_keeps_what_was_told_of_it():
    document = _document()
    document.apply(add_mark(document.plan, (12.25, 7.5), KNOWN, clicked=False))
    (item,) = document.plan.of(mark.KIND)
    assert item.shape == shapely.Point(12.25, 7.5)
    assert (item.number, item.details.permanent) == ("M1", True)
    assert item.details.description == "NE buttress, top of plinth"
    assert item.basis == Basis(
        method=Method.INSTRUMENT, source="Survey of 2026", date="2026-05-02", sd_m=0.012
    )
    assert document.undo_title == "Add mark M1"


def test_a_clicked_mark_is_as_good_as_the_old_plan_that_it_was_clicked_on():
    scan = placed(scan_item("1962", "", width=100, height=100), (1.0, 0, 0, 0, -1.0, 100))
    document = _document(scan)
    untold = {**KNOWN, "method": Method.UNKNOWN, "source": "", "date": "", "sd_m": None}
    document.apply(add_mark(document.plan, (50, 50), untold, clicked=True))
    (item,) = document.plan.of(mark.KIND)
    assert item.basis.method is Method.TRACED
    assert item.basis.base_plan == scan.id
    typed = {**untold, "number": "M2"}
    document.apply(add_mark(document.plan, (50, 50), typed, clicked=False))
    assert list(document.plan.of(mark.KIND))[1].basis == Basis()
    told = {**KNOWN, "number": "M3"}
    document.apply(add_mark(document.plan, (50, 50), told, clicked=True))
    assert list(document.plan.of(mark.KIND))[2].basis.base_plan is None


def test_a_mark_without_a_name_is_not_added():
    plan = _document().plan
    with pytest.raises(CannotUse, match="short name"):
        add_mark(plan, (0, 0), {**KNOWN, "number": " "}, clicked=False)


def test_marks_are_listed_as_people_count_with_what_is_known_of_them():
    marks = [
        new_item(mark.KIND, shapely.Point(n, 1), number=f"M{n}", basis=Basis(sd_m=sd))
        for n, sd in ((10, 0.03), (2, None))
    ]
    lines = mark_lines(_document(*marks).plan)
    assert [(m.number, m.sd) for m in lines] == [("M2", "not known"), ("M10", "± 30 mm")]
    assert (lines[0].east, lines[0].north) == (553_002.0, 421_001.0)
    assert lines[0].stays == "permanent"
    assert next_number(_document(*marks).plan) == "M1"


def test_other_coordinates_are_one_step_and_what_hangs_on_them_is_told():
    first = new_item(mark.KIND, shapely.Point(0, 0), number="M1")
    other = new_item(mark.KIND, shapely.Point(9, 0), number="M2")
    lines = [
        new_item(
            observation.KIND, details=observation.ObservationDetails(from_mark=a, to_mark=b)
        )
        for a, b in ((first.id, None), (other.id, first.id), (other.id, None))
    ]
    document = _document(first, other, *lines)
    edit = place_mark(document.plan, first.id, (1.0, 0.5), KNOWN, clicked=False)
    document.apply(edit)
    assert document.plan.items[first.id].shape == shapely.Point(1.0, 0.5)
    assert document.plan.items[first.id].basis.sd_m == 0.012
    assert edit.title == "Give mark M1 other coordinates"
    assert left_behind(document.plan, first.id).startswith(
        "2 lines of the field book hang on mark M1"
    )
    assert "1 line of" in left_behind(_document(first, lines[0]).plan, first.id)
    assert not left_behind(_document(first).plan, first.id)


def test_the_form_asks_for_what_a_mark_and_its_place_have():
    titles = [d.about.title for d in asked((*OF_MARK, *OF_PLACE))]
    assert titles[:3] == ["Number", "How to find it", "Permanent"]
    assert "Standard deviation" in titles
