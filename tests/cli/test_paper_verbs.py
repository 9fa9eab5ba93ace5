"""The verbs ``paper add`` and ``paper write``."""

import io
import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from plan_editor.storage.loading import read_plan


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    path = tmp_path / "leaning.png"
    Image.fromarray(np.full((40, 60, 3), 90, dtype=np.uint8)).save(path)
    return path


def test_a_photograph_is_kept_with_a_stone_and_written_out_again(
    plan: Path, picture: Path, said, tmp_path: Path
) -> None:
    code, out, _ = said("paper", "add", plan, "memorial A1", picture, "--json")
    assert code == 0
    (kept,) = json.loads(out)["papers"]
    there = read_plan(plan).items[kept["id"]]
    assert (there.details.says, there.details.content_type) == ("leaning", "image/jpeg")
    for _ in range(2):
        assert said("paper", "write", plan, "memorial A1", "-o", tmp_path / "out")[0] == 0
    written = sorted(p.name for p in (tmp_path / "out").iterdir())
    assert written == ["leaning 2.jpg", "leaning.jpg"]
    with Image.open(io.BytesIO((tmp_path / "out" / "leaning.jpg").read_bytes())) as image:
        assert image.size == (60, 40)


def test_a_letter_is_kept_as_it_came(plan: Path, said, tmp_path: Path) -> None:
    letter = tmp_path / "letter.pdf"
    page = Canvas(str(letter))
    page.drawString(72, 720, "Dear Sir")
    page.save()
    code, out, _ = said("paper", "add", plan, "grave A1", letter, "--sort", "letter")
    assert (code, "1 page" in out) == (0, True)
    said("paper", "write", plan, "grave A1", "-o", tmp_path / "out")
    assert (tmp_path / "out" / "letter.pdf").read_bytes() == letter.read_bytes()


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (("memorial Z9", "leaning.png"), "no thing “memorial Z9”"),
        (("A 1", "leaning.png"), "may be"),
        (("memorial A1", "gone.jpg"), "no file"),
        (("memorial A1", "ground.gpkg"), "ground.gpkg: "),
        (("memorial A1", "broken.pdf"), "broken.pdf: "),
        (("memorial A1", "leaning.png", "--sort", "rumour"), "no sort of paper"),
    ],
)
def test_what_cannot_be_kept_is_said_in_one_sentence_and_nothing_is_changed(
    plan: Path, picture: Path, said, words, complaint: str
) -> None:
    (picture.parent / "broken.pdf").write_bytes(b"%PDF-1.7 and no more")
    before = plan.read_bytes()
    item, name, *rest = words
    code, _, err = said("paper", "add", plan, item, picture.parent / name, *rest)
    assert (code, complaint in err) == (2, True)
    assert plan.read_bytes() == before


def test_of_a_thing_without_papers_nothing_is_written(plan: Path, said, tmp_path: Path) -> None:
    code, out, _ = said("paper", "write", plan, "grave A1", "-o", tmp_path / "none")
    assert (code, "Nothing is kept" in out) == (0, True)
