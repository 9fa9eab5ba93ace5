"""Where names stand: on free ground, along outlines, beside stems."""

import itertools

import numpy as np
import pytest
from churchyard import grave, made
from shapely import LineString, MultiPolygon, Point, Polygon, affinity, box
from shapely.geometry.base import BaseGeometry

from plan_editor.drawing.compose import grouped
from plan_editor.drawing.ink import Text
from plan_editor.drawing.labels import place
from plan_editor.drawing.lettering import CAPITAL, SMALLEST, width
from plan_editor.drawing.obstacles import obstacles
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wishes import wishes
from plan_editor.plan.item import Item

FRAME = (0.0, 0.0, 400.0, 300.0)
VIEW = Viewport(east=40.0, north=30.0, scale=200.0, frame=FRAME)


def names(*items: Item) -> dict[str, BaseGeometry]:
    """Return the outline of each name on paper."""
    groups = grouped(items)
    found = place(wishes(groups, VIEW), obstacles(groups, VIEW), FRAME)
    assert found.left_out == ()
    return {t.text: _outline(t) for t in found.ink if isinstance(t, Text)}


def _outline(text: Text) -> BaseGeometry:
    long = width(text.text) * text.size
    flat = box(text.x - long / 2, text.y, text.x + long / 2, text.y + text.size * CAPITAL)
    return affinity.rotate(flat, text.turn_deg, origin=(text.x, text.y))


SECTION = made("section", box(10, 10, 70, 50), name="Old churchyard")
CHURCH = made("building", box(30, 22, 50, 38), name="St Ŵyne")


def test_the_name_of_an_area_keeps_off_what_stands_in_its_middle() -> None:
    found = names(SECTION, CHURCH)
    church = VIEW.shape(CHURCH.shape)
    assert not found["Old churchyard"].intersects(church)
    assert VIEW.shape(SECTION.shape).contains(found["Old churchyard"])
    assert church.contains(found["St Ŵyne"])


def test_the_name_of_an_area_stands_in_its_middle_where_that_is_bare() -> None:
    found = names(SECTION)
    assert found["Old churchyard"].centroid.distance(VIEW.shape(Point(40, 30))) < 1.0


def test_what_lies_beneath_does_not_drive_a_name_away() -> None:
    path = made("path", box(20, 10, 60, 50), name="Paved")
    assert (
        names(SECTION, path, CHURCH)["St Ŵyne"].centroid.distance(
            VIEW.shape(CHURCH.shape).centroid
        )
        < 1.0
    )


def test_an_area_with_no_bare_ground_is_named_all_the_same() -> None:
    covered = made("grass", box(10, 10, 70, 50), name="Lawn")
    graves = [grave("", 10 + 2.2 * n, 10 + m) for n in range(27) for m in range(40)]
    assert "Lawn" in names(covered, *graves)


def test_a_path_that_crosses_an_area_is_kept_off_by_its_width() -> None:
    path = made("path", LineString([(0, 30), (80, 30)]), width_m=4.0)
    strip = VIEW.shape(path.shape).buffer(10.0)
    assert not names(SECTION, path)["Old churchyard"].intersects(strip.buffer(-0.1))


def test_a_small_area_has_its_name_beside_it() -> None:
    shed = made("building", box(30, 30, 32, 32), name="The sexton’s shed")
    assert not names(shed)["The sexton’s shed"].within(VIEW.shape(shed.shape))


def test_the_name_of_a_boundary_runs_along_its_longest_side() -> None:
    ground = Polygon([(5, 5), (75, 12), (70, 50), (10, 45)])
    boundary = made("boundary", MultiPolygon([ground, box(77, 5, 79, 7)]), name="Churchyard")
    name = names(boundary, CHURCH)["Churchyard"]
    side = VIEW.shape(LineString([(5, 5), (75, 12)]))
    assert name.distance(side) < 2.0
    assert VIEW.shape(ground).contains(name)
    west_east = name.minimum_rotated_rectangle.exterior.coords
    turns = {
        round(np.degrees(np.arctan2(b[1] - a[1], b[0] - a[0])) % 90, 1)
        for a, b in itertools.pairwise(west_east)
    }
    assert round(np.degrees(np.arctan2(7, 70)), 1) in turns


def test_a_line_shorter_than_its_name_has_it_level_beside_it() -> None:
    gate = made("gate", LineString([(40, 30), (40, 31.2)]), name="East gate")
    name = names(gate)["East gate"]
    left, bottom, right, top = name.bounds
    assert right - left > top - bottom
    assert not name.intersects(VIEW.shape(gate.shape))


def test_the_name_of_a_tree_keeps_off_its_stem() -> None:
    # a stem of 2 m is 10 mm thick at 1:200
    yew = made("tree", Point(40, 30), species="Yew", stems_mm=(2000.0,))
    assert not names(yew)["Yew"].intersects(VIEW.shape(yew.shape).buffer(5.0))


@pytest.mark.parametrize("kind", ["section", "building", "gate", "tree"])
def test_no_name_is_smaller_than_the_least_size_of_iso_3098(kind: str) -> None:
    shape = {"gate": Point(40, 30), "tree": Point(40, 30)}.get(kind, box(30, 20, 50, 40))
    label = "species" if kind == "tree" else "name"
    (wish,) = wishes(grouped([made(kind, shape, **{label: "Name"})]), VIEW)
    assert wish.size >= SMALLEST
    assert pytest.approx(1.8) == SMALLEST * CAPITAL
