"""Coordinates and sizes as numbers that are typed over."""

from dataclasses import replace
from typing import Any

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Point, box
from strategies import areas, kind_of, plain

from plan_editor.commands.typed_places import (
    MOST_CORNERS,
    HeldBy,
    coordinate,
    corners,
    numerals,
    with_corner,
    with_numeral,
)
from plan_editor.errors import CannotUse
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import BASE_PLAN, Item
from plan_editor.survey.grids.grid import Grid

BNG = Grid(crs="EPSG:27700", east=553000.0, north=421000.0)
CORNER, MIDDLE = HeldBy
SPACE = Rectangle(east=112.48, north=87.15, width=1.22, length=2.74, bearing_deg=0.0)
GRAVE = plain(kind_of("grave"), 1).on(SPACE)
TREE = plain(kind_of("tree"), 2).at(Point(1.5, 2.25))
FENCE = plain(kind_of("fence"), 3).at(LineString([(0, 0), (10, 0), (10, 5)]))
HOLED = plain(kind_of("grass"), 4).at(box(0, 0, 20, 20).difference(box(5, 5, 10, 10)))
PARTS = plain(kind_of("grass"), 5).at(MultiPolygon([box(0, 0, 1, 1), box(3, 0, 4, 1)]))


def told(item: Item[Any], held: HeldBy = CORNER) -> dict[str, str]:
    return {n.name: n.text for n in numerals(item, BNG, held)}


def test_a_rectangle_is_told_by_its_corner_or_its_middle() -> None:
    assert told(GRAVE) == {
        "east": "553112.480",
        "north": "421087.150",
        "width": "1.220",
        "length": "2.740",
        "bearing": "0",
    }
    # head line north, so the grave reaches east: half of 2.74 and half of 1.22 farther
    middle = told(GRAVE, MIDDLE)
    assert (middle["east"], middle["north"]) == ("553113.850", "421087.760")


def test_what_a_rectangle_is_held_by_stays_when_its_size_or_bearing_changes() -> None:
    wider = with_numeral(GRAVE, BNG, CORNER, "width", "4' 6\"")
    assert isinstance(wider, Rectangle)
    assert wider == replace(SPACE, width=4.5 * 0.3048)
    longer = with_numeral(GRAVE, BNG, MIDDLE, "length", "3")
    assert isinstance(longer, Rectangle)
    assert longer.centre == pytest.approx(SPACE.centre)
    assert longer.length == 3.0
    turned = with_numeral(GRAVE, BNG, MIDDLE, "bearing", "N 30 E")
    assert isinstance(turned, Rectangle)
    assert turned.bearing_deg == pytest.approx(30.0)
    assert turned.centre == pytest.approx(SPACE.centre)
    moved = with_numeral(GRAVE, BNG, MIDDLE, "east", "553 200")
    assert isinstance(moved, Rectangle)
    assert moved.centre == pytest.approx((200.0, SPACE.centre[1]))
    north = with_numeral(GRAVE, BNG, CORNER, "north", "421000,5")
    assert isinstance(north, Rectangle)
    assert north.north == pytest.approx(0.5)


def test_a_point_is_told_by_two_numbers() -> None:
    assert told(TREE) == {"east": "553001.500", "north": "421002.250"}
    assert with_numeral(TREE, BNG, CORNER, "east", "553007.1") == Point(7.1, 2.25)
    assert with_numeral(TREE, BNG, CORNER, "north", "421000") == Point(1.5, 0)
    assert told(FENCE) == {}
    assert told(plain(kind_of(BASE_PLAN), 9)) == {}


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("east", "north"),
        ("east", "nan"),
        ("east", "1e9"),
        ("east", "5531124800"),
        ("north", ""),
        ("width", "0"),
        ("width", "wide"),
        ("length", "900 km"),
        ("bearing", "400"),
    ],
)
def test_what_is_no_number_of_that_sort_is_refused(name: str, typed: str) -> None:
    with pytest.raises(CannotUse, match=r"Nothing was changed\."):
        with_numeral(GRAVE, BNG, CORNER, name, typed)


def test_corners_are_listed_once_with_their_holes_and_parts() -> None:
    assert [c.name for c in corners(FENCE, BNG)] == ["1", "2", "3"]
    assert corners(FENCE, BNG)[2].north == "421005.000"
    assert [c.name for c in corners(HOLED, BNG)] == [
        *"1234",
        *(f"hole 1, {n}" for n in range(1, 5)),
    ]
    assert [c.name for c in corners(PARTS, BNG)][4:] == [f"part 2, {n}" for n in (1, 2, 3, 4)]
    assert corners(GRAVE, BNG) == corners(TREE, BNG) == ()
    round_ = plain(kind_of("grass"), 6).at(Point(0, 0).buffer(5.0, quad_segs=MOST_CORNERS))
    assert corners(round_, BNG) == ()


def test_a_corner_that_is_typed_moves_alone() -> None:
    bent = with_corner(FENCE, BNG, 1, "north", "421000.75")
    assert bent == LineString([(0, 0), (10, 0.75), (10, 5)])
    first = corners(HOLED, BNG)[4]
    made = with_corner(HOLED, BNG, 4, "east", "553011")
    assert isinstance(made, shapely.Polygon)
    assert made.is_valid
    # the ring is still closed
    ring = shapely.get_coordinates(made.interiors[0])
    assert ring[0].tolist() == ring[-1].tolist() == [11.0, float(first.north) - BNG.north]


@given(st.data())
def test_any_corner_of_any_area_typed_as_it_is_changes_nothing(data: st.DataObject) -> None:
    item = plain(kind_of("grass"), 7).at(data.draw(areas()))
    listed = corners(item, BNG)
    number = data.draw(st.integers(0, len(listed) - 1))
    corner = listed[number]
    assert with_corner(item, BNG, number, "east", corner.east) == item.shape
    moved = with_corner(item, BNG, number, "north", f"{float(corner.north) + 0.5:.3f}")
    off = shapely.get_coordinates(moved) - shapely.get_coordinates(item.shape)
    assert set(off[:, 0].round(6)) == {0.0}
    assert sorted(set(off[:, 1].round(6))) == [0.0, 0.5]
    assert (off[:, 1] != 0).sum() <= 2


def test_a_coordinate_is_read_with_blanks_between_its_digits() -> None:
    assert coordinate("553\u202f112.48", 553000.0) == 112.48
    assert coordinate(" 553 112,480 ", 553000.0) == 112.48
