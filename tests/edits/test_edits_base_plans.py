import numpy as np
import pytest
import shapely

from plan_editor.drafting.basis import traced_on
from plan_editor.edits.base_plans import (
    PlaceBasePlan,
    as_drawn,
    drawing_item,
    scan_item,
)
from plan_editor.errors import EditRefused
from plan_editor.ground.provisional import provisionally
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_id
from plan_editor.plan.plan import plan_of
from plan_editor.survey.grid import Grid
from plan_editor.survey.models import Control

SCAN = scan_item("1962", "d" * 64, width=200, height=100)
DRAWING = drawing_item("survey", "e" * 64, extent=(553100.0, 421000.0, 553150.0, 421040.0))
PLAN = plan_of([SCAN, DRAWING], grid=Grid(crs="EPSG:27700", east=553100, north=421000))


def control(*numbers):
    return tuple(Control(x=x, y=y, east=e, north=n) for x, y, e, n in numbers)


def test_a_scan_is_placed_by_two_points_with_its_rows_running_south():
    # a tenth of a metre to the pixel, north up: pixel rows count down
    place = PlaceBasePlan(id=SCAN.id, control=control((0, 0, 5, 20), (200, 100, 25, 10)))
    document = Document(PLAN)
    document.apply(place)
    after = document.plan.items[SCAN.id]
    assert after.details.fit == pytest.approx((0.1, 0, 5, 0, -0.1, 20), abs=1e-12)
    assert after.details.rmse_m == 0.0
    assert after.shape.equals(shapely.box(5, 10, 25, 20))
    assert [(c.x, c.north) for c in after.details.control_points] == [(0, 20), (200, 10)]
    assert document.undo_title == "Place a base plan by 2 points"


def test_a_drawing_is_placed_by_points_the_right_way_up():
    units = drawing_item("feet", "f" * 64, extent=(0.0, 0.0, 100.0, 50.0))
    place = PlaceBasePlan(id=units.id, control=control((0, 0, 0, 0), (100, 50, 30.48, 15.24)))
    (change,) = place.changes(plan_of([units]))
    assert change.after.details.fit == pytest.approx((0.3048, 0, 0, 0, 0.3048, 0), abs=1e-12)


@pytest.mark.parametrize(
    ("extent", "roomy"),
    [
        ((0.0, 5.0, 200.0, 5.0), (0.0, 3.0, 200.0, 7.0)),  # one line from west to east
        ((5.0, 0.0, 5.0, 200.0), (3.0, 0.0, 7.0, 200.0)),
        ((5.0, 5.0, 5.0, 5.0), (4.0, 4.0, 6.0, 6.0)),  # one point
    ],
)
def test_a_flat_drawing_can_be_seen_and_placed(extent, roomy):
    line = drawing_item("one line", "f" * 64, extent=extent)
    assert line.details.extent == roomy
    assert provisionally(line, (0.0, 0.0, 100.0, 100.0)).fit
    assert as_drawn(line, 1.0, Grid()).shape.area > 0


def test_a_drawing_lies_where_its_own_coordinates_say():
    there = as_drawn(DRAWING, 1.0, PLAN.grid)
    assert there.shape.equals(shapely.box(0, 0, 50, 40))
    with pytest.raises(EditRefused, match="more than 100 km"):
        as_drawn(DRAWING, 0.001, PLAN.grid)


@pytest.mark.parametrize(
    ("edit", "says"),
    [
        (PlaceBasePlan(id=SCAN.id, control=control((0, 0, 5, 20))), "two points"),
        (PlaceBasePlan(id=new_id(), control=()), "no longer on the plan"),
        (
            PlaceBasePlan(id=SCAN.id, control=control((0, 0, 0, 0), (2, 2, 90000, -90000))),
            "more than 100 km",
        ),
        (
            PlaceBasePlan(id=SCAN.id, control=control((0, 0, 0, 0), (100000.0, 0, 0.02, 0))),
            "smaller than a millimetre",
        ),
    ],
)
def test_what_cannot_be_placed_is_refused_in_a_sentence(edit, says):
    with pytest.raises(EditRefused, match=says):
        edit.changes(PLAN)


def test_points_too_many_tell_how_uncertainly_a_scan_lies_and_what_is_traced_on_it():
    # the third point is 0.3 m off: s0 = sqrt(sum of squares / (2 n - 4)), by numpy's lstsq
    off = control((0, 0, 0, 100), (1000, 0, 100, 100), (1000, 1000, 100.3, 0))
    document = Document(PLAN)
    document.apply(PlaceBasePlan(id=SCAN.id, control=off))
    scan = document.plan.items[SCAN.id]
    design, told = [], []
    for c in scan.details.control_points:
        design += [[c.x, c.y, 1, 0], [-c.y, c.x, 0, 1]]
        told += [c.east, c.north]
    _, (squares,), _, _ = np.linalg.lstsq(np.array(design), np.array(told))
    wanted = float(np.sqrt(squares / 2))
    assert scan.basis.sd_m == pytest.approx(wanted, abs=1e-4)
    traced = traced_on(document.plan, shapely.Point(5, 95))
    assert (traced.base_plan, traced.sd_m) == (SCAN.id, scan.basis.sd_m)


def test_two_points_tell_nothing_of_the_uncertainty():
    two = control((0, 0, 5, 20), (200, 100, 25, 10))
    (change,) = PlaceBasePlan(id=SCAN.id, control=two).changes(PLAN)
    assert change.after.basis.sd_m is None
