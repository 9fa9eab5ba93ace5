"""A hole in an area: worked out by hand, and refused with the place."""

from dataclasses import replace

import pytest
from shapely import Point, Polygon, box
from strategies import kind_of, plain

from plan_editor.edits.holes import CutHole
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import plan_of

HALL = replace(plain(kind_of("building"), 1).at(box(0, 0, 10, 8)), number="")
WALL = plain(kind_of("wall"), 2)
GRAVE = plain(kind_of("grave"), 3).on(Rectangle(east=0, north=0, width=1.2, length=2.7))
SCAN = plain(kind_of("base_plan"), 4)
TREE = plain(kind_of("tree"), 5).at(Point(1, 1))
PLAN = plan_of([HALL, WALL, GRAVE, SCAN, TREE])
YARD = box(3, 3, 6, 5)


def refusal(hole: Polygon, item: ItemId = HALL.id) -> str:
    with pytest.raises(EditRefused) as caught:
        Document(PLAN).apply(CutHole(id=item, hole=hole))
    assert "Nothing was changed" in str(caught.value)
    return str(caught.value)


def test_a_courtyard_is_cut_out_and_undo_fills_it_again():
    document = Document(PLAN)
    document.apply(CutHole(id=HALL.id, hole=YARD, called="building Hall"))
    shape = document.plan.items[HALL.id].shape
    assert shape.area == 80.0 - 6.0
    assert len(shape.interiors) == 1
    document.undo()
    assert document.plan.items[HALL.id] == HALL
    assert CutHole(id=HALL.id, hole=YARD, called="building Hall").title == (
        "Cut a hole into building Hall"
    )
    assert CutHole(id=HALL.id, hole=YARD).title == "Cut a hole into 1 thing"


def test_a_second_hole_must_not_reach_into_the_first():
    document = Document(PLAN)
    document.apply(CutHole(id=HALL.id, hole=YARD))
    document.apply(CutHole(id=HALL.id, hole=box(7, 3, 8, 5)))
    assert len(document.plan.items[HALL.id].shape.interiors) == 2
    with pytest.raises(EditRefused, match="reaches out of"):
        document.apply(CutHole(id=HALL.id, hole=box(5, 4, 6.5, 6)))


def test_a_hole_that_reaches_out_or_touches_is_refused_with_the_place():
    said = refusal(box(8, 2, 12, 4))
    # the middle of what lies outside: from 10 to 12, from 2 to 4
    assert "reaches out of" in said
    assert "E 11.00, N 3.00" in said
    assert "touches the outline of" in refusal(box(8, 2, 10, 4))
    assert "E 10.00" in refusal(box(8, 2, 10, 4))


def test_what_is_no_hole_and_what_cannot_have_one_is_refused():
    assert "cannot be cut: Self-intersection" in refusal(
        Polygon([(3, 3), (6, 5), (6, 3), (3, 5)])
    )
    for other in (WALL, SCAN, TREE):
        assert "is no area that could have a hole" in refusal(YARD, other.id)
    assert "no longer on the plan" in refusal(YARD, ItemId("f" * 32))


def test_a_hole_that_vanishes_when_kept_is_refused():
    sliver = Polygon([(3, 3), (9.9, 3), (9.9, 3.0002)])
    assert "thinner than a millimetre" in refusal(sliver)
