"""Measured points become things on the plan, by their codes."""

import re

import pytest
import shapely

from plan_editor.edits.codes import shipped_codes
from plan_editor.edits.points import (
    ELLIPSOID,
    AddPoints,
    Measured,
    coded,
    distance,
    on_the_plan,
)
from plan_editor.errors import EditRefused
from plan_editor.kinds import mark, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Method, new_item
from plan_editor.plan.plan import plan_of


def become(*points):
    measured = [
        Measured(line=n, **({"name": str(n), "east": 0.0, "north": 0.0} | told))
        for n, told in enumerate(points, 1)
    ]
    return coded(measured, shipped_codes(), method=Method.GNSS, source="morning.csv")


def at(east, north, code="", **more):
    return {"east": east, "north": north, "code": code} | more


def test_a_point_becomes_what_its_code_says_with_its_basis():
    (found,), said = become(
        at(3.0, 4.0, "TREE common lime", name="T7", sd_m=0.0151, date="2026-04-18")
    )
    assert found.item.kind == tree.KIND
    assert (found.item.shape, found.item.number) == (shapely.Point(3, 4), "T7")
    assert found.item.details.species == "common lime"
    assert found.item.basis == Basis(
        method=Method.GNSS, source="morning.csv", date="2026-04-18", sd_m=0.0151
    )
    assert said == ()


def test_a_mark_has_its_description_and_a_level_only_above_something_stated():
    (first, second, third), _ = become(
        at(0, 0, "MARK NE buttress", height=12.3456, datum="Ordnance Datum Newlyn"),
        at(1, 0, "MARK", words="top of plinth", height=12.3),
        at(2, 0, "MARK", height=60.1, datum=ELLIPSOID),
    )
    assert first.item.details == mark.MarkDetails(
        description="NE buttress", level_m=12.346, datum="Ordnance Datum Newlyn"
    )
    assert second.item.details.level_m is None
    assert second.item.details.description == "top of plinth"
    assert second.item.details.remarks == "Height 12.300 m, what it is above was not said."
    assert third.item.details.remarks == "Height 60.100 m, above the ellipsoid, no level."


def test_a_height_of_what_keeps_no_level_goes_to_its_remarks():
    (found,), _ = become(at(0, 0, "TREE", height=12.3, datum="the porch sill"))
    assert found.item.details.remarks == "Height 12.300 m, above the porch sill."
    (note,), _ = become(at(0, 0, "NOTE see here", height=12.3))  # a note has no remarks
    assert note.item.details.text == "see here"


def test_words_without_a_detail_of_their_own_are_remarks():
    (found,), _ = become(at(0, 0, "BENCH oak", words="loose"))
    assert found.item.details.remarks == "oak loose"


def test_points_of_one_number_are_one_line_wherever_they_stand():
    things, said = become(
        at(0, 0, "WALL1 flint", sd_m=0.01, date="2026-04-18"),
        at(9, 9, "TREE"),
        at(0, 5, "WALL2"),
        at(4, 0, "WALL1", sd_m=0.03, date="2026-04-19"),
        at(4, 5, "WALL2"),
    )
    wall = things[0].item
    assert wall.shape == shapely.LineString([(0, 0), (4, 0)])
    assert wall.details.material == "flint"
    assert (wall.basis.sd_m, wall.basis.date) == (0.03, "2026-04-19")  # its worst, its last
    assert things[2].item.shape == shapely.LineString([(0, 5), (4, 5)])
    assert things[2].item.basis.sd_m is None
    assert (len(things), said) == (3, ())


def test_without_a_number_points_that_follow_one_another_are_one_line():
    things, _ = become(
        at(0, 0, "FENCE"),
        at(1, 0, "FENCE"),
        at(9, 9, "TREE"),
        at(5, 0, "FENCE"),
        at(6, 0, "FENCE"),
    )
    assert [t.item.shape.geom_type for t in things] == ["LineString", "Point", "LineString"]


def test_a_line_that_is_closed_comes_back_to_its_first_point():
    (found,), _ = become(at(0, 0, "WALL1"), at(4, 0, "WALL1"), at(4, 3, "WALL1 CLOSE"))
    assert found.item.shape.is_closed
    assert found.item.shape.length == 12.0
    (two,), _ = become(at(0, 0, "WALL1"), at(4, 0, "WALL1 CLOSE"))
    assert two.item.shape.length == 4.0


def test_corners_make_an_outline():
    (found,), _ = become(*(at(e, n, "GRAVE1") for e, n in ((0, 0), (1, 0), (1, 2), (0, 2))))
    assert found.item.kind.name == "grave"
    assert found.item.shape.area == 2.0


@pytest.mark.parametrize(
    ("points", "says"),
    [
        (
            [at(0, 0, "WALL1")],
            r"^1 \(line 1\): the line of a wall wants 2 points at least\. It comes as temp",
        ),
        (
            [at(0, 0, "GRAVE1"), at(1, 0, "GRAVE1")],
            "the outline of a grave wants 3 points at least",
        ),
        ([at(0, 0, "FENCE"), at(0, 0, "FENCE")], "the line of a fence wants 2"),
        (
            [at(0, 0, "GRAVE1"), at(1, 2, "GRAVE1"), at(1, 0, "GRAVE1"), at(0, 2, "GRAVE1")],
            r"3 \(line 3\) and 1 more: the outline of a grave crosses itself",
        ),
    ],
)
def test_what_makes_no_shape_becomes_temporary_marks(points, says):
    things, said = become(*points)
    assert {t.item.kind for t in things} == {mark.KIND}
    assert not any(t.item.details.permanent for t in things)
    assert len(things) == len(points)
    assert things[0].item.details.remarks == f"Code {points[0]['code']}."
    (sentence,) = said
    assert re.search(says, sentence)


def test_an_unknown_code_becomes_a_temporary_mark_and_says_so():
    things, said = become(at(0, 0, "XYZ 3"), at(1, 0), at(2, 0, "417"), at(3, 0, "417"))
    assert [t.item.details.permanent for t in things] == [False] * 4
    assert [t.item.details.remarks for t in things] == [
        "Code XYZ 3.",
        "",
        "Code 417.",
        "Code 417.",
    ]
    assert said == (
        "1 (line 1) has the code “XYZ 3”, which the table does not know: it becomes a temporary"
        " mark.",
        "2 (line 2) has no code: it becomes a temporary mark.",
        "2 points have the code “417”, which the table does not know: they become temporary"
        " marks.",
    )


def test_a_point_without_a_name_is_called_by_its_line():
    _, said = become(at(0, 0, "XYZ", name=""))
    assert said[0].startswith("line 1 has the code")


def test_a_track_whose_code_joins_nothing_is_left_out():
    track = [at(n, 0, "walk01", joined=True) for n in range(5)]
    things, said = become(*track)
    assert things == ()
    assert "and 2 more: the code “walk01” joins no points. They were left out." in said[0]
    path, _ = become(*(at(n, 0, "PATH01", joined=True) for n in range(5)))
    assert path[0].item.shape.length == 4.0


def test_what_is_on_the_plan_is_found_by_its_number():
    there = new_item(mark.KIND, shapely.Point(0, 0), number="M 3")
    yew = new_item(tree.KIND, shapely.Point(0, 0), number="T1")
    plan = plan_of((there, yew))
    far = new_item(mark.KIND, shapely.Point(30, 40), number="m3")
    assert on_the_plan(plan, far) is there
    assert distance(there, far) == 50.0
    near = new_item(tree.KIND, shapely.Point(1, 0), number="T1")
    assert on_the_plan(plan, near) is yew
    # trees may bear one number: this is another
    assert on_the_plan(plan, new_item(tree.KIND, shapely.Point(30, 0), number="T1")) is None
    assert on_the_plan(plan, new_item(mark.KIND, shapely.Point(0, 0), number="M4")) is None
    assert on_the_plan(plan, new_item(mark.KIND, shapely.Point(0, 0))) is None


def test_all_come_as_one_edit_with_the_file_in_its_title():
    things, _ = become(at(0, 0, "TREE"), at(4, 0, "TREE"))
    document = Document(plan_of(()))
    edit = AddPoints(items=tuple(t.item for t in things), source="a\nmorning.csv")
    document.apply(edit)
    assert document.undo_title == "Put 2 trees from a morning.csv on the plan"
    with pytest.raises(EditRefused, match="on the plan already"):
        document.apply(edit)
    document.undo()
    assert not document.plan.items
