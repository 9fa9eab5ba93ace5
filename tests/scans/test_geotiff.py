"""Scans written for other programs: tags by the standard, places by marks on the picture.

Checked by hand with gdalinfo 3.6.2 (Debian): origin, pixel size and system are those told here.
"""

import math

import numpy as np
import pytest
from pictures import as_bytes, drawing, with_turn
from PIL import Image

from plan_editor.geometry.mappings import Perspective, Straight
from plan_editor.scans import geotiff
from plan_editor.scans.geotiff import Place, world_file, write_geotiff
from plan_editor.scans.reading import probe
from plan_editor.scans.referencing import read_tags, read_world_file
from plan_editor.scans.tiles import make_tiles, open_tiles

GRID = Place(east=553100.0, north=421000.0, epsg=27700)
SLANT = Perspective(
    (0.05, 0.0, 0.0, 0.0, -0.05, 20.0), (0.05, 0.0, 0.0, 0.0, -0.05, 20.0, 0.0008, 0.0004)
)


def shelved(folder, image: Image.Image):
    return open_tiles(make_tiles(as_bytes(image, "PNG"), folder))


def spotted() -> Image.Image:
    """Return grey paper with a dark spot, its middle at pixel 301, 202."""
    paper = np.full((400, 500), 200, dtype=np.uint8)
    paper[200:204, 299:303] = 0
    return Image.fromarray(paper)


@pytest.mark.parametrize(
    "mapping", [Straight((0.04, 0.03, 5.0, 0.03, -0.04, 25.0)), SLANT], ids=["turned", "bent"]
)
def test_a_spot_lies_where_the_fit_puts_it(tmp_path, mapping):
    out = tmp_path / "out.tif"
    made = write_geotiff(
        shelved(tmp_path, spotted()), mapping, out, place=GRID, copyright_line="© The parish."
    )
    with Image.open(out) as image:
        tags, pixels = image.tag_v2, np.asarray(image)
    scale, tie = tags[33550], tags[33922]
    rows, columns = np.nonzero(pixels < 60)
    east = tie[3] + scale[0] * (columns.mean() + 0.5)
    north = tie[4] - scale[1] * (rows.mean() + 0.5)
    wanted = mapping.to_ground(np.array([(301.0, 202.0)]))[0] + (553100.0, 421000.0)
    assert (east, north) == pytest.approx(tuple(wanted), abs=scale[0] / 2)
    assert (made.width, made.height) == pixels.shape[::-1]
    assert scale[0] == scale[1] == made.metres_per_pixel
    assert not made.coarser
    assert tags[33432] == "(c) The parish."


def test_the_keys_name_a_projected_system(tmp_path):
    out = tmp_path / "out.tif"
    fit = Straight((0.05, 0.0, 10.0, 0.0, -0.05, 20.0))
    write_geotiff(shelved(tmp_path, drawing()), fit, out, place=GRID, copyright_line="")
    with Image.open(out) as image:
        # GeoTIFF 1.1: version 1.1.0, four keys; projected; pixel is area; the system; metres
        assert image.tag_v2[34735] == (
            1, 1, 0, 4, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 27700, 3076, 0, 1, 9001,
        )  # fmt: skip
        assert image.tag_v2[33922] == pytest.approx((0, 0, 0, 553110.0, 421020.0, 0))
        assert 33432 not in image.tag_v2
        assert image.size == (160, 120)
        assert (np.asarray(image) == np.asarray(drawing())).all()
    found = read_tags(out, probe(out))
    assert found.fit == pytest.approx((0.05, 0.0, 553110.0, 0.0, -0.05, 421020.0))


@pytest.mark.parametrize("epsg", [None, 65_000])
def test_a_system_without_a_number_is_a_local_grid(tmp_path, epsg):
    out = tmp_path / "out.tif"
    fit = Straight((0.05, 0.0, 10.0, 0.0, -0.05, 20.0))
    place = Place(east=0.0, north=0.0, epsg=epsg)
    write_geotiff(shelved(tmp_path, drawing("L")), fit, out, place=place, copyright_line="")
    with Image.open(out) as image:
        keys = image.tag_v2[34735]
        assert 3072 not in keys[4::4]
        assert image.tag_v2[34737].startswith("Local grid")
    assert read_tags(out, probe(out)).nameless


def test_what_would_be_too_large_is_written_coarser(tmp_path, monkeypatch):
    monkeypatch.setattr(geotiff, "MOST_WRITTEN", 5000)
    out = tmp_path / "out.tif"
    fit = Straight((0.05, 0.0, 10.0, 0.0, -0.05, 20.0))
    made = write_geotiff(shelved(tmp_path, drawing()), fit, out, place=GRID, copyright_line="")
    assert made.coarser
    assert made.width * made.height == pytest.approx(5000, rel=0.03)
    # 160 x 120 pixels of 0.05 m become 5,000: the side grows by the root of their ratio
    assert made.metres_per_pixel == pytest.approx(0.05 * math.sqrt(160 * 120 / 5000))


def test_a_world_file_has_six_lines_and_the_middle_of_the_first_pixel():
    facts = probe(as_bytes(drawing(), "PNG"))
    told = world_file((0.5, 0.2, 999.65, 0.1, -0.5, 2000.2), facts)
    assert [float(line) for line in told.splitlines()] == pytest.approx(
        [0.5, 0.1, 0.2, -0.5, 1000.0, 2000.0]
    )
    assert told.endswith("\n")


@pytest.mark.parametrize("turn", range(1, 9))
def test_what_a_world_file_tells_is_read_back(turn):
    facts = probe(as_bytes(drawing(), "JPEG", exif=with_turn(turn)))
    fit = (0.03, 0.011, 553110.123, 0.012, -0.031, 421020.456)
    found = read_world_file(world_file(fit, facts).encode(), facts).fit
    assert found == pytest.approx(fit, rel=1e-12, abs=1e-9)
