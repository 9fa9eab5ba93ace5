"""The verbs ``marks advise`` and ``marks list``."""

import json
from pathlib import Path

import pytest
import shapely

from plan_editor.edits.basic import Add
from plan_editor.kinds import boundary, building, mark
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, new_item
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

GRID = Grid(crs="EPSG:27700", east=553100.0, north=421000.0)


def _saved(where: Path, *items) -> Path:
    with PlanFile.create(where, name="St Ŵyn", grid=GRID) as file:
        Document(file.plan, journal=file, author="a test").apply(Add(items=items))
        file.save()
    return where


def _mark(number: str, east: float, north: float, **details):
    return new_item(
        mark.KIND,
        shapely.Point(east, north),
        number=number,
        details=mark.MarkDetails(**details),
        basis=Basis(sd_m=0.02),
    )


@pytest.fixture
def church(tmp_path) -> Path:
    """A church of 20 m with a mark at two of its corners, in 40 by 30 m of ground."""
    return _saved(
        tmp_path / "church.gpkg",
        new_item(boundary.KIND, shapely.box(0, 0, 40, 30)),
        new_item(building.KIND, shapely.box(10, 12, 30, 18)),
        _mark("M2", 10, 12, description="SW buttress", permanent=True),
        _mark("M10", 30, 12, description="peg by the yew", permanent=False),
    )


def test_places_for_marks_are_advised_in_true_coordinates(church, said):
    code, out, err = said("marks", "advise", church, "--json")
    found = json.loads(out)
    assert (code, err) == (1, "")  # behind the church is out of reach
    assert (found["tape_m"], found["marks"], found["crs"]) == (30.0, 2, "EPSG:27700")
    today = found["today"]
    assert 0.5 < today["out_of_reach"] < 0.7
    assert today["checked"] == 0
    assert today["unchecked"] == pytest.approx(1 - today["out_of_reach"], abs=1e-3)
    assert today["peg_error_mm"]["90 %"] is None
    # the two other corners, as the crow sees them from the north
    assert {(a["E"], a["N"]) for a in found["advice"]} == {
        (553_110.0, 421_018.0),
        (553_130.0, 421_018.0),
    }
    last = found["advice"][-1]
    assert last["with_it"]["out_of_reach"] < 0.2
    assert last["place"][:9] in ("NW corner", "NE corner")
    assert last["gain"] in last["reason"]
    assert found["basis"]
    assert "diocese" in found["caution"]


def test_a_person_is_told_the_same_with_what_it_rests_on(church, said):
    code, out, _ = said("marks", "advise", church)
    assert code == 1
    for words in ("out of reach", "1. A mark at the N", "instead of", "1 mark temporary"):
        assert words in out


def test_all_within_reach_is_a_yes(tmp_path, said):
    plan = _saved(
        tmp_path / "small.gpkg",
        new_item(boundary.KIND, shapely.box(0, 0, 10, 8)),
        *(_mark(f"M{n}", e, n) for n, e in ((-3, -2), (-4, 12), (11, 5))),
    )
    code, out, _ = said("marks", "advise", plan)
    assert code == 0
    assert "No corner of a building or wall" in out


def test_a_shorter_tape_reaches_less(church, said):
    def out_of_reach(tape: str) -> float:
        out = said("marks", "advise", church, "--tape", tape, "--json")[1]
        return json.loads(out)["today"]["out_of_reach"]

    assert out_of_reach("15") > out_of_reach("30")


@pytest.mark.parametrize("tape", ["long", "nan", "inf", "0", "-3", "5000", ""])
def test_what_is_no_tape_is_one_sentence(church, said, tape):
    code, out, err = said("marks", "advise", church, f"--tape={tape}")
    assert (code, out) == (2, "")
    assert "tape" in err


def test_without_marks_or_boundary_it_is_one_sentence(tmp_path, plan, said):
    code, _, err = said("marks", "advise", plan)
    assert (code, err.count("\n")) == (2, 1)
    assert "no mark on this plan" in err
    bare = _saved(tmp_path / "bare.gpkg", _mark("M1", 0, 0))
    code, _, err = said("marks", "advise", bare)
    assert code == 2
    assert "Draw the boundary" in err


def test_marks_are_listed_with_how_they_are_found(church, said):
    code, out, _ = said("marks", "list", church, "--json")
    first, second = json.loads(out)["marks"]
    assert code == 0
    assert (first["name"], first["E"], first["N"]) == ("M2", 553_110.0, 421_012.0)
    assert (first["sd_m"], first["permanent"]) == (0.02, True)
    assert (second["name"], second["description"]) == ("M10", "peg by the yew")
    text = said("marks", "list", church)[1]
    assert "± 20 mm" in text
    assert "temporary" in text


def test_a_plan_without_marks_says_so(plan, said):
    assert "no mark on this plan yet" in said("marks", "list", plan)[1]
