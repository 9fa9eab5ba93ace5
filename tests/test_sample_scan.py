"""The scan of 1962: where its pixels truly belong, and how the plan lays it on the ground."""

import os
import subprocess
import sys
from hashlib import sha256
from math import atan2, degrees, hypot
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from old_plan import FILE
from paper import PIXELS, to_ground, to_scan
from PIL import Image
from whole import OLD_PLAN
from yard import SOUTH, WALL_M, WEST

from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.resources import sample
from plan_editor.storage.loading import read_history, read_media, read_plan

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
    right, down = to_scan(np.array([8.0, 88.0, 48.0, 48.0]), np.array([38.0, 38.0, 3.0, 73.0]))
    across = hypot(right[1] - right[0], down[1] - down[0]) / 80
    along = hypot(right[3] - right[2], down[3] - down[2]) / 70
    assert across / along == pytest.approx(1.014, abs=0.006)
    # north is up, and the sheet was laid a little clockwise
    turn = degrees(atan2(right[3] - right[2], down[2] - down[3]))
    assert turn == pytest.approx(3.2, abs=0.5)


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


def test_its_fit_is_the_best_similarity_through_its_points(base: Item) -> None:
    # least squares over a, b, c, d of e = a·x + b·y + c, n = b·x - a·y + d, solved by numpy
    points = np.array(base.details.control).reshape(-1, 4)
    x, y, east, north = points.T
    one, nothing = np.ones_like(x), np.zeros_like(x)
    equations = np.concatenate(
        [np.column_stack([x, y, one, nothing]), np.column_stack([-y, x, nothing, one])]
    )
    (a, b, c, d), *_ = np.linalg.lstsq(equations, np.concatenate([east, north]), rcond=None)
    assert base.details.fit == pytest.approx((a, b, c, b, -a, d), abs=1e-6)
    misfit = np.hypot(a * x + b * y + c - east, b * x - a * y + d - north)
    assert base.details.rmse_m == pytest.approx(np.sqrt(np.mean(misfit**2)), abs=1e-4)


def test_a_similarity_leaves_it_some_decimetres_out(base: Item) -> None:
    east, north = np.meshgrid(np.linspace(5, 90, 12), np.linspace(5, 75, 12))
    x, y = to_scan(east, north)
    a, b, c, d, e, f = base.details.fit
    out = np.hypot(a * x + b * y + c - east, d * x + e * y + f - north)
    assert 0.1 < np.sqrt(np.mean(out**2)) < 0.4
    assert out.max() < 0.9


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
    assert left == {PLAN, FILE}
    assert [p for p in (built / "state").rglob("*") if p.is_file()] == []


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
