"""Rows found from how graves lie: on the sample, and on rows laid out by hand."""

from math import cos, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point

from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import head_of
from plan_editor.ground.rows import ALIKE_DEG, ASIDE_M, Row, row_of, row_through, rows
from plan_editor.kinds import ashes_plot, grave, tree
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan


def laid(
    count: int, *, pitch: float = 1.5, bearing: float = 0.0, east: float = 0.0
) -> list[Item]:
    """Return graves 1.2 m wide, head to head along a bearing from (east, 0)."""
    turn = radians(bearing)
    return [
        new_item(
            grave.KIND,
            Rectangle(
                east=east + n * pitch * sin(turn),
                north=n * pitch * cos(turn),
                width=1.2,
                length=2.4,
                bearing_deg=bearing,
            ),
            number=f"A {n + 1}",
        )
        for n in range(count)
    ]


def test_the_rows_of_the_sample_are_those_that_its_numbers_tell() -> None:
    plan = read_plan(sample("harrowmere.gpkg"))
    found = rows(plan)
    numbers = [[plan.items[i].number for i in row.ids] for row in found]
    letters = [{number.split()[0] for number in row} for row in numbers]
    assert all(len(one) == 1 for one in letters)
    assert len(set().union(*letters)) == len(found) == 24
    assert sum(map(len, numbers)) == plan.count(grave.KIND)
    for row in numbers:
        counted = [int(number.split()[1]) for number in row]
        assert counted == sorted(counted)


def test_a_row_is_told_by_its_axis_and_its_pitch() -> None:
    graves = laid(5, bearing=90.0)
    (row,) = rows(plan_of(graves))
    assert row.ids == tuple(g.id for g in graves)
    assert row.start == pytest.approx((0.0, 0.0))
    assert row.end == pytest.approx((4 * 1.5 + 1.2, 0.0))
    assert row.bearing_deg == pytest.approx(90.0)
    assert row.pitch_m == pytest.approx(1.5)
    assert row.length_m == pytest.approx(7.2)
    # south is to the right of east
    assert row.axis.within((2.0, -1.0)) == pytest.approx((2.0, 1.0))
    assert row.axis.at(3.0) == pytest.approx((3.0, 0.0))


def test_untraced_graves_leave_a_gap_and_not_an_end() -> None:
    graves = laid(9)
    (row,) = rows(plan_of(graves[:3] + graves[5:]))
    assert len(row.ids) == 7
    far = laid(3) + laid(3, east=3.0)
    assert len(rows(plan_of(far))) == 2
    assert len(rows(plan_of([graves[0], graves[6]]))) == 0


def test_rows_back_to_back_and_graves_that_face_otherwise_stand_apart() -> None:
    row = laid(4)
    behind = [
        new_item(
            grave.KIND,
            Rectangle(east=0.0, north=1.2 + 1.5 * n, width=1.2, length=2.4, bearing_deg=180.0),
        )
        for n in range(4)
    ]
    found = rows(plan_of(row + behind))
    assert sorted(len(r.ids) for r in found) == [4, 4]
    stray = new_item(
        grave.KIND, Rectangle(east=0, north=6.2, width=1, length=2, bearing_deg=45)
    )
    (alone,) = rows(plan_of([*row, stray]))
    assert stray.id not in alone.ids


@pytest.mark.parametrize(("aside", "turn"), [(ASIDE_M * 0.9, 0.0), (0.0, ALIKE_DEG * 0.9)])
def test_a_crooked_grave_still_stands_in_its_row(aside: float, turn: float) -> None:
    graves = laid(5)
    crooked = Rectangle(east=aside, north=3.0, width=1.2, length=2.4, bearing_deg=turn)
    graves[2] = graves[2].on(crooked)
    (row,) = rows(plan_of(graves))
    assert len(row.ids) == 5


def test_other_kinds_have_rows_of_their_own_and_a_tree_stands_in_none() -> None:
    plots = [
        new_item(ashes_plot.KIND, Rectangle(east=0, north=0.7 * n, width=0.6, length=0.6))
        for n in range(3)
    ]
    yew = new_item(tree.KIND, Point(9, 9))
    graves = laid(2, east=20.0)
    plan = plan_of([*plots, yew, *graves])
    assert [len(r.ids) for r in rows(plan, ashes_plot.KIND)] == [3]
    assert row_of(plan, yew.id) is None
    assert row_of(plan, new_item(tree.KIND, Point(0, 0)).id) is None
    found = row_of(plan, plots[1].id)
    assert found is not None
    assert found.kind == "ashes_plot"
    assert row_of(plan_of(graves[:1]), graves[0].id) is None


def test_what_was_chosen_by_hand_is_a_row_whatever_it_looks_like() -> None:
    graves = laid(4, pitch=20.0)
    assert rows(plan_of(graves)) == ()
    row = row_through(graves)
    assert row is not None
    assert row.pitch_m == pytest.approx(20.0)
    assert row_through(graves[:1]) is None
    assert row_through([new_item(tree.KIND, Point(0, 0))] * 2) is None


@given(
    st.floats(0, 360, exclude_max=True),
    st.integers(2, 30),
    st.floats(1.25, 4.5),
    st.lists(st.floats(-0.2, 0.2), min_size=30, max_size=30),
)
def test_a_row_is_found_whatever_its_bearing(
    bearing: float, count: int, pitch: float, aside: list[float]
) -> None:
    turn = radians(bearing)
    graves = [
        grave_.on(grave_.rectangle.moved(off * cos(turn), -off * sin(turn)))
        for grave_, off in zip(laid(count, pitch=pitch, bearing=bearing), aside, strict=False)
        if grave_.rectangle is not None
    ]
    (row,) = rows(plan_of(graves))
    assert row.ids == tuple(g.id for g in graves)
    first = head_of(graves[0].rectangle)  # type: ignore[arg-type]
    assert abs(row.axis.within(first)[1]) < 0.41
    assert isinstance(row, Row)
    assert hypot(*first) < 1.0
