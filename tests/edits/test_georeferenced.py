"""Scans placed by their own coordinates."""

import pytest

from plan_editor.edits.base_plans import scan_item
from plan_editor.edits.georeferenced import as_referenced
from plan_editor.errors import EditRefused
from plan_editor.survey.fits.models import Model
from plan_editor.survey.grids.grid import Grid

GRID = Grid(crs="EPSG:27700", east=553100.0, north=421000.0)
SCAN = scan_item("1962", "0" * 64, width=200, height=100, page=2)


def test_a_scan_lies_at_its_coordinates_less_the_plans_origin():
    item = as_referenced(SCAN, (0.1, 0.0, 553110.0, 0.0, -0.1, 421020.0), GRID)
    assert item.details.fit == (0.1, 0.0, 10.0, 0.0, -0.1, 20.0)
    assert item.shape.bounds == (10, 10, 30, 20)
    assert (item.details.page, item.details.control) == (2, ())


@pytest.mark.parametrize(
    ("fit", "model"),
    [
        ((0.3, 0.4, 553110.0, 0.4, -0.3, 421020.0), Model.SIMILARITY),
        ((0.3, 0.4, 553110.0, 0.4, -0.301, 421020.0), Model.AFFINE),
        ((0.1, 0.0, 553110.0, 0.0, 0.1, 421020.0), Model.AFFINE),
    ],
)
def test_only_square_pixels_that_are_turned_are_a_similarity(fit, model):
    assert as_referenced(SCAN, fit, GRID).details.model is model


def test_far_from_the_plan_it_is_refused():
    with pytest.raises(EditRefused, match="100 km"):
        as_referenced(SCAN, (0.1, 0.0, 10.0, 0.0, -0.1, 20.0), GRID)
