"""The scan of 1962: where its pixels truly belong, and how the plan lays it on the ground."""

import os
import subprocess
import sys
from dataclasses import replace
from hashlib import sha256
from math import atan2, degrees, hypot
from pathlib import Path

import numpy as np
import pytest
import shapely
from burial_register import FILE as REGISTER
from field_books import FILE as TIES
from gnss import FILE as GNSS
from numpy.typing import NDArray
from old_plan import CLICK_PIXELS, FILE
from paper import PIXELS, to_ground, to_scan
from PIL import Image
from whole import OLD_PLAN
from yard import RING, SOUTH, WALL_M, WEST

from plan_editor.edits.base_plans import paper_of
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.resources import sample
from plan_editor.storage.loading import read_media, read_plan
from plan_editor.storage.log import read_history
from plan_editor.survey.fits.fitting import Fit, recommended
from plan_editor.survey.fits.models import Model

Numbers = NDArray[np.float64]
PLAN = "harrowmere.gpkg"


@pytest.fixture(scope="module")
def grey() -> Numbers:
    with Image.open(sample(FILE)) as picture:
        return np.asarray(picture.convert("L"), dtype=float)


@pytest.fixture(scope="module")
def base() -> Item:
    return read_plan(sample(PLAN)).items[OLD_PLAN]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("built")
    builder = sample("build.py")
    homes = {"XDG_STATE_HOME": str(folder / "state")}
    subprocess.run([sys.executable, builder, folder], check=True, env=os.environ | homes)
    return folder


def test_a_pixel_comes_back_from_the_ground() -> None:
    right, down = np.meshgrid(np.linspace(0, PIXELS[0], 30), np.linspace(0, PIXELS[1], 30))
    again = to_scan(*to_ground(right, down))
    assert np.abs(again[0] - right).max() < 1e-6
    assert np.abs(again[1] - down).max() < 1e-6


def test_the_paper_is_stretched_more_across_than_along_and_lies_askew() -> None:
    # what the sheet is in the mean, its cockles left out: least squares over all of it
    grid = np.meshgrid(np.linspace(0, 96, 40), np.linspace(0, 80, 40))
    east, north = (g.ravel() for g in grid)
    right, down = to_scan(east, north)
    known = np.column_stack([east, north, np.ones_like(east)])
    (a, b, _), (d, e, _) = (np.linalg.lstsq(known, g, rcond=None)[0] for g in (right, down))
    assert hypot(a, d) / hypot(b, e) == pytest.approx(1.014, abs=0.006)
    # north is up, and the sheet was laid a little clockwise
    assert degrees(atan2(b, -e)) == pytest.approx(3.2, abs=0.5)


def test_walls_are_drawn_where_the_true_way_says(grey: Numbers) -> None:
    for run in (SOUTH[:2], WEST[:2]):
        (e0, n0), (e1, n1) = run
        part = np.linspace(0.15, 0.85, 200)
        length = hypot(e1 - e0, n1 - n0)
        aside_e, aside_n = (n0 - n1) / length, (e1 - e0) / length
        dark = {
            off: _brightness(
                grey,
                e0 + part * (e1 - e0) + off * aside_e,
                n0 + part * (n1 - n0) + off * aside_n,
            )
            for off in (-1.0, -WALL_M / 2, WALL_M / 2, 1.0)
        }
        # the line of each face is darker than the bare paper a metre to its side
        assert max(dark[-WALL_M / 2], dark[WALL_M / 2]) < min(dark[-1.0], dark[1.0]) - 40


def test_it_is_small_enough_to_send_and_says_its_resolution() -> None:
    assert sample(FILE).stat().st_size <= 1_500_000
    with Image.open(sample(FILE)) as picture:
        assert picture.size == PIXELS
        assert picture.info["dpi"] == pytest.approx((150, 150), abs=0.5)


def test_the_plan_keeps_the_very_file_that_lies_beside_it(base: Item) -> None:
    content = sample(FILE).read_bytes()
    assert base.details.digest == sha256(content).hexdigest()
    assert read_media(sample(PLAN), base.details.digest) == content


def test_its_straight_fit_is_the_best_affine_through_its_points(base: Item) -> None:
    # weighted alike, so least squares by numpy over a, b, c and d, e, f
    points = np.array(base.details.control).reshape(-1, 4)
    x, y, east, north = points.T
    known = np.column_stack([x, y, np.ones_like(x)])
    (a, b, c), *_ = np.linalg.lstsq(known, east, rcond=None)
    (d, e, f), *_ = np.linalg.lstsq(known, north, rcond=None)
    assert base.details.fit == pytest.approx((a, b, c, d, e, f), abs=1e-6)


def test_the_fit_that_is_recommended_is_true_where_no_point_was_clicked(base: Item) -> None:
    paper = paper_of(base, (150.0, 150.0))
    fits, best = recommended(base.details.control_points, paper)
    assert best.model is Model.WARP is base.details.model
    assert _rms_at_check_points(best) <= 0.15
    assert _rms_at_check_points(next(f for f in fits if f.model is Model.SIMILARITY)) >= 0.4
    # what it says of itself
    assert best.loo_rmse == pytest.approx(_rms_at_check_points(best), rel=0.3)
    assert base.details.loo_rmse_m == pytest.approx(best.loo_rmse, abs=1e-4)
    assert base.details.fit == pytest.approx(best.straight)
    assert base.details.bend == pytest.approx(best.bend)


def test_of_a_scan_that_is_not_distorted_a_similarity_is_recommended(base: Item) -> None:
    chance = np.random.default_rng(1962)
    flat = tuple(
        replace(c, x=x + dx, y=y + dy)
        for c, (dx, dy) in zip(
            base.details.control_points, chance.normal(0.0, 0.8, (52, 2)), strict=True
        )
        for x, y in [(24.6 * c.east + 1.4 * c.north, 2500.0 + 1.4 * c.east - 24.6 * c.north)]
    )
    _, best = recommended(flat, paper_of(base, (150.0, 150.0)))
    assert best.model is Model.SIMILARITY


def test_it_may_be_printed_with_its_copyright_line(base: Item) -> None:
    assert base.details.reproducible
    assert base.details.copyright.startswith("©")
    assert base.details.date == "1962"


def test_another_build_makes_the_same_plan(built: Path) -> None:
    shipped, fresh = read_plan(sample(PLAN)), read_plan(built / PLAN)
    assert _without_digest(fresh) == _without_digest(shipped)
    assert list(fresh.items) == list(shipped.items)
    assert read_history(built / PLAN) == read_history(sample(PLAN))


def test_another_build_draws_the_same_scan(built: Path, grey: Numbers) -> None:
    # another version of the JPEG library may round otherwise
    with Image.open(built / FILE) as picture:
        again = np.asarray(picture.convert("L"), dtype=float)
    assert np.abs(again - grey).mean() < 1.0
    fresh = read_plan(built / PLAN).items[OLD_PLAN]
    assert fresh.details.digest == sha256((built / FILE).read_bytes()).hexdigest()


def test_a_build_leaves_nothing_else_behind(built: Path) -> None:
    left = {path.name for path in built.iterdir() if path.is_file()}
    assert left == {PLAN, FILE, GNSS, TIES, REGISTER}
    assert [p for p in (built / "state").rglob("*") if p.is_file()] == []


def _rms_at_check_points(fit: Fit) -> float:
    """Return by how many metres a fit misses 200 places that it was never shown.

    They are clicked by the same hand as the points of the fit, as any check would be.
    """
    chance = np.random.default_rng(200)
    west, south, east, north = RING.bounds
    places = chance.uniform((west, south), (east, north), (2000, 2))
    places = places[shapely.contains_xy(RING, *places.T)][:200]
    clicked = np.column_stack(to_scan(*places.T)) + chance.normal(0.0, CLICK_PIXELS, (200, 2))
    found = fit.mapping.to_ground(clicked)
    return float(np.sqrt(np.mean(np.sum((found - places) ** 2, axis=1))))


def _brightness(grey: Numbers, east: Numbers, north: Numbers) -> float:
    """Return how bright a line on the ground is, the darkest of three pixels at each place."""
    right, down = to_scan(east, north)
    i, j = np.floor(down).astype(int), np.floor(right).astype(int)
    near = [grey[i + di, j + dj] for di in (-1, 0, 1) for dj in (-1, 0, 1)]
    return float(np.mean(np.min(near, axis=0)))


def _without_digest(plan: Plan) -> dict[str, object]:
    kept = {key: item for key, item in plan.items.items() if key != OLD_PLAN}
    base = plan.items[OLD_PLAN]
    told = {d.name: getattr(base.details, d.name) for d in base.kind.entries()}
    del told["digest"]
    return {**kept, OLD_PLAN: (told, base.shape, base.basis, base.number)}
