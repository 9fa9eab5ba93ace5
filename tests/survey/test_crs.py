"""Coordinate systems, against the EPSG register and published examples of the British grid."""

import pytest
from pyproj import Transformer

from plan_editor.errors import CannotUse
from plan_editor.survey.grids.crs import CrsFacts, checked, described


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("local", "local"),
        (" Local ", "local"),
        ("EPSG:27700", "EPSG:27700"),
        ("epsg: 27700", "EPSG:27700"),
        ("27700", "EPSG:27700"),
        ("EPSG:2157", "EPSG:2157"),  # Irish Transverse Mercator
        ("EPSG:2193", "EPSG:2193"),  # New Zealand: northing is named before easting
    ],
)
def test_what_can_be_used_is_written_one_way(typed, name):
    assert checked(typed) == name


@pytest.mark.parametrize(
    ("typed", "because"),
    [
        ("somewhere", "names no coordinate system"),
        ("", "names no coordinate system"),
        ("EPSG:٣", "names no coordinate system"),
        ("EPSG:99999", "has no coordinate system EPSG:99999"),
        ("EPSG:4326", "not a flat grid"),  # latitude and longitude
        ("EPSG:4978", "not a flat grid"),  # geocentric
        ("EPSG:7405", "not a flat grid"),  # British grid with heights
        ("EPSG:2065", "not a flat grid"),  # counts to the south and west
        ("EPSG:2229", "US survey foot"),
        ("EPSG:3857", "not metres on the ground"),
    ],
)
def test_what_cannot_be_used_is_refused_in_a_sentence(typed, because):
    with pytest.raises(CannotUse, match=because) as refused:
        checked(typed)
    assert "nothing was changed" in str(refused.value)


def test_the_british_grid_is_described():
    facts = described("EPSG:27700")
    # source: EPSG register, codes 27700 and 9807
    assert facts.name == "OSGB36 / British National Grid"
    assert facts.srs_id == 27700
    assert facts.unit_factor == 1.0
    assert facts.wkt.startswith('PROJCS["OSGB36 / British National Grid",')
    assert 'PARAMETER["scale_factor",0.9996012717]' in facts.wkt


def test_a_local_grid_is_undefined_cartesian():
    # source: OGC 12-128r18 (GeoPackage), requirement 11: srs_id -1, definition "undefined"
    assert described("local") == CrsFacts(
        name="Local grid", srs_id=-1, wkt="undefined", unit_factor=1.0
    )


def test_a_system_that_older_text_cannot_define_is_defined_in_newer_text():
    # EPSG method 1052 (Colombia Urban) has no name in WKT 1
    assert described("EPSG:6247").wkt.startswith('PROJCRS["MAGNA-SIRGAS / Bogota urban grid"')


# Ordnance Survey, A guide to coordinate systems in Great Britain, annexe C (Caister water
# tower); Ordnance Survey, Geodetic information paper 1 (Framingham); EPSG Guidance Note 7-2,
# method 9807 (its printed answer is 6 to 8 mm from what its own intermediate values give)
@pytest.mark.parametrize(
    ("lat", "lon", "east", "north", "within"),
    [
        (
            52 + 39 / 60 + 27.2531 / 3600,
            1 + 43 / 60 + 4.5177 / 3600,
            651409.903,
            313177.270,
            0.001,
        ),
        (
            52 + 34 / 60 + 26.8915 / 3600,
            1 + 20 / 60 + 21.1080 / 3600,
            626238.248,
            302646.412,
            0.001,
        ),
        (50.5, 0.5, 577274.99, 69740.50, 0.011),
    ],
)
def test_the_definition_we_record_projects_as_published(lat, lon, east, north, within):
    project = Transformer.from_crs("EPSG:4277", described("EPSG:27700").wkt, always_xy=True)
    assert project.transform(lon, lat) == pytest.approx((east, north), abs=within)
