"""The map of the error of pegs over the ground."""

from dataclasses import replace
from math import hypot, inf, isinf, radians, sin, sqrt

import numpy as np
import pytest
import shapely
from yards import mark_at, yard

from plan_editor.errors import CannotUse
from plan_editor.ground.reach import (
    MOST_CELLS,
    UNTOLD_SD_M,
    cells,
    reach,
)
from plan_editor.kinds import boundary, hedge
from plan_editor.plan.item import Status, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.survey.adjustment.taping import usual


def _near(found, east, north):
    return int(np.argmin(np.hypot(*(found.cells.centres - (east, north)).T)))


def test_the_ground_is_what_lies_in_the_boundary_and_in_no_building():
    found = cells(yard(church=shapely.box(10, 10, 20, 16)))
    assert found.side_m == 1.0
    assert len(found.centres) == 40 * 30 - 60
    assert found.centres.min() == 0.5
    assert found.ground.area == pytest.approx(1140)


def test_a_boundary_drawn_as_a_line_that_closes_is_one_too():
    ring = shapely.LineString([(0, 0), (20, 0), (20, 10), (0, 10), (0, 0)])
    plan = plan_of([new_item(boundary.KIND, ring)])
    assert len(cells(plan).centres) == 200


@pytest.mark.parametrize("size", [(300.0, 200.0), (5_000.0, 20.0)])
def test_a_large_ground_is_cut_into_larger_cells(size):
    found = cells(yard(ground=shapely.box(0, 0, *size)))
    assert MOST_CELLS / 2 < len(found.centres) <= 1.05 * MOST_CELLS
    assert found.side_m == pytest.approx(sqrt(size[0] * size[1] / MOST_CELLS), rel=0.01)


def test_a_long_ground_that_lies_askew_is_cut_into_larger_cells_too():
    askew = shapely.LineString([(0, 0), (3000, 3000)]).buffer(2.0, cap_style="flat")
    assert 500 < len(cells(yard(ground=askew)).centres) < MOST_CELLS


def test_a_small_ground_is_cut_into_smaller_cells_and_a_sliver_is_one():
    assert len(cells(yard(ground=shapely.box(0, 0, 2, 2))).centres) == 100
    sliver = shapely.Polygon([(0, 0), (50, 0.002), (50, 0)])
    assert len(cells(yard(ground=sliver)).centres) >= 1
    thin = shapely.LineString([(0, 0), (7, 7)]).buffer(0.002, cap_style="flat")
    assert len(cells(yard(ground=thin)).centres) >= 1


def test_an_error_comes_from_tape_and_marks_together():
    found = reach(yard((10.5, 5.5), (10.5, 25.5)))
    here = _near(found, 20.5, 15.5)
    length = hypot(10, 10)
    each = hypot(usual().tape.sd(length), 0.02)
    # both ties run at 45°: they meet at a right angle
    assert found.fixes.error_m[here] == pytest.approx(each * sqrt(2), rel=1e-9)
    # a corner of an equilateral triangle of 20 m: they meet at 60°
    west = 30.5 - 20 * sin(radians(60))
    other = reach(yard((west, 5.5), (west, 25.5)))
    far = _near(other, 30.5, 15.5)
    exact = hypot(usual().tape.sd(20), 0.02) * sqrt(2) / sin(radians(60))
    assert other.fixes.error_m[far] == pytest.approx(exact, rel=1e-4)


def test_on_the_line_between_two_marks_no_peg_can_be_set_out():
    found = reach(yard((10.5, 5.5), (10.5, 25.5)))
    assert isinf(found.fixes.error_m[_near(found, 10.5, 15.5)])


def test_one_mark_reaches_nothing_and_two_check_nothing():
    assert reach(yard((10, 10))).fixes.out_of_reach == 1.0
    two = reach(yard((10, 10), (25, 10)))
    assert 0 < two.fixes.out_of_reach < 1
    assert two.fixes.share_checked == 0
    assert reach(yard((10, 10), (25, 10), (18, 25))).fixes.share_checked > 0.3


def test_behind_the_church_is_out_of_reach():
    found = reach(yard((5, 4), (35, 4), church=shapely.box(10, 10, 30, 16)))
    assert isinf(found.fixes.error_m[_near(found, 20.5, 18.5)])
    assert found.fixes.error_m[_near(found, 20.5, 8.5)] < inf


def test_a_mark_of_which_no_deviation_is_known_is_taken_as_poor_and_said():
    known = yard((10, 5), (10, 25))
    untold = yard((10, 5), more=[mark_at(10, 25, sd_m=None)])
    poor = yard((10, 5), more=[mark_at(10, 25, sd_m=UNTOLD_SD_M)])
    worse = reach(untold)
    assert (worse.fixes.error_m == reach(poor).fixes.error_m).all()
    assert np.median(worse.fixes.error_m) > np.median(reach(known).fixes.error_m)
    assert any("1 mark without a recorded standard deviation" in s for s in worse.basis())


def test_a_mark_that_is_to_be_made_or_has_no_place_is_not_measured_from():
    proposed = replace(mark_at(10, 25), status=Status.PROPOSED)
    nowhere = replace(mark_at(10, 25), shape=None)
    found = reach(yard((10, 5), (20, 5), more=[proposed, nowhere]))
    assert len(found.marks) == 2


def test_the_basis_tells_the_tape_the_marks_and_what_was_assumed():
    line = shapely.LineString([(0, 29), (40, 29)])
    loose = mark_at(20, 5, permanent=False)
    told = "\n".join(reach(yard((10, 5), more=[loose, new_item(hedge.KIND, line)])).basis())
    for words in (
        "2 marks",
        "30 m",
        "held level",
        "30°",
        "1 mark temporary",
        "1 wall or hedge",
    ):
        assert words in told


def test_without_a_mark_a_boundary_or_free_ground_it_is_said():
    with pytest.raises(CannotUse, match="no mark"):
        reach(yard())
    with pytest.raises(CannotUse, match="No boundary goes round"):
        reach(plan_of([mark_at(0, 0)]))
    open_line = new_item(boundary.KIND, shapely.LineString([(0, 0), (20, 0)]))
    with pytest.raises(CannotUse, match="No boundary goes round"):
        reach(plan_of([mark_at(0, 0), open_line]))
    with pytest.raises(CannotUse, match="Buildings cover"):
        reach(yard((0, 0), church=shapely.box(-1, -1, 50, 50)))


def test_a_mark_more_makes_no_peg_worse():
    rng = np.random.default_rng(11)
    marks = [tuple(m) for m in rng.uniform(0, 30, (7, 2))]
    before = reach(yard(*marks[:6]))
    after = reach(yard(*marks))
    assert (after.fixes.error_m <= before.fixes.error_m * (1 + 1e-9)).all()
    assert (after.fixes.checked >= before.fixes.checked).all()
