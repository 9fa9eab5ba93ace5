"""Things on their way from one plan to another, as text."""

import json
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point
from strategies import kind_of, one_of_each, plain

from plan_editor.errors import CannotRead
from plan_editor.exchange.clippings import (
    MOST_LETTERS,
    NOT_OURS,
    clipping_text,
    read_clipping,
)
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import Basis, Item, Method
from plan_editor.survey.grids.grid import Grid

GRID = Grid(crs="EPSG:27700", east=553000.0, north=421000.0)
grave = replace(
    plain(kind_of("grave"), 1).on(
        Rectangle(east=10.1, north=20.2, width=1.22, length=2.74, bearing_deg=10.0)
    ),
    number="C 14",
    basis=Basis(method=Method.TAPED, source="Book 2", date="1962", sd_m=0.05),
)
stone = plain(kind_of("memorial"), 2)
stone = replace(stone, details=replace(stone.details, grave=grave.id))
way = plain(kind_of("path"), 3).at(LineString([(0, 0), (10, 0.001)]))
gate = plain(kind_of("gate"), 4).at(Point(3, 4))
gate = replace(gate, details=replace(gate.details, key_kept="at Mrs Ash's"))
ITEMS = (stone, grave, way, gate)


def text(items: tuple[Item[Any], ...] = ITEMS) -> str:
    return clipping_text(items, GRID, "St Elfric")


def with_thing(**told: Any) -> str:
    found = json.loads(text((way,)))
    found["things"][0].update(told)
    return json.dumps(found)


def sentence(of: str) -> str:
    with pytest.raises(CannotRead) as caught:
        read_clipping(of)
    assert "Nothing was changed." in str(caught.value)
    return str(caught.value)


def test_things_come_back_where_they_were_with_what_is_recorded() -> None:
    found = read_clipping(text())
    back = found.in_place(GRID)
    assert [i.kind for i in back] == [i.kind for i in ITEMS]
    assert back[2].shape == way.shape
    assert back[1].rectangle == grave.rectangle
    assert replace(back[1], id=grave.id) == grave
    assert back[0].details.grave == back[1].id
    assert found.fits(GRID, "another plan")
    # twenty metres farther on in a plan whose origin lies twenty metres back
    other = replace(GRID, east=GRID.east - 20.0)
    assert found.in_place(other)[3].shape == Point(23, 4)


def test_what_concerns_living_people_stays_at_home() -> None:
    assert "Ash" not in text()
    assert read_clipping(text()).items[3].details.key_kept == ""


def test_a_reference_to_what_does_not_come_along_is_left_out() -> None:
    assert read_clipping(text((stone, way))).items[0].details.grave is None


def test_what_is_not_recorded_stays_so() -> None:
    narrow = replace(way, details=replace(way.details, width_m=None))
    assert read_clipping(text((narrow,))).items[0].details.width_m is None


def test_a_local_grid_is_one_plans_own() -> None:
    found = read_clipping(clipping_text((way,), Grid(), "St Elfric"))
    assert found.fits(Grid(), "St Elfric")
    assert not found.fits(Grid(), "St Osyth")
    assert not found.fits(GRID, "St Elfric")
    there = found.about(100.0, 50.0)[0].shape
    assert there is not None
    assert there.bounds == (95.0, 49.999, 105.0, 50.0)


def test_coordinates_are_true_ones_that_another_program_could_read() -> None:
    told = json.loads(text((way,)))
    assert told["things"][0]["place"]["coordinates"] == [
        [553000.0, 421000.0],
        [553010.0, 421000.001],
    ]


def test_one_of_every_kind_goes_there_and_back() -> None:
    items = tuple(i for i in one_of_each().items.values() if i.kind.drawn and not i.kind.pinned)
    back = read_clipping(clipping_text(items, GRID, "")).in_place(GRID)
    for before, after in zip(items, back, strict=True):
        assert after.shape == before.shape
        assert after.rectangle == before.rectangle
        assert (after.number, after.status) == (before.number, before.status)
        for detail in before.kind.entries():
            if not detail.about.private and not detail.about.refers_to:
                name = detail.name
                assert getattr(after.details, name) == getattr(before.details, name)


@pytest.mark.parametrize("strange", ["", "C 14", "[]", "null", "3", "[" * 100_000, "{}"])
def test_another_text_is_none_of_ours(strange: str) -> None:
    assert sentence(strange) == NOT_OURS


def test_what_is_hostile_gets_one_sentence() -> None:
    assert "too large" in sentence(" " * (MOST_LETTERS + 1))
    assert "later version" in sentence(text().replace("clipping 1", "clipping 2"))
    assert "no number" in sentence(with_thing(basis={"sd_m": float("nan")}))
    assert "does not know" in sentence(with_thing(kind="dragon"))
    assert "does not know" in sentence(with_thing(kind="base_plan"))
    assert "does not know" in sentence(with_thing(kind="burial"))
    assert "standard deviation" in sentence(
        with_thing(basis={"method": "taped", "source": "", "date": "", "sd_m": -1})
    )
    assert "holds no things" in sentence(text(()))
    deep: dict[str, Any] = {"type": "Point", "coordinates": [1, 2]}
    for _ in range(200):
        deep = {"type": "GeometryCollection", "geometries": [deep]}
    for place in (
        deep,
        None,
        {"type": "Point", "coordinates": []},
        {"type": "Polygon", "coordinates": [[[0, 0], [5, 5], [5, 0], [0, 5], [0, 0]]]},
        {"type": "LineString", "coordinates": [[0, 0], [1e300, 1e300]]},
        {"type": "Point", "coordinates": [10**400, 2]},
        {"rectangle": [1, 2, 3]},
        {"rectangle": [1, 2, 0, 0, 0]},
        {"rectangle": [1, 2, 0.9, 1e308, 0]},
        {"rectangle": [1, 1e308, 0.9, 2.3, 0]},
        {"rectangle": [1, 2, True, 4, 5]},
    ):
        sentence(with_thing(place=place))
    for details in ({"width_m": "wide"}, {"width_m": 1e9}, {"length": 1}, [], {"name": 7}):
        sentence(with_thing(details=details))
    for other in ({"number": 5}, {"status": "gone"}, {"basis": []}, {"kind": 4}):
        sentence(with_thing(**other))


def test_a_reference_is_looked_at_before_it_is_believed() -> None:
    told = json.loads(text((stone, grave, way)))
    for target in (2, 7, -1, True, "1"):
        told["things"][0]["details"]["grave"] = target
        sentence(json.dumps(told))


@given(st.data())
def test_a_text_with_a_slip_anywhere_is_read_or_refused_in_a_sentence(
    data: st.DataObject,
) -> None:
    whole = text()
    at = data.draw(st.integers(0, len(whole) - 1))
    put = data.draw(st.sampled_from(["", "0", '"', "}", "null", "-", "9e99", "x"]))
    try:
        found = read_clipping(whole[:at] + put + whole[at + 1 :])
    except CannotRead as why:
        assert "Nothing was changed." in str(why)  # noqa: PT017  # being refused is no failure
    else:
        assert found.items
