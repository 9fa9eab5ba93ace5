"""Base plans on the command line: pages, places, and files for other programs."""

import json

import pytest
from PIL import Image


@pytest.fixture
def two_pages(tmp_path):
    path = tmp_path / "plans.pdf"
    first, second = Image.new("L", (200, 100), 250), Image.new("L", (100, 100), 10)
    first.save(path, save_all=True, append_images=[second], resolution=100)
    return path


def test_a_page_is_chosen_by_its_number(plan, two_pages, said):
    code, out, _ = said("base", "add", plan, two_pages, "--name", "1962", "--page", "2")
    assert code == 0
    assert "300 by 300 pixels, page 2 of 2" in out
    (row,) = json.loads(said("base", "list", plan, "--json")[1])["base_plans"]
    assert (row["page"], row["placed"], row["model"]) == (2, False, None)
    assert "1962: scan (page 2), not placed yet" in said("base", "list", plan)[1]


@pytest.mark.parametrize(
    ("page", "says"),
    [("3", "no page 3"), ("0", "is no page"), ("two", "is no page"), ("-1", "is no page")],
)
def test_a_page_that_is_none_is_refused(plan, two_pages, said, page, says):
    code, _, err = said("base", "add", plan, two_pages, "--name", "x", f"--page={page}")
    assert code == 2
    assert says in err


def test_a_placed_scan_goes_out_and_comes_back_to_its_place(plan, tmp_path, said):
    Image.new("L", (200, 100), 220).save(tmp_path / "scan.png")
    (tmp_path / "scan.pgw").write_text("0.1\n0.02\n0.02\n-0.1\n553110\n421020\n")
    assert json.loads(
        said("base", "add", plan, tmp_path / "scan.png", "--name", "1962", "--json")[1]
    )["placed"]
    code, out, _ = said("base", "write", plan, tmp_path / "o.tif", "--base", "1962", "--json")
    assert code == 0
    told = json.loads(out)
    assert (told["crs"], told["world_file"]) == ("EPSG:27700", None)
    code, out, _ = said("base", "write", plan, tmp_path / "o.png", "--base", "1962")
    assert "as it came, with o.pgw, in EPSG:27700" in out
    assert "may be reproduced" in out
    assert "How well it lies is not known" in out
    for name in ("o.tif", "o.png"):
        assert "placed by" in said("base", "add", plan, tmp_path / name, "--name", name)[1]
    rows = json.loads(said("base", "list", plan, "--json")[1])["base_plans"]
    assert [row["metres"] for row in rows] == pytest.approx([0.0104**0.5] * 3, rel=1e-3)


def test_what_cannot_be_written_is_refused_in_a_sentence(plan, tmp_path, said):
    code, _, err = said("base", "write", plan, tmp_path / "o.tif", "--base", "1962")
    assert code == 2
    assert "There is no base plan “1962”" in err
