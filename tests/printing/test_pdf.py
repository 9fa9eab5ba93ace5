"""The PDF, read by programs that are not ours."""

import stat
import subprocess
from pathlib import Path

import numpy as np
import pdfplumber
import pikepdf
import pypdfium2 as pdfium
import pytest

from plan_editor.drawing.ink import Anchor, Clipped, Fill, Ink, Picture, Stroke, Text
from plan_editor.drawing.lettering import width
from plan_editor.errors import CannotPrint, NoRoom, NotAllowed
from plan_editor.plan.look import Pen
from plan_editor.printing import pdf
from plan_editor.printing.pdf import write
from plan_editor.printing.sheet import Page, Paper, Printed

MM = 72 / 25.4  # ISO 32000-1, 8.3.2.3: a unit of default user space is 1/72 inch


def printed(*ink: Ink, width: float = 420.0, height: float = 297.0) -> Printed:
    page = Page(width=width, height=height, ink=ink)
    return Printed(title="Tŵr, Łódź", paper=Paper.A3, scale=200.0, pages=(page,))


def written(folder: Path, *ink: Ink) -> Path:
    out = folder / "sheet.pdf"
    assert write(printed(*ink), out)
    return out


LINE = Stroke(lines=(np.array([(100.0, 50.0), (300.0, 50.0)]),), pen=Pen(width=0.35))
WORDS = "St Ŵyne, Llŷn; Łódź ✝ 2½ m²"


def test_a_line_of_200_mm_is_200_mm_to_two_readers(tmp_path: Path) -> None:
    out = written(tmp_path, LINE)
    with pdfplumber.open(out) as told:
        (line,) = told.pages[0].lines
        assert (line["x1"] - line["x0"]) / MM == pytest.approx(200.0, abs=0.001)
        assert line["x0"] / MM == pytest.approx(100.0, abs=0.001)
    with pdfium.PdfDocument(out) as document:
        page = document[0]
        pixels = page.render(scale=600 / 72).to_numpy()[:, :, 0]
    dark = np.flatnonzero((pixels < 128).any(axis=0))
    pixel_mm = 25.4 / 600
    assert (dark[-1] - dark[0] + 1) * pixel_mm == pytest.approx(200.0, abs=pixel_mm)


def test_the_page_is_the_paper_and_is_printed_unscaled(tmp_path: Path) -> None:
    with pikepdf.open(written(tmp_path, LINE)) as told:
        page = told.pages[0]
        media = [float(n) for n in page.MediaBox]
        assert media == pytest.approx([0, 0, 420 * MM, 297 * MM], abs=0.001)
        assert [float(n) for n in page.CropBox] == pytest.approx(media, abs=0.001)
        assert "/UserUnit" not in page
        # ISO 32000-1, table 150
        assert told.Root.ViewerPreferences.PrintScaling == "/None"
        assert str(told.Root.Lang) == "en-GB"
        assert str(told.docinfo["/Title"]) == "Tŵr, Łódź"


def test_its_syntax_is_sound(tmp_path: Path) -> None:
    out = written(tmp_path, LINE, Text(text=WORDS, x=20, y=20, halo=0.3))
    with pikepdf.open(out) as told:
        assert told.check_pdf_syntax() == []


def test_letters_of_wales_and_poland_are_read_right_by_two_readers(tmp_path: Path) -> None:
    out = written(
        tmp_path,
        Text(text=WORDS, x=20, y=100, size=6),
        Text(text=WORDS, x=20, y=80, size=6, bold=True),
    )
    with pdfplumber.open(out) as told:
        assert told.pages[0].extract_text().split("\n") == [WORDS, WORDS]
    with pdfium.PdfDocument(out) as document:
        lines = document[0].get_textpage().get_text_range().split("\r\n")
    assert [line.strip() for line in lines] == [WORDS, WORDS]


def test_every_font_is_embedded_as_a_subset(tmp_path: Path) -> None:
    out = written(
        tmp_path, Text(text=WORDS, x=20, y=100), Text(text="a", x=20, y=80, bold=True)
    )
    with pikepdf.open(out) as told:
        fonts = told.pages[0].Resources.Font
        names = {str(f.BaseFont) for f in fonts.values()}
        assert all("/FontFile2" in f.FontDescriptor for f in fonts.values())
    assert {n.split("+")[1] for n in names} == {
        "SourceSans3-Regular",
        "SourceSans3-SemiBold",
        "DejaVuSansCondensed",
    }
    assert out.stat().st_size < 60_000


def test_poppler_finds_no_font_that_is_not_embedded(tmp_path: Path) -> None:
    out = written(tmp_path, Text(text=WORDS, x=20, y=100))
    told = subprocess.run(["pdffonts", str(out)], capture_output=True, text=True, check=True)  # noqa: S607
    rows = told.stdout.splitlines()[2:]
    assert len(rows) == 2
    assert all(row.split()[-5:-2] == ["yes", "yes", "yes"] for row in rows)


@pytest.mark.parametrize("anchor", Anchor)
def test_a_text_lies_at_its_anchor(tmp_path: Path, anchor: Anchor) -> None:
    out = written(tmp_path, Text(text="HHH", x=100, y=50, size=10, anchor=anchor))
    with pdfplumber.open(out) as told:
        chars = told.pages[0].chars
        left, right = chars[0]["x0"] / MM, chars[-1]["x1"] / MM
    long = width("HHH") * 10
    before = {Anchor.LEFT: 0.0, Anchor.MIDDLE: long / 2, Anchor.RIGHT: long}[anchor]
    assert left == pytest.approx(100 - before, abs=0.02)
    assert right - left == pytest.approx(long, abs=0.02)


def test_a_turned_text_runs_upwards(tmp_path: Path) -> None:
    out = written(tmp_path, Text(text="HHHHH", x=100, y=50, size=10, turn_deg=90.0))
    with pdfplumber.open(out) as told:
        chars = told.pages[0].chars
        assert all(c["x1"] / MM <= 100.01 + 10 for c in chars)
        tops = [float(c["top"]) for c in chars]
    assert tops == sorted(tops, reverse=True)


def test_a_halo_wipes_the_line_under_a_letter(tmp_path: Path) -> None:
    dark = Fill(rings=(np.array([(90.0, 40.0), (130.0, 40.0), (130.0, 70.0), (90.0, 70.0)]),))
    out = written(tmp_path, dark, Text(text="O", x=100, y=50, size=10, halo=2.0))
    with pdfium.PdfDocument(out) as document:
        pixels = document[0].render(scale=100 / 72).to_numpy()[:, :, 0]
    assert (pixels[int((297 - 53) / 25.4 * 100), int(99 / 25.4 * 100)] > 200).all()


def test_ink_is_cut_off_at_a_box_and_not_after_it(tmp_path: Path) -> None:
    thick = Stroke(lines=(np.array([(50.0, 100.0), (350.0, 100.0)]),), pen=Pen(width=3.0))
    after = Stroke(lines=(np.array([(50.0, 150.0), (350.0, 150.0)]),), pen=Pen(width=3.0))
    out = written(tmp_path, Clipped(box=(100, 90, 200, 110), ink=(thick,)), after)
    with pdfium.PdfDocument(out) as document:
        pixels = document[0].render(scale=254 / 72).to_numpy()[:, :, 0]
    row = pixels[((297 - 100) * 10)]
    assert np.flatnonzero(row < 128)[[0, -1]] == pytest.approx([1000, 2000], abs=1.5)
    assert np.flatnonzero(pixels[((297 - 150) * 10)] < 128)[0] == pytest.approx(500, abs=1.5)


def test_a_hole_stays_open(tmp_path: Path) -> None:
    outer = np.array([(100.0, 100.0), (200.0, 100.0), (200.0, 200.0), (100.0, 200.0)])
    hole = np.array([(140.0, 140.0), (160.0, 140.0), (160.0, 160.0), (140.0, 160.0)])
    out = written(tmp_path, Fill(rings=(outer, hole), colour="#000000"))
    with pdfium.PdfDocument(out) as document:
        pixels = document[0].render(scale=72 / 72).to_numpy()[:, :, 0]
    middle = pixels[round((297 - 150) * MM), round(150 * MM)]
    beside = pixels[round((297 - 120) * MM), round(120 * MM)]
    assert (middle, beside) == (255, 0)


@pytest.mark.parametrize("colour", [True, False])
def test_a_picture_lies_upright_in_its_box(tmp_path: Path, colour: bool) -> None:  # noqa: FBT001
    pixels = np.full((2, 4), 255, dtype=np.uint8)
    pixels[0, 0] = 0  # dark at the top left
    if colour:
        pixels = np.stack([pixels] * 3, axis=-1)
    out = written(tmp_path, Picture(pixels=pixels, left=100, bottom=50, right=140, top=70))
    with pdfium.PdfDocument(out) as document:
        shown = document[0].render(scale=254 / 72).to_numpy()[:, :, 0]
    dark = np.argwhere(shown < 100)
    assert dark.min(axis=0) == pytest.approx([(297 - 70) * 10, 1000], abs=3)
    assert dark.max(axis=0) == pytest.approx([(297 - 60) * 10, 1100], abs=3)


def test_a_pale_picture_lets_the_paper_through(tmp_path: Path) -> None:
    black = np.zeros((2, 2), dtype=np.uint8)
    out = written(
        tmp_path, Picture(pixels=black, left=100, bottom=50, right=140, top=70, opacity=0.4)
    )
    with pdfium.PdfDocument(out) as document:
        shown = document[0].render(scale=1).to_numpy()[:, :, 0]
    assert shown[round((297 - 60) * MM), round(120 * MM)] == pytest.approx(153, abs=3)


def test_the_same_ink_gives_the_same_file(tmp_path: Path) -> None:
    first = written(tmp_path, LINE, Text(text=WORDS, x=20, y=20)).read_bytes()
    assert written(tmp_path, LINE, Text(text=WORDS, x=20, y=20)).read_bytes() == first


def test_progress_ends_at_one(tmp_path: Path) -> None:
    told: list[float] = []
    assert write(printed(LINE, LINE), tmp_path / "a.pdf", progress=told.append)
    assert told == sorted(told)
    assert told[-1] == 1.0


def test_a_cancelled_sheet_leaves_what_was_there(tmp_path: Path) -> None:
    out = tmp_path / "a.pdf"
    out.write_bytes(b"before")
    assert not write(printed(LINE), out, cancelled=lambda: True)
    assert out.read_bytes() == b"before"
    assert [p.name for p in tmp_path.iterdir()] == ["a.pdf"]


def test_an_empty_page_can_be_written(tmp_path: Path) -> None:
    assert written(tmp_path, Text(text="", x=0, y=0)).stat().st_size > 0
    assert written(tmp_path).stat().st_size > 0


def test_a_new_file_has_the_rights_of_any_other(tmp_path: Path) -> None:
    plain = tmp_path / "plain"
    plain.touch()
    assert stat.S_IMODE(written(tmp_path).stat().st_mode) == stat.S_IMODE(plain.stat().st_mode)


def test_no_folder_is_said_in_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(CannotPrint, match=r"There is no folder .*Nothing was written"):
        write(printed(LINE), tmp_path / "none" / "a.pdf")
    (tmp_path / "file").touch()
    with pytest.raises(CannotPrint, match="There is no folder"):
        write(printed(LINE), tmp_path / "file" / "a.pdf")


def test_a_folder_of_that_name_is_said_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").mkdir()
    with pytest.raises(CannotPrint, match="is a folder"):
        write(printed(LINE), tmp_path / "a.pdf")
    assert [p.name for p in tmp_path.iterdir()] == ["a.pdf"]


@pytest.mark.parametrize(
    ("fault", "raised", "words"),
    [
        (OSError(28, "No space left on device"), NoRoom, "no room left for a.pdf"),
        (PermissionError(13, "Permission denied"), NotAllowed, "a.pdf may not be written"),
        (
            OSError(5, "Input/output error"),
            CannotPrint,
            "cannot be written: Input/output error",
        ),
        (OSError("gone"), CannotPrint, "the disk does not take it"),
    ],
)
def test_a_disk_that_refuses_is_said_in_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: OSError, raised: type, words: str
) -> None:
    out = tmp_path / "a.pdf"
    out.write_bytes(b"before")

    def refuse(descriptor: int) -> None:
        raise fault

    monkeypatch.setattr(pdf.os, "fsync", refuse)
    with pytest.raises(raised, match=words) as told:
        write(printed(LINE), out)
    assert str(told.value).count("Nothing was written") == 1
    assert out.read_bytes() == b"before"
    assert [p.name for p in tmp_path.iterdir()] == ["a.pdf"]
