import json
import os

import ezdxf
import pypdfium2
import pytest


@pytest.mark.parametrize("name", ["mowing", "ground"])
def test_a_sheet_is_printed_at_the_scale_that_was_asked_for(plan, tmp_path, said, name):
    out = tmp_path / "sheet.pdf"
    code, told, _ = said("sheet", name, plan, "-o", out, "--scale", "200", "--json")
    facts = json.loads(told)
    assert code == 0
    assert facts["scale"] == 200.0
    document = pypdfium2.PdfDocument(out)
    try:
        assert len(document) == facts["pages"]
    finally:
        document.close()


def test_a_sheet_is_told_in_a_sentence(plan, tmp_path, said):
    code, told, _ = said("sheet", "mowing", plan, "-o", tmp_path / "m.pdf", "--paper", "a4")
    assert code == 0
    assert "A4 at 1:" in told


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--scale", "0"], "no scale"),
        (["--scale", "x"], "no scale"),
        (["--scale", "1:5"], "1:"),
        (["--paper", "A9"], "There are A4, A3, A2, A1"),
        (["--date", "tomorrow"], "2026-05-16"),
    ],
)
def test_a_sheet_that_cannot_be_made_is_refused_in_a_sentence(
    plan, tmp_path, said, words, says
):
    out = tmp_path / "sheet.pdf"
    code, _, err = said("sheet", "mowing", plan, "-o", out, *words)
    assert code == 2
    assert says in err
    assert not out.exists()


def test_the_plan_is_written_as_a_drawing(plan, tmp_path, said):
    out = tmp_path / "plan.dxf"
    code, told, _ = said("dxf", "write", plan, out, "--json")
    assert code == 0
    assert json.loads(told)["done"]
    assert ezdxf.readfile(out).audit().errors == []


def test_a_folder_that_is_not_there_is_said(plan, tmp_path, said):
    for words in (("sheet", "ground", plan, "-o"), ("dxf", "write", plan)):
        code, _, err = said(*words, tmp_path / "nowhere" / "out.xxx")
        assert code == 2
        assert "nowhere" in err


@pytest.mark.parametrize("verb", [("sheet", "mowing"), ("dxf", "write")])
def test_nothing_is_written_over_a_plan_or_a_device(plan, tmp_path, said, verb):
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "link.pdf").symlink_to(plan)
    before = plan.read_bytes()
    for out in (plan, tmp_path / "link.pdf", tmp_path / "other.gpkg", tmp_path / "pipe", ""):
        flag = ["-o"] if verb[0] == "sheet" else []
        code, _, err = said(*verb, plan, *flag, out)
        assert code == 2
        assert "Nothing was written" in err
    assert plan.read_bytes() == before
    assert not (tmp_path / "other.gpkg").exists()
    assert (tmp_path / "pipe").is_fifo()
