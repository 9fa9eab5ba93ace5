"""The verb that moves a whole plan, and what ``show`` and ``history`` say of its grid."""

import json
from math import cos, radians, sin
from pathlib import Path

import pytest
from shapely import Point

from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, mark
from plan_editor.plan.document import Document
from plan_editor.plan.item import Method, new_item
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify
from plan_editor.survey.grids.grid import Grid

PLACES = {"M 1": (0.0, 0.0), "M 2": (62.0, 3.0), "M 3": (60.0, 41.0), "M 4": (-4.0, 45.0)}


def truly(east: float, north: float, scale: float = 0.999889) -> tuple[float, float]:
    """Return national coordinates of a local place, worked out by hand: turned by 9°."""
    t = radians(9.0)
    return (
        553_112.0 + scale * (east * cos(t) + north * sin(t)),
        421_034.0 + scale * (north * cos(t) - east * sin(t)),
    )


@pytest.fixture
def local(tmp_path) -> Path:
    """A saved plan in a local grid: four marks and a grave."""
    items = [new_item(mark.KIND, Point(p), number=n) for n, p in PLACES.items()]
    items.append(new_item(grave.KIND, Rectangle(east=20, north=10, width=1.2, length=2.7)))
    where = tmp_path / "local.gpkg"
    with PlanFile.create(where, name="St Ŵyn", grid=Grid()) as file:
        Document(file.plan, journal=file).apply(Add(tuple(items)))
        file.save()
    return where


def table(path: Path, head: str = "mark,E,N,sd\n", *, scale: float = 0.999889) -> Path:
    rows = []
    for name, place in PLACES.items():
        east, north = truly(*place, scale)
        rows.append(f"{name},{east:.3f},{north:.3f},0.02\n")
    path.write_text(head + "".join(rows), encoding="utf-8")
    return path


def test_a_plan_is_moved_by_marks_and_told_in_words(local, said, tmp_path):
    marks = table(tmp_path / "marks.csv")
    code, out, _ = said(
        "grid", "move", local, "--crs", "27700", "--marks", marks,
        "--by", "gnss", "--date", "2025-09-06",
    )  # fmt: skip
    assert code == 0
    assert "in EPSG:27700, its origin at E 553100, N 421000: turned 9.00" in out
    assert "held at that of the ground" in out
    plan = read_plan(local)
    assert plan.grid == Grid(crs="EPSG:27700", east=553_100.0, north=421_000.0)
    found = next(i for i in plan.of(mark.KIND) if i.number == "M 3")
    assert plan.grid.to_crs(found.shape.x, found.shape.y) == pytest.approx(
        truly(60.0, 41.0), abs=0.001
    )
    assert found.basis.method is Method.GNSS
    assert (found.basis.source, found.basis.date, found.basis.sd_m) == (
        "marks.csv",
        "2025-09-06",
        0.02,
    )
    assert verify(local).whole


def test_its_figures_are_json_for_a_program_and_a_dry_run_changes_nothing(
    local, said, tmp_path
):
    before = local.read_bytes()
    # columns in another order, other names, no header row needed
    marks = table(tmp_path / "marks.csv", head="")
    code, out, _ = said(
        "grid", "move", local, "--crs", "EPSG:27700", "--marks", marks, "--dry-run", "--json"
    )
    facts = json.loads(out)
    assert (code, facts["moved"], facts["crs"]) == (0, False, "EPSG:27700")
    assert facts["rotation_deg"] == pytest.approx(9.0, abs=0.002)
    assert facts["scale"] == facts["scale_held"] == pytest.approx(0.999889, abs=2e-6)
    assert facts["rmse_m"] <= 0.001
    assert [r["mark"] for r in facts["residuals"]] == list(PLACES)
    assert local.read_bytes() == before


def test_the_marks_may_decide_the_scale_and_it_is_said_that_they_disagree(
    local, said, tmp_path
):
    marks = table(tmp_path / "marks.csv", scale=1.003)
    words = ("grid", "move", local, "--crs", "27700", "--marks", marks, "--dry-run")
    _, held, _ = said(*words)
    _, free, _ = said(*words, "--scale", "free")
    assert "the marks lie 0.31 % farther apart than on the plan" in held
    assert "scale 1.00300" in free or "scale 1.00299" in free
    assert "that of the marks" in free


def test_that_bearings_of_field_books_turn_is_told(local, said, tmp_path):
    marks = table(tmp_path / "marks.csv")
    words = ("grid", "move", local, "--crs", "27700", "--marks", marks, "--dry-run")
    assert "bearings of the field books" not in said(*words)[1]
    first, second, *_ = PLACES
    book = tmp_path / "book.csv"
    book.write_text(
        f"type,from,to,point,distance,bearing\nleg,{first},A,,9,45°\ntie,{second},,Q,9,\n",
        "utf-8",
    )
    said("ties", local, book)
    assert "turn with it. A book that is taken in from its file once more" in said(*words)[1]


def test_two_marks_are_enough_and_it_is_said_that_they_show_nothing(local, said, tmp_path):
    path = table(tmp_path / "marks.csv")
    path.write_text("".join(path.read_text().splitlines(keepends=True)[:3]), encoding="utf-8")
    code, out, _ = said("grid", "move", local, "--crs", "27700", "--marks", path, "--dry-run")
    assert code == 0
    assert "Two marks show no error of theirs" in out


def test_a_plan_turned_far_round_is_asked_about(local, said, tmp_path):
    path = tmp_path / "marks.csv"
    path.write_text("mark,E,N\nM 1,553112,421034\nM 2,553109,421096\n", encoding="utf-8")
    code, out, _ = said("grid", "move", local, "--crs", "27700", "--marks", path, "--dry-run")
    assert code == 0
    assert "It is turned far round" in out


@pytest.mark.parametrize(
    ("text", "because"),
    [
        ("mark,E,N\nM 9,553112,421034\n", "line 2: the plan has no mark “M 9”"),
        ("mark,E,N\nM 1,far,421034\n", "line 2: “far” is not a number"),
        ("mark,E\nM 1,553112\n", "there is no column N"),
        ("M 1,553112,421034\n", "only one was given"),
        ("hello\n", "no row names the columns"),
        ("", "is empty"),
    ],
)
def test_a_table_that_tells_nothing_is_refused_in_a_sentence(
    local, said, tmp_path, text, because
):
    path = tmp_path / "marks.csv"
    path.write_text(text, encoding="utf-8")
    before = local.read_bytes()
    code, _, err = said("grid", "move", local, "--crs", "27700", "--marks", path)
    assert code == 2
    assert because in err
    assert "Nothing was" in err or "nothing was" in err
    assert local.read_bytes() == before


def test_show_says_scale_and_convergence(plan, local, said):
    _, out, _ = said("show", plan)
    # E 553100 N 421000; the figures are those of tests/survey/test_grid_facts.py's library
    assert "30 m on a level tape are 29.997 m on the grid (scale factor 0.99988" in out
    assert "True north lies 1°52′ west of grid north." in out
    facts = json.loads(said("show", plan, "--json")[1])
    assert facts["scale_factor"] == pytest.approx(0.999889, abs=1e-6)
    assert facts["convergence_deg"] == pytest.approx(1.867, abs=1e-3)
    _, out, _ = said("show", local)
    assert "Where true north lies is not known." in out
    assert json.loads(said("show", local, "--json")[1])["scale_factor"] is None


def test_a_plan_that_lies_nowhere_is_shown_all_the_same(said, tmp_path):
    where = tmp_path / "nowhere.gpkg"
    PlanFile.create(where, name="", grid=Grid(crs="EPSG:27700", east=9e7, north=9e7)).close()
    code, out, _ = said("show", where)
    assert code == 0
    assert "The plan lies where EPSG:27700 has no meaning." in out


def test_history_names_the_grid_where_it_changes(local, said, tmp_path):
    said("grid", "move", local, "--crs", "27700", "--marks", table(tmp_path / "marks.csv"))
    _, out, _ = said("history", local)
    first, second = out.splitlines()
    assert "from here on" not in first
    assert second.endswith(
        "Move the plan to EPSG:27700 by 4 marks; from here on in EPSG:27700, its origin at"
        " E 553100, N 421000"
    )
    entries = json.loads(said("history", local, "--json")[1])["entries"]
    assert [e["grid"]["crs"] for e in entries] == ["local", "EPSG:27700"]
    assert [e["moves_grid"] for e in entries] == [False, True]
