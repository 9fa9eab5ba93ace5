"""The verb ``fit``: a base plan placed by points of a table."""

import json
from pathlib import Path

import pytest
from old_plan import clicked
from story import GRID

from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan
from plan_editor.storage.log import read_history

NAME = "Plan of 1962"
WANTED = {"model", "parameters", "scale", "rotation_deg", "rmse_m", "loo_rmse_m", "residuals"}


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "harrowmere.gpkg"
    path.write_bytes(sample("harrowmere.gpkg").read_bytes())
    return path


@pytest.fixture
def marks(tmp_path: Path):
    def call(*, slip: float = 0.0, lines: str = "") -> Path:
        rows = ["mark,px,py,E,N,sd"]
        for n, c in enumerate(clicked()):
            east, north = GRID.to_crs(c.east, c.north)
            right = c.x + (slip if n == 20 else 0.0)
            rows.append(f"{c.name},{right},{c.y},{east:.3f},{north:.3f},{c.sd}")
        path = tmp_path / "marks.csv"
        path.write_text(lines or "\n".join(rows), "utf-8")
        return path

    return call


def test_the_sample_is_placed_by_a_warp_that_says_how_true_it_is(plan, marks, said):
    code, out, _ = said("fit", plan, "--base", NAME, "--marks", marks(), "--json")
    told = json.loads(out)
    assert code == 0
    assert set(told) >= WANTED
    assert told["model"] == told["recommended"] == "warp"
    assert told["blunder"] is None
    assert told["rmse_m"] < told["loo_rmse_m"] < 0.15
    assert len(told["residuals"]) == 52
    assert told["models"][0]["loo_rmse_m"] > 0.35  # a similarity
    # the same points place it as it lies in the sample
    before, after = (
        next(i for i in read_plan(p).items.values() if i.kind.name == "base_plan")
        for p in (sample("harrowmere.gpkg"), plan)
    )
    assert after.details.fit == pytest.approx(before.details.fit)
    assert after.details.control_names == before.details.control_names


def test_a_model_may_be_asked_for_and_what_was_traced_moves_along(plan, marks, said):
    asked = ("fit", plan, "--base", "plan of 1962", "--marks", marks(), "--model", "affine")
    code, out, _ = said(*asked, "--move-traced")
    assert code == 0
    assert "moved with it" in out
    assert "check by tape before anything is dug" in out
    assert read_history(plan)[-1].items > 400


def test_the_numbers_of_a_projective_fit_lead_to_the_grid_of_the_plan(plan, marks, said):
    asked = ("fit", plan, "--base", NAME, "--marks", marks(), "--model", "projective")
    _, out, _ = said(*asked, "--dry-run", "--json")
    told = json.loads(out)
    a, b, c, d, e, f, g, h = told["bend"]
    for at in told["residuals"]:
        x, y = at["px"], at["py"]
        east, north = (
            (p * x + q * y + r) / (g * x + h * y + 1) for p, q, r in ((a, b, c), (d, e, f))
        )
        assert (east, north) == pytest.approx(
            (at["E"] + at["dE"], at["N"] + at["dN"]), abs=2e-3
        )


def test_a_dry_run_changes_nothing_and_a_blunder_is_answered_with_1(plan, marks, said):
    before = plan.read_bytes()
    asked = ("fit", plan, "--base", NAME, "--marks", marks(slip=60.0), "--model", "warp")
    code, out, _ = said(*asked, "--dry-run", "--json")
    assert code == 1
    assert json.loads(out)["blunder"]["mark"] == clicked()[20].name
    assert plan.read_bytes() == before


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ("mark,px,py\nM1,1,2\n", "no column E"),
        ("mark,px,py,E,N\nM1,one,2,553110,421010\n", "line 2"),
        ("mark,px,py,E,N\nM1,100,100,553110,421010\n", "only one"),
        ("mark,px,py,E,N\nA,100,100,53.66,0.31\nB,900,100,53.67,0.32\n", "metres"),
        ("mark,px,py,E,N\nA,9,9,421010,553110\nB,900,100,421080,553115\n", "100 km"),
        ("mark,px,py,E,N\n", "no point"),
    ],
)
def test_bad_tables_are_one_sentence_and_change_nothing(plan, marks, said, lines, says):
    before = plan.read_bytes()
    code, _, err = said("fit", plan, "--base", NAME, "--marks", marks(lines=lines))
    assert (code, err.count("\n")) == (2, 1)
    assert says in err
    assert plan.read_bytes() == before


def test_a_base_plan_that_is_not_there_is_said_with_those_that_are(plan, marks, said):
    code, _, err = said("fit", plan, "--base", "Plan of 1862", "--marks", marks())
    assert code == 2
    assert "“Plan of 1962”" in err
