"""A scan laid north up, against planes that interpolation must keep and exact turns."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pictures import as_bytes, drawing
from PIL import Image

from plan_editor.errors import CannotUse
from plan_editor.geometry.mappings import Straight
from plan_editor.scans import resampling, shelf, straight
from plan_editor.scans.resampling import extent_of, north_up, resample
from plan_editor.scans.tiles import Pyramid, make_tiles, open_tiles
from plan_editor.survey.fits.fitting import fit as fitted
from plan_editor.survey.fits.models import Control, Model

SIZE = 200


def ramp(right: float, down: float, start: float) -> Image.Image:
    """Return a grey plane: each pixel has the value at its middle."""
    x, y = np.meshgrid(np.arange(SIZE) + 0.5, np.arange(SIZE) + 0.5)
    return Image.fromarray(np.round(start + right * x + down * y).astype(np.uint8))


def turned(degrees: float, scale: float, east: float = 0.0, north: float = 0.0):
    """Return six numbers of a scan whose upward edge bears so many degrees."""
    s, c = scale * math.sin(math.radians(degrees)), scale * math.cos(math.radians(degrees))
    return Straight((c, -s, east, -s, -c, north))


@pytest.fixture(scope="module")
def shelf_folder(tmp_path_factory):
    return tmp_path_factory.mktemp("shelf")


def laid(folder, image: Image.Image) -> Pyramid:
    return open_tiles(make_tiles(as_bytes(image, "PNG", compress_level=1), folder))


def test_a_scan_that_lies_north_up_comes_back_as_it_is(tmp_path):
    image = drawing("RGB", (160, 120))
    # the lower left corner of the scan is the place (10, 20); a pixel is 5 cm
    found = resample(
        laid(tmp_path, image), turned(0, 0.05, 10.0, 26.0), (10.0, 20.0, 18.0, 26.0), 0.05
    )
    assert (found == np.asarray(image)).all()


@pytest.mark.parametrize(("degrees", "quarters"), [(90, -1), (180, 2), (270, 1)])
def test_a_quarter_turn_is_exact_to_a_grey_level(tmp_path, degrees, quarters):
    image = drawing("L", (60, 40))
    pyramid, fit = laid(tmp_path, image), turned(degrees, 0.1, 5.0, 7.0)
    found = resample(pyramid, fit, extent_of(pyramid, fit), 0.1)
    expected = np.rot90(np.asarray(image), quarters).astype(int)
    # Pillow cuts decimals off: 99.99999 of a sine that is not quite 1 becomes 99
    assert np.abs(found - expected).max() <= 1


@given(st.floats(0, 359), st.floats(0.02, 0.2))
def test_a_plane_stays_the_same_plane_on_the_ground(shelf_folder, degrees, scale):
    # interpolation between pixels reproduces a plane; what is left is half a grey level of the
    # ramp's own rounding and the decimals that Pillow cuts off
    pyramid = laid(shelf_folder, ramp(0.5, 0.25, 20.0))
    fit = turned(degrees, scale, 100.0, 200.0)
    a, b, c, d, e, f = fit.numbers
    middle = (a * 100 + b * 100 + c, d * 100 + e * 100 + f)
    side = scale * 0.9
    west, north = middle[0] - 30 * side, middle[1] + 30 * side
    found = resample(pyramid, fit, (west, north - 60 * side, west + 60 * side, north), side)
    assert found.shape == (60, 60)
    rows, columns = np.mgrid[0:60, 0:60] + 0.5
    de, dn = west + columns * side - c, north - rows * side - f
    area = a * e - b * d
    right, down = (e * de - b * dn) / area, (a * dn - d * de) / area
    assert np.abs(found - (20.0 + 0.5 * right + 0.25 * down)).max() <= 1.5


def test_outside_the_scan_is_white(tmp_path):
    pyramid = laid(tmp_path, Image.new("RGB", (50, 50)))
    fit = turned(45, 0.1)
    found = resample(pyramid, fit, (-1.0, -10.0, 9.0, 2.0), 0.1)
    assert found[0, 0].tolist() == [255, 255, 255]
    # the scan hangs by its first corner from (0, 0): its middle is at (0, -5 / root 2)
    assert found[55, 10].tolist() == [0, 0, 0]
    nothing = resample(pyramid, fit, (500.0, 500.0, 501.0, 501.0), 0.1)
    assert (nothing == 255).all()


def test_strips_meet_without_a_seam(tmp_path, monkeypatch):
    pyramid, fit = laid(tmp_path, ramp(0.5, 0.25, 20.0)), turned(33, 0.1)
    whole = resample(pyramid, fit, extent_of(pyramid, fit), 0.1)
    monkeypatch.setattr(straight, "STRIP_ROWS", 7)
    monkeypatch.setattr(shelf, "STRIP_BYTES", 3000)
    assert (resample(pyramid, fit, extent_of(pyramid, fit), 0.1) == whole).all()


def test_made_coarser_lines_keep_their_share_of_ink(tmp_path):
    # one dark pixel in eight, so an eighth of the ink whatever the scale: nothing falls through
    stripes = np.full((2400, 2400), 255, dtype=np.uint8)
    stripes[:, ::8] = 0
    pyramid, fit = laid(tmp_path, Image.fromarray(stripes)), turned(0, 0.01, 0.0, 24.0)
    for side in (0.04, 0.08):
        found = resample(pyramid, fit, (0.0, 0.0, 24.0, 24.0), side)
        assert found.mean() == pytest.approx(255 * 7 / 8, abs=2)
        assert found.std() < (120 if side == 0.04 else 1)


def test_a_pixel_of_the_ground_lies_where_the_fit_puts_it(tmp_path):
    # a dark spot on the scan, at pixel (130, 70); the fit by two clicked points
    paper = np.full((SIZE, SIZE), 255, dtype=np.uint8)
    paper[68:72, 128:132] = 0
    control = (
        Control(x=0.0, y=0.0, east=300.0, north=400.0),
        Control(x=200.0, y=0.0, east=312.0, north=416.0),
    )
    fit = fitted(Model.SIMILARITY, control)
    pyramid = laid(tmp_path, Image.fromarray(paper))
    laid_out = north_up(pyramid, Straight(fit.parameters), tmp_path)
    side = laid_out.metres_per_pixel
    rows, columns = np.nonzero(laid_out.pyramid.levels[0].pixels < 128)
    inside = rows > 3  # the rim of the scan is not dark: only the spot is
    east = laid_out.west + (columns[inside].mean() + 0.5) * side
    north = laid_out.north - (rows[inside].mean() + 0.5) * side
    assert (east, north) == pytest.approx(fit.to_ground(130, 70), abs=side / 2)


def test_the_whole_scan_north_up_is_made_once(tmp_path):
    pyramid, fit = laid(tmp_path, drawing("RGB", (300, 200))), turned(10, 0.05, 3.0, 4.0)
    told = []
    first = north_up(pyramid, fit, tmp_path, progress=told.append)
    west, south, east, north = extent_of(pyramid, fit)
    assert (first.west, first.north) == (west, north)
    assert first.metres_per_pixel == pytest.approx(0.05)
    finest = first.pyramid.levels[0]
    assert (finest.width, finest.height) == (
        math.ceil((east - west) / 0.05),
        math.ceil((north - south) / 0.05),
    )
    assert told[-1] == 1.0
    stamp = finest.file.stat().st_mtime_ns
    again = north_up(pyramid, fit, tmp_path)
    assert again.pyramid.folder == first.pyramid.folder
    assert again.pyramid.levels[0].file.stat().st_mtime_ns == stamp
    other = north_up(pyramid, turned(11, 0.05, 3.0, 4.0), tmp_path)
    assert other.pyramid.folder != first.pyramid.folder


def test_cancelled_it_keeps_nothing(tmp_path):
    pyramid = laid(tmp_path, drawing())
    before = sorted(tmp_path.iterdir())
    assert north_up(pyramid, turned(10, 0.05), tmp_path, cancelled=lambda: True) is None
    assert sorted(tmp_path.iterdir()) == before


def test_a_north_up_picture_that_would_be_too_large_is_coarser(tmp_path, monkeypatch):
    monkeypatch.setattr(resampling, "MOST_GRID_PIXELS", 10_000)
    pyramid = laid(tmp_path, drawing("L", (300, 200)))
    laid_out = north_up(pyramid, turned(45, 0.05), tmp_path)
    finest = laid_out.pyramid.levels[0]
    assert 0.9 * 10_000 < finest.width * finest.height < 1.1 * 10_000
    assert laid_out.metres_per_pixel > 0.1


@pytest.mark.parametrize(
    "fit",
    [
        (0.0, 0.0, 5.0, 0.0, 0.0, 5.0),
        (0.1, 0.2, 0.0, 0.2, 0.4, 0.0),
        (math.nan, 0.0, 0.0, 0.0, 0.1, 0.0),
        (0.1, 0.0, math.inf, 0.0, -0.1, 0.0),
    ],
)
def test_a_fit_that_flattens_the_scan_is_refused(tmp_path, fit):
    with pytest.raises(CannotUse, match="Nothing was changed"):
        extent_of(laid(tmp_path, drawing()), Straight(fit))
