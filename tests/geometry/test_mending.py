"""Shapes that are out of order: mended where plain, told otherwise.

Sums by hand; what an outline that crosses itself encloses by another engine, Clipper
(A. Johnson).
"""

import pyclipper
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.mending import Fault, fault_in, mended
from plan_editor.geometry.tolerance import stored


def corners(shape: BaseGeometry | None) -> list[list[float]]:
    assert shape is not None
    return shapely.get_coordinates(shape).tolist()


def test_what_is_in_order_stays_as_it_is():
    for shape in (
        box(0, 0, 4, 4),
        LineString([(0, 0), (4, 4)]),
        Point(1, 2),
        box(0, 0, 9, 9).difference(box(1, 1, 2, 2)),
        MultiPolygon([box(0, 0, 1, 1), box(5, 5, 6, 6)]),
    ):
        assert mended(shape) == shape


def test_corners_that_are_there_twice_do_no_harm():
    twice = Polygon([(0, 0), (4, 0), (4, 0), (4, 4), (4, 4.0001), (0, 4)])
    found = mended(twice)
    assert found is not None
    assert found.is_valid
    assert found.area == 16.0


def test_a_spike_of_no_width_goes():
    spiked = Polygon([(0, 0), (4, 0), (4, 2), (9, 2), (4, 2), (4, 4), (0, 4)])
    assert mended(spiked).equals(box(0, 0, 4, 4))
    # over two steps, and one whose tip is where the ring begins
    there_and_back = [(4, 2), (6, 2), (9, 2), (6, 2), (4, 2)]
    assert mended(Polygon([(0, 0), (4, 0), *there_and_back, (4, 4), (0, 4)])).equals(
        box(0, 0, 4, 4)
    )
    begun = Polygon([(9, 2), (4, 2), (4, 4), (0, 4), (0, 0), (4, 0), (4, 2)])
    assert mended(begun).equals(box(0, 0, 4, 4))


def test_a_tiny_loop_where_an_outline_crosses_itself_goes():
    # the last two corners were clicked the wrong way round, 4 cm apart
    slipped = Polygon([(0, 0), (4, 0), (4, 4), (0, 4), (-0.02, 0.02), (0.02, -0.02)])
    assert not slipped.is_valid
    found = mended(slipped)
    assert found is not None
    assert found.is_valid
    # 16 and the long triangle on the slant of the west side, 3.98 by 0.02
    assert found.area == pytest.approx(16.0 + 3.98 * 0.02 / 2, abs=0.001)


def test_an_outline_that_goes_one_loop_twice_round_a_hand_s_breadth_is_mended():
    # what is gone round twice is 5 cm by 5 cm
    loop = [(4, 4), (3.95, 4), (3.95, 3.95), (4, 3.95), (4, 4)]
    found = mended(Polygon([(0, 0), (4, 0), *loop, (0, 4)]))
    assert found is not None
    assert found.is_valid
    assert found.area == pytest.approx(16.0, abs=0.01)


def test_a_bow_tie_is_not_mended_and_its_crossing_is_told():
    tie = Polygon([(0, 0), (4, 4), (4, 0), (0, 4)])
    assert mended(tie) is None
    assert fault_in(tie) == Fault("the outline crosses itself", (2.0, 2.0))


def test_a_hole_beside_its_outline_and_one_across_it_are_told():
    beside = Polygon(box(0, 0, 4, 4).exterior, [box(6, 1, 7, 2).exterior])
    across = Polygon(box(0, 0, 4, 4).exterior, [box(3, 1, 5, 2).exterior])
    assert mended(beside) is None
    assert fault_in(beside).what == "a hole lies outside the outline"
    assert mended(across) is None
    where = fault_in(across).place
    assert where is not None
    assert where[0] == 4.0
    assert 1.0 <= where[1] <= 2.0


def test_a_hole_of_no_area_goes():
    flat = Polygon(box(0, 0, 4, 4).exterior, [[(1, 1), (2, 2), (1, 1), (1, 1)]])
    assert mended(flat).equals(box(0, 0, 4, 4))


def test_parts_that_lie_over_one_another_are_not_mended():
    assert mended(MultiPolygon([box(0, 0, 4, 4), box(2, 2, 6, 6)])) is None


def test_two_parts_each_with_a_slip_are_both_mended():
    spiked = [(0, 0), (4, 0), (4, 2), (9, 2), (4, 2), (4, 4), (0, 4)]
    other = [(e + 20, n) for e, n in spiked]
    found = mended(MultiPolygon([Polygon(spiked), Polygon(other)]))
    assert found.equals(MultiPolygon([box(0, 0, 4, 4), box(20, 0, 24, 4)]))


def test_what_has_no_area_or_lies_nowhere_is_told():
    line = Polygon([(0, 0), (4, 0), (8, 0), (0, 0)])
    assert mended(line) is None
    assert fault_in(line).place is not None
    far = Polygon([(0, 0), (2e5, 0), (0, 3)])
    assert mended(far) is None
    assert fault_in(far).what == "a corner lies more than 100 km from the others"
    nowhere = Point(float("nan"), 2.0)
    assert mended(nowhere) is None
    assert fault_in(nowhere) == Fault(
        "there is no corner within 100 km of the plan's origin", None
    )
    sliver = Polygon([(0, 0), (9, 0), (9, 0.0002)])
    assert mended(sliver) is None
    assert "thinner than a millimetre" in fault_in(sliver).what
    diamond = Polygon([(0, 0.0001), (4, 0.0004), (9, 0.0001), (4, -0.0003)])
    assert mended(diamond) is None
    assert "thinner than a millimetre" in fault_in(diamond).what
    short = LineString([(0, 0), (0.0001, 0)])
    assert mended(short) is None
    assert "thinner than a millimetre" in fault_in(short).what


spots = st.tuples(st.integers(-40, 40), st.integers(-40, 40)).map(
    lambda p: (p[0] / 8, p[1] / 8)
)


@given(st.lists(spots, min_size=3, max_size=8))
def test_whatever_is_clicked_is_kept_whole_or_told_where_it_is_not(clicked):
    shape = Polygon(clicked)
    found = mended(shape)
    if found is None:
        fault = fault_in(shape)
        assert fault.what
        assert fault.place is not None
        assert shape.envelope.buffer(1e-6).covers(Point(fault.place))
    else:
        assert found.is_valid
        assert found.geom_type == "Polygon"
        assert stored(found) == found
        assert min(abs(found.area - inside) for inside in enclosed(clicked)) < 0.012


def enclosed(clicked: list[tuple[float, float]]) -> list[float]:
    """Return the ground in square metres that lies inside as Clipper finds it.

    Once what the outline goes round an odd number of times, once what it goes round at all:
    they differ for one that is gone round twice.
    """
    in_mm = [(round(1000 * e), round(1000 * n)) for e, n in clicked]
    rules = (pyclipper.PFT_EVENODD, pyclipper.PFT_NONZERO)
    found = [pyclipper.SimplifyPolygon(in_mm, rule) for rule in rules]
    return [abs(sum(map(pyclipper.Area, paths))) * 1e-6 for paths in found]
