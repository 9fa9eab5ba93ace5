"""``plan-editor points``, on a plan of ours and on the sample."""

import csv
import json

import pytest
import shapely
from gnss import NEW, gnss_file, places

from plan_editor.kinds import mark
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile


@pytest.fixture
def points(tmp_path):
    def call(text, name="points.csv"):
        path = tmp_path / name
        path.write_text(text, "utf-8")
        return path

    return call


GOOD = "point,E,N,sd,code\nM1,553110,421010,0.02,MARK by the gate\n2,553112,421010,0.02,TREE\n"


def test_points_come_on_the_plan_as_one_edit_and_it_is_saved(plan, points, said):
    code, out, _ = said("points", plan, points(GOOD), "--json")
    facts = json.loads(out)
    assert code == 0
    first = facts["points"][0]
    assert (first["name"], first["E"], first["N"], first["sd"]) == (
        "M1",
        553110.0,
        421010.0,
        0.02,
    )
    assert first["kind"] == "mark"
    assert facts["warnings"] == []
    assert facts["added"] == {"mark": 1, "tree": 1}
    (made,) = read_plan(plan).of(mark.KIND)
    assert (made.number, made.details.description) == ("M1", "by the gate")
    assert made.shape == shapely.Point(10, 10)
    with PlanFile.open(plan, read_only=True) as file:
        assert file.entries()[-1].title == "Put 2 things from points.csv on the plan"


def test_a_dry_run_says_the_same_and_changes_nothing(plan, points, said):
    before = plan.read_bytes()
    code, out, _ = said("points", plan, points(GOOD), "--dry-run")
    assert code == 0
    assert out.startswith("1 mark, 1 tree would come on the plan.")
    assert "dry run" in out
    assert "553110.000  421010.000  0.020" in out
    assert plan.read_bytes() == before


def test_what_is_left_out_or_differs_is_a_no(plan, points, said):
    assert said("points", plan, points(GOOD))[0] == 0
    code, out, _ = said("points", plan, points(GOOD), "--json")
    assert (code, json.loads(out)["agrees"]) == (0, 2)
    moved = points(GOOD.replace("553110", "553110.12"))
    code, out, _ = said("points", plan, moved)
    assert code == 1
    assert "M1 differs by 0.12 m from the mark on the plan" in out
    bad = points("E,N,code\n553110,421010,TREE\n553120,421010,TREE\nx,421010,TREE\n")
    code, out, _ = said("points", plan, bad, "--json")
    facts = json.loads(out)
    assert code == 1
    assert facts["left_out"] == ["Line 4 was left out: “x” is no number."]
    assert facts["left_out"][0] in facts["warnings"]


def test_where_nothing_is_new_the_plan_is_not_written(plan, points, said):
    said("points", plan, points(GOOD))
    before = plan.read_bytes()
    assert said("points", plan, points(GOOD))[0] == 0
    assert plan.read_bytes() == before


@pytest.mark.parametrize(
    ("text", "more", "says"),
    [
        ("", [], "is empty"),
        ("name,lat,lon\n1,53.66,0.31\n", [], "latitude and longitude in degrees"),
        ("name,E,N\n1,421010,553110\n", [], "East and north seem to be exchanged"),
        (GOOD, ["--crs", "EPSG:4326"], "look like metres of a grid"),
        (GOOD, ["--map", "none.toml"], "none.toml cannot be read as a table of codes"),
    ],
)
def test_bad_input_is_one_sentence(plan, points, said, text, more, says):  # noqa: PLR0913  # noqa: PLR0913  # three are fixtures
    before = plan.read_bytes()
    code, _, err = said("points", plan, points(text), *more)
    assert (code, err.count("\n")) == (2, 1)
    assert says in err
    assert plan.read_bytes() == before


def test_a_long_file_is_not_listed_whole(plan, points, said):
    lines = "".join(f"{n},{553110 + n},421010,TREE\n" for n in range(50))
    out = said("points", plan, points(f"point,E,N,code\n{lines}"), "--dry-run")[1]
    assert "and 10 more" in out


def test_a_table_of_codes_of_ones_own_is_used(plan, points, said):
    mine = points('[[code]]\ncode = "QX"\nkind = "bench"\n', "mine.toml")
    file = points("E,N,code\n553110,421010,QX\n")
    out = said("points", plan, file, "--map", mine, "--json", "--dry-run")[1]
    assert json.loads(out)["added"] == {"bench": 1}


# the sample: its truth is that of the story, which is told in metres before it is a file


@pytest.fixture
def shipped(tmp_path):
    plan = tmp_path / "harrowmere.gpkg"
    plan.write_bytes(sample("harrowmere.gpkg").read_bytes())
    return plan, sample("harrowmere-gnss.csv")


def test_the_points_of_the_sample_come_within_millimetres_of_the_truth(shipped, said):
    plan, file = shipped
    code, out, _ = said("points", plan, file, "--crs", "EPSG:4258", "--json")
    facts = json.loads(out)
    assert code == 0
    assert (facts["by"], facts["accuracy_m"]) == ("OSTN15", 0.0)
    truth = {name: at for name, at, _ in places()}
    off = [
        max(
            abs(p["E"] - 553100 - truth[p["name"]][0]),
            abs(p["N"] - 421000 - truth[p["name"]][1]),
        )
        for p in facts["points"]
    ]
    assert len(off) == len(truth)
    assert max(off) <= 0.002
    assert facts["agrees"] == len(truth) - len(NEW)
    assert facts["added"] == {"mark": 3, "tree": 1, "hedge": 1}


def test_the_point_file_of_the_sample_is_the_one_that_is_built():
    assert sample("harrowmere-gnss.csv").read_bytes() == gnss_file()


def test_the_point_file_says_how_well_each_point_is_known():
    rows = list(csv.DictReader(sample("harrowmere-gnss.csv").read_text("utf-8").splitlines()))
    assert all(0.01 <= float(row["sd"]) <= 0.02 for row in rows)
