"""The table of boxes, against a tree of boxes from another library."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import STRtree

from plan_editor.geometry.nearby import BoxTable

# whole numbers on a small ground, so that boxes often touch exactly
whole = st.integers(-20, 20).map(float)
boxes = st.tuples(whole, whole, whole, whole).map(
    lambda b: (min(b[0], b[2]), min(b[1], b[3]), max(b[0], b[2]), max(b[1], b[3]))
)
steps = st.lists(st.tuples(st.integers(0, 12), st.none() | boxes), max_size=40)


def played(moves: list[tuple[int, tuple[float, ...] | None]]):
    """Play puts and drops on a table and on a plain dict."""
    table: BoxTable[int] = BoxTable()
    kept: dict[int, tuple[float, ...]] = {}
    for key, box in moves:
        if box is None:
            table.drop(key)
            kept.pop(key, None)
        else:
            table.put(key, box)
            kept[key] = box
    return table, kept


def by_tree(kept: dict[int, tuple[float, ...]], shape, **how) -> set[int]:
    keys = list(kept)
    tree = STRtree([shapely.box(*kept[k]) for k in keys])
    return {keys[i] for i in tree.query(shape, **how)}


@given(steps, boxes)
def test_what_meets_a_box_is_what_a_tree_says(moves, box):
    table, kept = played(moves)
    found = table.within(box)
    assert len(found) == len(set(found))
    assert set(found) == by_tree(kept, shapely.box(*box))


@given(steps, whole, whole, st.integers(0, 15).map(float))
def test_what_is_near_a_point_is_what_distances_say(moves, east, north, reach):
    table, kept = played(moves)
    point = shapely.Point(east, north)
    assert set(table.near(east, north, reach)) == {
        k for k, b in kept.items() if shapely.box(*b).distance(point) <= reach
    }


@given(steps)
def test_it_holds_what_was_put_last(moves):
    table, kept = played(moves)
    assert len(table) == len(kept)
    assert {k: table.box(k) for k in range(13) if k in table} == kept


@given(steps, st.lists(st.tuples(st.integers(0, 12), boxes), max_size=20))
def test_many_at_once_are_as_one_after_another(moves, more):
    table, kept = played(moves)
    table.put_many([k for k, _ in more], [b for _, b in more])
    kept |= dict(more)
    assert {k: table.box(k) for k in range(13) if k in table} == kept


@given(steps)
def test_the_extent_is_the_box_round_everything(moves):
    table, kept = played(moves)
    if kept:
        corners = shapely.total_bounds([shapely.box(*b) for b in kept.values()])
        assert table.extent() == tuple(corners)
    else:
        assert table.extent() is None


def test_it_grows_past_its_first_room():
    table: BoxTable[str] = BoxTable()
    for n in range(1000):
        table.put(f"grave {n}", (n, 0, n + 0.5, 2))
    assert len(table) == 1000
    assert set(table.within((997.6, 1, 999, 1))) == {"grave 998", "grave 999"}


def test_a_great_many_at_once_fit():
    corners = np.arange(5000.0)
    table: BoxTable[int] = BoxTable()
    table.put_many(
        range(5000), np.column_stack([corners, corners, corners + 0.5, corners + 0.5])
    )
    assert table.within((2499.0, 2499.0, 2500.0, 2500.0)) == (2499, 2500)


def test_the_empty_box_of_an_empty_shape_is_not_kept():
    empty = shapely.Point().bounds
    table: BoxTable[str] = BoxTable()
    table.put("yew", (0, 0, 1, 1))
    table.put("yew", empty)
    assert "yew" not in table
    table.put_many(["wall", "yew"], [(0, 0, 5, 0), empty])
    assert table.within((-9, -9, 9, 9)) == ("wall",)


def test_the_box_of_nothing_is_an_error():
    with pytest.raises(KeyError):
        BoxTable().box("yew")
