"""Which labels are written: no two over each other, and the same whatever is in view."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytestqt.qtbot import QtBot
from shapely import LineString, Point, Polygon

from plan_editor.desktop.canvas.labels import CELL, LONGEST, _has_room, labels_of
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import building, grave, note, path, spot_level, tree
from plan_editor.plan.item import new_item

boxes = st.lists(
    st.tuples(st.integers(-300, 300), st.integers(-300, 300), st.integers(8, 120)), max_size=40
).map(lambda b: np.array([(x, y, x + w, y + 15) for x, y, w in b], dtype=float).reshape(-1, 4))


@given(boxes=boxes)
def test_no_two_labels_are_written_over_each_other(boxes):
    kept = boxes[_has_room(boxes)]
    for i, (left, top, right, bottom) in enumerate(kept):
        for other in kept[i + 1 :]:
            over = left < other[2] - 1 and right - 1 > other[0]
            assert not (over and top < other[3] - 1 and bottom - 1 > other[1])


@given(boxes=boxes, east=st.integers(-300, 300), north=st.integers(-300, 300))
def test_what_is_written_does_not_depend_on_what_else_is_in_view(boxes, east, north):
    whole = _has_room(boxes)
    view = np.array([east, north, east + 200, north + 150])
    grown = view + np.array([-1, -1, 1, 1]) * (2 * 120 + 2 * CELL[0])
    near = (
        (boxes[:, 0] <= grown[2])
        & (boxes[:, 2] >= grown[0])
        & (boxes[:, 1] <= grown[3])
        & (boxes[:, 3] >= grown[1])
    )
    inside = (
        (boxes[:, 0] <= view[2])
        & (boxes[:, 2] >= view[0])
        & (boxes[:, 1] <= view[3])
        & (boxes[:, 3] >= view[1])
    )
    part = np.zeros(len(boxes), dtype=bool)
    part[near] = _has_room(boxes[near])
    assert (part[inside] == whole[inside]).all()


def test_the_first_is_the_most_wanted():
    same = np.array([[0.0, 0.0, 30.0, 15.0]] * 2)
    assert _has_room(same).tolist() == [True, False]


def written(kind, place, number="", **details):
    return labels_of(
        kind, [new_item(kind, place, number=number, details=kind.details(**details))]
    )


def test_a_number_goes_before_a_name_and_nothing_is_written_without(qtbot: QtBot):
    assert written(tree.KIND, Point(0, 0), "T 1", species="yew").texts[0].text() == "T 1"
    assert written(tree.KIND, Point(0, 0), species="yew").texts[0].text() == "yew"
    assert written(grave.KIND, Rectangle(east=0, north=0, width=1, length=2)).texts == ()
    assert written(spot_level.KIND, Point(0, 0)).texts == ()


def test_a_long_note_is_cut(qtbot: QtBot):
    (text,) = written(note.KIND, Point(0, 0), text="word\n" * 20).texts
    assert len(text.text()) == LONGEST
    assert text.text().endswith("…")


def test_a_label_stands_in_the_middle_of_its_thing(qtbot: QtBot):
    line = written(path.KIND, LineString([(0, 0), (10, 0)]), name="South path")
    assert line.places.tolist() == [[5, 0]]
    horseshoe = Polygon([(0, 0), (9, 0), (9, 9), (8, 9), (8, 1), (1, 1), (1, 9), (0, 9)])
    bent = written(building.KIND, horseshoe, name="Hall")
    assert horseshoe.contains(Point(bent.places[0]))
    assert bent.plated
    assert written(
        tree.KIND, Point(3, 4), species="yew", stems_mm=(600.0,)
    ).beside.tolist() == [0.3]
    assert bent.widest == pytest.approx(bent.texts[0].size().width())
