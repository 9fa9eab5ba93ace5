import json
import os
import sqlite3
from contextlib import closing

import pyogrio
import pytest
from PIL import Image

from plan_editor.storage.plan_file import PlanFile


@pytest.fixture
def scan(tmp_path):
    path = tmp_path / "old plan.png"
    Image.new("L", (300, 200), 200).save(path)
    return path


def test_a_new_plan_is_empty_and_knows_its_grid(tmp_path, said):
    path = tmp_path / "new.gpkg"
    words = (
        "new",
        path,
        "--name",
        "St Elfric",
        "--crs",
        "EPSG:27700",
        "--origin",
        "553100,421000",
    )
    code, out, _ = said(*words, "--json")
    assert code == 0
    assert json.loads(out)["origin"] == [553100.0, 421000.0]
    assert pyogrio.read_info(path, layer="grave")["crs"] == "EPSG:27700"
    code, _, err = said(*words)
    assert code == 2
    assert "already" in err


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (["--crs", "EPSG:4326"], "flat grid"),
        (["--crs", "nonsense"], "coordinate system"),
        (["--origin", "1"], "easting and northing"),
        (["--origin", "nan,1"], "no origin"),
    ],
)
def test_a_new_plan_that_makes_no_sense_is_refused_in_a_sentence(tmp_path, said, more, says):
    path = tmp_path / "new.gpkg"
    code, _, err = said("new", path, "--name", "x", *more)
    assert code == 2
    assert says in err
    assert not path.exists()


def test_a_plan_of_another_suffix_is_refused(tmp_path, said):
    assert "new.gpkg" in said("new", tmp_path / "new.dxf", "--name", "x")[2]


def test_a_scan_is_laid_and_listed(plan, scan, said):
    code, out, _ = said("base", "add", plan, scan, "--name", "1962", "--json")
    assert code == 0
    assert json.loads(out)["placed"] is False
    (row,) = json.loads(said("base", "list", plan, "--json")[1])["base_plans"]
    assert (row["name"], row["sort"], row["placed"]) == ("1962", "scan", False)
    assert "not placed yet" in said("base", "list", plan)[1]
    with PlanFile.open(plan, read_only=True) as file:
        (item,) = file.plan.by_kind["base_plan"].values()
        assert file.read(item.details.digest) == scan.read_bytes()


def test_what_is_no_picture_is_refused_by_name_and_nothing_is_changed(plan, tmp_path, said):
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear Vicar", "utf-8")
    before = plan.read_bytes()
    code, _, err = said("base", "add", plan, letter, "--name", "x")
    assert code == 2
    assert "letter.txt" in err
    assert plan.read_bytes() == before


def test_a_file_that_is_not_there_is_refused(plan, tmp_path, said):
    assert (
        "There is no file" in said("base", "add", plan, tmp_path / "no.png", "--name", "x")[2]
    )


def test_a_folder_is_no_base_plan(plan, tmp_path, said):
    assert "is no file" in said("base", "add", plan, tmp_path, "--name", "x")[2]


def test_a_plan_that_is_open_elsewhere_is_not_changed(plan, scan, said):
    with PlanFile.open(plan):
        code, _, err = said("base", "add", plan, scan, "--name", "1962")
    assert code == 2
    assert "since" in err


def test_what_another_program_changed_is_not_lost(plan, scan, said):
    with closing(sqlite3.connect(plan)) as con, con:
        con.execute("DELETE FROM inspection")
    code, _, err = said("base", "add", plan, scan, "--name", "1962")
    assert code == 2
    assert "Another program changed 1 thing" in err
    assert said("verify", plan)[0] == 1


def test_what_another_program_changed_is_told_wherever_it_is_left_out(plan, tmp_path, said):
    lines = (
        ("show", plan),
        ("clearance", plan),
        ("base", "list", plan),
        ("sheet", "mowing", plan, "-o", tmp_path / "m.pdf"),
        ("dxf", "write", plan, tmp_path / "p.dxf"),
    )
    assert not any("Another program" in said(*words)[1] for words in lines)
    with closing(sqlite3.connect(plan)) as con, con:
        con.execute("DELETE FROM inspection")
    for words in lines:
        assert "Another program changed 1 thing in ground.gpkg" in said(*words)[1]
        assert json.loads(said(*words, "--json")[1])["remarks"]


def test_the_last_save_but_one_can_be_restored(plan, scan, said):
    said("base", "add", plan, scan, "--name", "1962")
    code, out, _ = said("restore", plan, "--json")
    assert code == 0
    assert json.loads(out)["kept"]
    assert json.loads(said("base", "list", plan, "--json")[1])["base_plans"] == []


def test_without_an_earlier_copy_restoring_says_so(tmp_path, said):
    said("new", tmp_path / "n.gpkg", "--name", "x")
    code, _, err = said("restore", tmp_path / "n.gpkg")
    assert code == 2
    assert err.endswith(".\n")


@pytest.mark.parametrize("path", ["", ".", "/", "new", "new.txt", ".gpkg"])
def test_what_is_no_name_of_a_plan_is_refused_with_one_that_is(said, path):
    code, _, err = said("new", path, "--name", "x")
    assert code == 2
    assert ".gpkg" in err


@pytest.mark.parametrize("name", ["", "   ", "two\nlines", "a\udcffb"])
def test_a_plan_and_a_base_plan_want_a_name_on_one_line(plan, scan, tmp_path, said, name):
    for words in (("new", tmp_path / "new.gpkg"), ("base", "add", plan, scan)):
        code, _, err = said(*words, "--name", name)
        assert code == 2
        assert "on one line" in err
    assert not (tmp_path / "new.gpkg").exists()


def test_a_plan_in_a_folder_that_is_not_there_is_refused(tmp_path, said):
    code, _, err = said("new", tmp_path / "nowhere" / "new.gpkg", "--name", "x")
    assert code == 2
    assert "There is no folder" in err


def test_what_never_ends_is_no_base_plan_and_no_plan(plan, tmp_path, said):
    os.mkfifo(tmp_path / "pipe.png")
    for endless in ("/dev/zero", tmp_path / "pipe.png"):
        code, _, err = said("base", "add", plan, endless, "--name", "x")
        assert code == 2
        assert "is no file" in err
        code, _, err = said("restore", endless)
        assert code == 2
        assert "not a plan" in err


@pytest.mark.parametrize(
    ("words", "says"),
    [(["/"], "folder"), ([""], "folder"), (["x.gpkg", "--from", "yesterday"], "2026-05-16")],
)
def test_what_cannot_be_restored_is_said(said, words, says):
    code, _, err = said("restore", *words)
    assert code == 2
    assert says in err
