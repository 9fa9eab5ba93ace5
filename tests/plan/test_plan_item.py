"""One thing that the plan keeps."""

import re
from dataclasses import FrozenInstanceError

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Point, box
from strategies import kind_of, one_of_each, plain, rectangles

from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import all_on, new_id, new_item
from plan_editor.plan.kind import Form

GRAVE, PATH, BURIAL, NOTE = (kind_of(n) for n in ("grave", "path", "burial", "note"))
SPACE = Rectangle(east=1.0, north=2.0, width=1.22, length=2.74)


def test_an_id_is_32_hexadecimal_digits_and_never_comes_twice() -> None:
    ids = {new_id() for _ in range(1000)}
    assert len(ids) == 1000
    assert all(re.fullmatch("[0-9a-f]{32}", i) for i in ids)


def test_an_item_never_changes() -> None:
    with pytest.raises(FrozenInstanceError):
        new_item(GRAVE).number = "C 14"  # type: ignore[misc]  # this is what is tried


def test_a_new_item_begins_with_the_details_of_its_kind() -> None:
    assert new_item(GRAVE).details == GRAVE.details()
    told = PATH.details(surface="gravel")
    assert new_item(PATH, LineString([(0, 0), (5, 0)]), details=told).details is told


def test_its_form_is_that_of_its_shape() -> None:
    assert new_item(BURIAL).form is Form.NONE
    assert new_item(NOTE, Point(1, 1)).form is Form.POINT
    assert new_item(PATH, LineString([(0, 0), (5, 0)])).form is Form.LINE
    assert new_item(PATH, box(0, 0, 5, 5)).form is Form.AREA
    assert new_item(GRAVE, SPACE).form is Form.RECTANGLE
    assert new_item(GRAVE, box(0, 0, 1, 3)).form is Form.AREA


def test_a_shape_of_a_sort_that_no_plan_keeps_is_refused() -> None:
    with pytest.raises(ValueError, match="points, lines and areas"):
        new_item(PATH, MultiLineString([[(0, 0), (1, 1)], [(2, 2), (3, 3)]]))


def test_another_shape_puts_an_end_to_its_rectangle() -> None:
    item = new_item(GRAVE, SPACE)
    assert item.shape == SPACE.outline()
    loose = item.at(box(0, 0, 1, 3))
    assert loose.rectangle is None
    assert loose.on(SPACE).rectangle == SPACE


def test_its_box_holds_its_width_too() -> None:
    path = new_item(PATH, LineString([(0, 0), (10, 0)]), details=PATH.details(width_m=2.0))
    assert path.box == (-1.0, -1.0, 11.0, 1.0)
    assert new_item(GRAVE, box(0, 0, 1, 3)).box == (0.0, 0.0, 1.0, 3.0)
    assert new_item(BURIAL).box is None


def test_it_is_called_by_its_number_or_its_label_or_its_kind() -> None:
    assert new_item(GRAVE, SPACE, number="C 14").called() == "Grave C 14"
    assert new_item(GRAVE, SPACE).called() == "Grave"
    levelled = kind_of("spot_level")
    assert new_item(levelled, Point(0, 0)).called() == "Spot level"
    at_nought = levelled.details(level_m=0.0)
    assert new_item(levelled, Point(0, 0), details=at_nought).called() == "Spot level 0.0"


def test_a_long_name_is_cut_in_a_sentence() -> None:
    words = "Here the wall\nwas taken down and built up again further out"
    called = new_item(NOTE, Point(0, 0), details=NOTE.details(text=words)).called()
    assert called == "Note Here the wall was taken down and built…"


@given(rectangles, st.floats(-50, 50), st.floats(-50, 50))
def test_moved_there_and_back_it_is_what_it_was(
    rectangle: Rectangle, east: float, north: float
) -> None:
    item = plain(GRAVE).on(rectangle)
    assert item.rectangle is not None
    there = item.on(item.rectangle.moved(east, north))
    assert there.rectangle is not None
    assert item.on(there.rectangle.moved(-east, -north)) == item


@given(rectangles)
def test_turned_a_full_circle_in_degrees_it_lies_where_it_lay(rectangle: Rectangle) -> None:
    item = turned = plain(GRAVE).on(rectangle)
    about = rectangle.centre
    for _ in range(360):
        assert turned.rectangle is not None
        turned = turned.on(turned.rectangle.turned(1.0, about))
    # the corner is settled to the micrometre at each of the 360 steps
    assert turned.shape is not None
    assert turned.shape.hausdorff_distance(item.shape) < 0.0011


@given(st.lists(rectangles, max_size=4))
def test_many_are_put_on_rectangles_as_each_would_be(some: list[Rectangle]) -> None:
    items = [plain(GRAVE, n) for n in range(len(some))]
    assert all_on(items, some) == [i.on(r) for i, r in zip(items, some, strict=True)]


def test_two_items_that_hold_the_same_are_equal() -> None:
    first, again = one_of_each(), one_of_each.__wrapped__()
    assert first is not again
    assert dict(first.items) == dict(again.items)


def test_what_has_no_place_says_so_where_a_place_is_needed() -> None:
    assert new_item(PATH, LineString([(0, 0), (1, 0)])).lies.length == 1.0
    with pytest.raises(ValueError, match="no place on the plan"):
        _ = new_item(BURIAL).lies
