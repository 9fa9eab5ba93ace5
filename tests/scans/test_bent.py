"""A scan through a fit that bends, against the place of every single pixel."""

import numpy as np
import pytest
from pictures import as_bytes
from PIL import Image

from plan_editor.errors import CannotUse
from plan_editor.geometry.mappings import Mapping, Perspective, Straight
from plan_editor.scans import bent, shelf
from plan_editor.scans.resampling import extent_of, north_up, resample
from plan_editor.scans.tiles import Pyramid, make_tiles, open_tiles
from plan_editor.survey.fits.models import Control, Model, mapping_of

WIDE, HIGH = 1400, 1000
STRAIGHT = (0.02, 0.001, 100.0, 0.001, -0.02, 200.0)
SLANT = Perspective(STRAIGHT, (0.02, 0.001, 100.0, 0.001, -0.02, 200.0, 0.00004, -0.00003))


def warp(bend: float) -> Mapping:
    """Return a sheet bent by some metres here and there, as damp paper is."""
    places = [(x, y) for x in (0, 350, 700, 1050, 1400) for y in (0, 250, 500, 750, 1000)]
    ground = Straight(STRAIGHT).to_ground(np.array(places, dtype=float))
    ground += bend * np.random.default_rng(4).uniform(-1, 1, ground.shape)
    control = [
        Control(x=x, y=y, east=e, north=n)
        for (x, y), (e, n) in zip(places, ground.tolist(), strict=True)
    ]
    return mapping_of(Model.WARP, STRAIGHT, (0.0,) * len(control), control)


@pytest.fixture(scope="module")
def scan(tmp_path_factory) -> Pyramid:
    """A scan whose red tells how far right a pixel is, and whose green how far down."""
    x, y = np.meshgrid(np.arange(WIDE) + 0.5, np.arange(HIGH) + 0.5)
    rgb = np.stack([x * 250 / WIDE, y * 250 / HIGH, 0 * x], axis=2)
    return shelved(tmp_path_factory.mktemp("shelf"), np.round(rgb).astype(np.uint8))


def shelved(folder, pixels: np.ndarray) -> Pyramid:
    content = as_bytes(Image.fromarray(pixels), "PNG", compress_level=1)
    return open_tiles(make_tiles(content, folder))


def exact(mapping: Mapping, extent, side: float, shape) -> np.ndarray:
    """Return the place on the scan of the middle of every pixel of a north-up picture."""
    rows, columns = shape
    x, y = np.meshgrid(np.arange(columns) + 0.5, np.arange(rows) + 0.5)
    ground = np.stack([extent[0] + x.ravel() * side, extent[3] - y.ravel() * side], axis=1)
    return mapping.to_paper(ground).reshape(rows, columns, 2)


@pytest.mark.parametrize("mapping", [SLANT, warp(0.4), warp(0.15)])
def test_no_pixel_is_half_a_pixel_from_its_place(monkeypatch, scan, mapping):
    asked = []
    inside = bent._lattice

    def lattice(wanted, box):
        cells, quads = inside(wanted, box)
        asked.append((cells, quads * wanted.scale))
        return cells, quads

    monkeypatch.setattr(bent, "_lattice", lattice)
    extent = extent_of(scan, mapping)
    found = resample(scan, mapping, extent, 0.02)
    places = exact(mapping, extent, 0.02, found.shape[:2])
    worst = 0.0
    for cells, quads in asked:
        for (x0, y0, x1, y1), (nw, sw, se, ne) in zip(cells, quads, strict=True):
            across = ((np.arange(x0, x1) + 0.5 - x0) / (x1 - x0))[None, :, None]
            down = ((np.arange(y0, y1) + 0.5 - y0) / (y1 - y0))[:, None, None]
            upper, lower = nw + across * (ne - nw), sw + across * (se - sw)
            error = upper + down * (lower - upper) - places[y0:y1, x0:x1]
            worst = max(worst, float(np.hypot(*error.reshape(-1, 2).T).max()))
    assert 0.0 < worst <= 0.5


@pytest.mark.parametrize("mapping", [SLANT, warp(0.4)])
def test_a_pixel_shows_what_lies_there_on_the_scan(scan, mapping):
    extent = extent_of(scan, mapping)
    found = resample(scan, mapping, extent, 0.02).astype(float)
    places = exact(mapping, extent, 0.02, found.shape[:2])
    x, y = places[..., 0], places[..., 1]
    inside = (x > 2) & (x < WIDE - 2) & (y > 2) & (y < HIGH - 2)
    outside = (x < -2) | (x > WIDE + 2) | (y < -2) | (y > HIGH + 2)
    assert inside.mean() > 0.4
    # a grey level is 5.6 or 4 pixels of the scan; half of one goes by the rounding of the scan
    assert np.abs(found[..., 0] - x * 250 / WIDE)[inside].max() < 0.5 + 0.5 + 0.5 / 5.6
    assert np.abs(found[..., 1] - y * 250 / HIGH)[inside].max() < 0.5 + 0.5 + 0.5 / 4
    assert (found[outside] == 255).all()


@pytest.mark.parametrize("side", [0.02, 0.1])
def test_a_perspective_that_is_straight_gives_what_six_numbers_give(scan, side):
    level = Perspective(STRAIGHT, (*STRAIGHT, 0.0, 0.0))
    extent = extent_of(scan, level)
    assert extent == pytest.approx(extent_of(scan, Straight(STRAIGHT)))
    one = resample(scan, level, extent, side).astype(int)
    other = resample(scan, Straight(STRAIGHT), extent, side).astype(int)
    differing = (np.abs(one - other) > 1).any(axis=2)
    assert differing.mean() < 0.003  # along the rim alone


def test_bent_strips_meet_without_a_seam(monkeypatch, scan):
    mapping = warp(0.4)
    extent = extent_of(scan, mapping)
    whole = resample(scan, mapping, extent, 0.02).astype(int)
    monkeypatch.setattr(bent, "BLOCK", 128)
    monkeypatch.setattr(shelf, "STRIP_BYTES", 400_000)
    cut = resample(scan, mapping, extent, 0.02).astype(int)
    assert (np.abs(whole - cut) > 1).any(axis=2).mean() < 0.001


def test_a_grey_scan_bends_as_well(tmp_path):
    grey = shelved(tmp_path, np.full((HIGH, WIDE), 77, dtype=np.uint8))
    found = resample(grey, SLANT, extent_of(grey, SLANT), 0.05)
    assert found.ndim == 2
    assert set(np.unique(found)) <= {77, 255}
    assert (found == 77).mean() > 0.4


def test_far_from_the_scan_all_is_white(scan):
    far = resample(scan, SLANT, (5000.0, 5000.0, 5010.0, 5010.0), 0.1)
    assert far.shape == (100, 100, 3)
    assert (far == 255).all()


def test_a_bent_scan_is_laid_out_once_with_its_bent_outline(tmp_path, scan):
    mapping = warp(0.4)
    laid = north_up(scan, mapping, tmp_path)
    west, _, _, north = extent_of(scan, mapping)
    assert (laid.west, laid.north) == (west, north)
    assert len(laid.outline) > 100
    assert laid.outline[0] == pytest.approx(tuple(mapping.to_ground(np.zeros((1, 2)))[0]))
    stamp = laid.pyramid.levels[0].file.stat().st_mtime_ns
    again = north_up(scan, mapping, tmp_path)
    assert again.pyramid.levels[0].file.stat().st_mtime_ns == stamp
    assert north_up(scan, warp(0.3), tmp_path).pyramid.folder != laid.pyramid.folder


@pytest.mark.parametrize(
    "mapping", [warp(8.0), Perspective(STRAIGHT, (*STRAIGHT, -0.001, 0.0))]
)
def test_a_scan_folded_over_is_refused(scan, mapping):
    with pytest.raises(CannotUse, match="fold it over"):
        extent_of(scan, mapping)
    with pytest.raises(CannotUse, match="Nothing was changed"):
        resample(scan, mapping, (100.0, 180.0, 120.0, 200.0), 0.02)


class Lost:
    """A way to the ground whose way back is never found."""

    straight, is_straight = STRAIGHT, False

    def to_ground(self, places):
        return SLANT.to_ground(places)

    def to_paper(self, places):
        return SLANT.to_paper(places) + 40.0


class Crumpled:
    """Paper in waves so short that no lattice follows them."""

    straight, is_straight = STRAIGHT, False

    def to_ground(self, places):
        return Straight(STRAIGHT).to_ground(places)

    def to_paper(self, places):
        there = Straight(STRAIGHT).to_paper(places)
        return there + 2.0 * np.sin(there / 3.0)


@pytest.mark.parametrize("mapping", [Lost(), Crumpled()], ids=["lost", "crumpled"])
def test_a_scan_that_cannot_be_followed_is_refused(monkeypatch, scan, mapping):
    if isinstance(mapping, Crumpled):
        monkeypatch.setattr(bent, "_FOUND", np.inf)
    with pytest.raises(CannotUse, match="fold it over"):
        resample(scan, mapping, (100.0, 180.0, 120.0, 200.0), 0.02)
