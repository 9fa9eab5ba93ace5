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
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.grids.grid import Grid

SCAN = scan_item("1962", "d" * 64, width=200, height=100)
DRAWING = drawing_item("survey", "e" * 64, extent=(553100.0, 421000.0, 553150.0, 421040.0))
TINY = drawing_item("detail", "f" * 64, extent=(0.0, 0.0, 100.0, 50.0))
PLAN = plan_of([SCAN, DRAWING, TINY], grid=Grid(crs="EPSG:27700", east=553100, north=421000))


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
    assert provisionally(line, (0.0, 0.0, 100.0, 100.0)).mapping.is_straight
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
            PlaceBasePlan(
                id=SCAN.id, control=control((0, 0, 1.5e5, 0), (200, 0, 1.5e5 + 20, 0))
            ),
            "more than 100 km",
        ),
        (
            PlaceBasePlan(id=SCAN.id, control=control((0, 0, 0, 0), (100000.0, 0, 0.02, 0))),
            "a pixel would be 2e-07 m",
        ),
        (
            PlaceBasePlan(id=TINY.id, control=control((0, 0, 0, 0), (100000.0, 0, 0.02, 0))),
            "smaller than a millimetre",
        ),
        (
            PlaceBasePlan(id=SCAN.id, control=control((0, 0, 5, 20)), model=Model.WARP),
            "six points",
        ),
    ],
)
def test_what_cannot_be_placed_is_refused_in_a_sentence(edit, says):
    with pytest.raises(EditRefused, match=says):
        edit.changes(PLAN)


OFF = control((0, 0, 0, 100), (1000, 0, 100, 100), (1000, 1000, 100.3, 0))
"""The third point is 0.3 m off."""


def test_a_scan_is_as_uncertain_as_points_left_out_are_missed_by_and_so_is_what_is_traced():
    document = Document(PLAN)
    document.apply(PlaceBasePlan(id=SCAN.id, control=OFF))
    scan = document.plan.items[SCAN.id]
    missed = 0.0
    for n, out in enumerate(OFF):
        # the similarity through the two others, in complex numbers
        (p, q), (e, f) = zip(
            *(
                (complex(c.x, -c.y), complex(c.east, c.north))
                for k, c in enumerate(OFF)
                if k != n
            ),
            strict=True,
        )
        turn = (f - e) / (q - p)
        missed += (
            abs(e + turn * (complex(out.x, -out.y) - p) - complex(out.east, out.north)) ** 2
        )
    assert scan.details.loo_rmse_m == pytest.approx((missed / 3) ** 0.5, abs=1e-4)
    assert scan.basis.sd_m == pytest.approx((missed / 6) ** 0.5, abs=1e-4)
    traced = traced_on(document.plan, shapely.Point(5, 95))
    assert traced.base_plan == SCAN.id
    # a pixel is 0.1 m wide, and pointing at ink adds 2/√3 of it
    assert traced.sd_m == pytest.approx((missed / 6 + 0.01 * 4 / 3) ** 0.5, abs=2e-4)


def test_two_points_tell_nothing_of_the_uncertainty():
    two = control((0, 0, 5, 20), (200, 100, 25, 10))
    (change,) = PlaceBasePlan(id=SCAN.id, control=two).changes(PLAN)
    assert change.after.basis.sd_m is None
    assert change.after.details.loo_rmse_m is None


def test_where_no_point_can_be_left_out_the_residuals_tell_the_uncertainty():
    # without the third point the two others lie at one place for an affine fit: it stays open
    four = control((0, 0, 0, 100), (100, 0, 10, 100), (200, 0, 20.1, 100), (0, 100, 0, 90))
    place = PlaceBasePlan(id=SCAN.id, control=four, model=Model.AFFINE)
    (change,) = place.changes(PLAN)
    assert change.after.details.loo_rmse_m is None
    # by numpy: one surplus in each direction, residuals 1/60, -1/30, 1/60 of the three in line
    design = np.array([(c.x, c.y, 1) for c in four])
    _, squares, _, _ = np.linalg.lstsq(design, np.array([(c.east, c.north) for c in four]))
    assert change.after.basis.sd_m == pytest.approx((squares.sum() / 2) ** 0.5, abs=1e-4)


GRID = [(x, y) for x in (0, 100, 200) for y in (0, 50, 100)]


def bowed(x, y):
    """Return the place of a pixel on paper that is bowed by half a metre."""
    return x / 10 + 0.5 * np.sin(y / 40), -y / 10 + 0.5 * np.cos(x / 60)


def test_a_warp_is_kept_with_what_it_was_fitted_to():
    points = tuple(
        Control(x=x, y=y, east=e, north=n, sd=0.02 * k or None, name=f"M{k}")
        for k, (x, y) in enumerate(GRID)
        for e, n in [bowed(x, y)]
    )
    document = Document(PLAN)
    document.apply(PlaceBasePlan(id=SCAN.id, control=points, model=Model.WARP))
    details = document.plan.items[SCAN.id].details
    assert details.control_points == points
    assert len(details.bend) == len(points)
    there = details.mapping.to_ground(np.array([(50.0, 25.0)]))
    assert there == pytest.approx(np.array([bowed(50, 25)]), abs=0.15)
    # its outline bends with it: nowhere do 200 by 100 pixels end in four corners
    assert len(document.plan.items[SCAN.id].shape.exterior.coords) > 50


def test_a_projective_fit_is_kept_with_its_eight_numbers():
    # east = (x + 10) / (1 + x / 1000), north = -y / (1 + x / 1000), a tenth of it in metres
    points = control(*((x, y, (x + 10) / (10 + x / 100), -y / (10 + x / 100)) for x, y in GRID))
    place = PlaceBasePlan(id=SCAN.id, control=points, model=Model.PROJECTIVE)
    (change,) = place.changes(PLAN)
    assert change.after.details.bend == pytest.approx(
        (0.1, 0, 1, 0, -0.1, 0, 0.001, 0), abs=1e-9
    )
