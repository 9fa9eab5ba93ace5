"""Areas and perimeters as sums are made here, against those recorded in open data.

Source: the example data of the libpysal package (BSD-3-Clause): the 77 community areas of
Chicago with their SHAPE_AREA and SHAPE_LEN, from the City of Chicago; and the 49
neighbourhoods of Columbus, Ohio, with AREA and PERIMETER (L. Anselin, Spatial Econometrics,
1988), which are kept in single precision.
"""

import numpy as np
import pyclipper
import pyogrio
import pytest
import shapely

from plan_editor.ground.measures import measure
from plan_editor.kinds import zone
from plan_editor.plan.item import Item, new_id
from plan_editor.survey.grids.grid import Grid


def read(path, area, perimeter):
    """Return the shapes of a file with the area and the perimeter recorded of each."""
    head, _, shapes, columns = pyogrio.raw.read(path)
    names = head["fields"].tolist()
    return (
        shapely.from_wkb(shapes),
        columns[names.index(area)],
        columns[names.index(perimeter)],
    )


def zone_of(shape) -> Item:
    return Item(id=new_id(), kind=zone.KIND, details=zone.ZoneDetails(), shape=shape)


def on_plan(shapes, grid: Grid):
    """Return shapes of a coordinate system about the origin of a plan."""

    def shifted(corners):
        return np.column_stack(grid.to_plan(corners[:, 0], corners[:, 1]))

    return shapely.transform(shapes, shifted)


@pytest.fixture
def chicago(libpysal_examples):
    shapes, areas, perimeters = read(
        libpysal_examples / "chicago" / "Chicago77.shp", "SHAPE_AREA", "SHAPE_LEN"
    )
    assert len(shapes) == 77
    # the file counts in feet; a unit is a unit
    return on_plan(shapes, Grid(east=1_150_000, north=1_880_000)), areas, perimeters


def test_areas_of_the_77_parts_of_chicago_are_the_recorded_ones(chicago):
    shapes, areas, _ = chicago
    found = [measure(zone.KIND, [zone_of(shape)]).area_m2 for shape in shapes]
    assert np.abs(found / areas - 1).max() < 1e-9


def test_perimeters_of_the_77_parts_of_chicago_are_the_recorded_ones(chicago):
    shapes, _, perimeters = chicago
    assert np.abs(shapely.length(shapes) / perimeters - 1).max() < 1e-9


def test_all_of_chicago_is_the_sum_of_its_parts(chicago):
    shapes, areas, _ = chicago
    whole = measure(zone.KIND, [zone_of(shape) for shape in shapes])
    assert whole.count == 77
    assert whole.area_m2 == pytest.approx(areas.sum(), rel=1e-9)


def test_areas_of_the_49_parts_of_columbus_are_the_recorded_ones(libpysal_examples):
    shapes, areas, perimeters = read(
        libpysal_examples / "columbus" / "columbus.shp", "AREA", "PERIMETER"
    )
    assert len(shapes) == 49
    found = [measure(zone.KIND, [zone_of(shape)]).area_m2 for shape in shapes]
    assert np.abs(found / areas - 1).max() < 2.2e-5
    assert np.abs(shapely.length(shapes) / perimeters - 1).max() < 2.2e-5


def test_a_point_lies_in_a_part_of_chicago_where_another_engine_says_so(chicago):
    shapes, _, _ = chicago
    for shape in (s for s in shapes if s.geom_type == "Polygon" and not s.interiors):
        ring = np.round(shapely.get_coordinates(shape) * 1000).astype(np.int64).tolist()
        for point in [s.centroid for s in shapes]:
            whole = (round(point.x * 1000), round(point.y * 1000))
            assert shape.covers(point) == bool(pyclipper.PointInPolygon(whole, ring))
