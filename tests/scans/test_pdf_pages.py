"""Pages of a PDF as scans: their size against the standard, their ink where it was put."""

import io
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from pictures import as_bytes, drawing
from PIL import Image

from plan_editor.errors import CannotRead, NoRoom
from plan_editor.scans import pdf_drawing
from plan_editor.scans.pdf_drawing import Drawing, Wanted, drawn, measured
from plan_editor.scans.pdf_pages import pdf_page
from plan_editor.scans.reading import probe
from plan_editor.scans.tiles import make_tiles, open_tiles

A4 = (595.276, 841.890)
"""210 by 297 mm (ISO 216) in points of 1/72 inch."""

BLACK_SQUARE = b"0 g 72 72 36 36 re f"
RED_SQUARE = b"1 0 0 rg 72 72 36 36 re f"


def pdf(*pages: tuple[tuple[float, float], bytes], **more) -> bytes:
    """Return a PDF of pages of a size in points, each with its ink; more entries for each."""
    document = pikepdf.new()
    for size, ink in pages:
        document.add_blank_page(page_size=size)
        page = document.pages[-1]
        page.Contents = document.make_stream(ink)
        for name, value in more.items():
            page[f"/{name}"] = value
    return saved(document)


def saved(document: pikepdf.Pdf, **how) -> bytes:
    stream = io.BytesIO()
    document.save(stream, **how)
    return stream.getvalue()


def in_file(folder: Path, content: bytes) -> Path:
    path = folder / "plan.pdf"
    path.write_bytes(content)
    return path


def facts_of(folder: Path, content: bytes, page: int = 1):
    return measured(Wanted(pdf=in_file(folder, content), page=page))


def pixels_of(folder: Path, content: bytes, page: int = 1) -> np.ndarray:
    """Return what is drawn, in this process."""
    wanted = Wanted(pdf=in_file(folder, content), page=page)
    made = drawn(Drawing(wanted=wanted, into=folder / "page.raw"))
    shape = (made.facts.height, made.facts.width, 3)
    return np.fromfile(folder / "page.raw", dtype=np.uint8).reshape(shape)


def test_a_page_has_300_pixels_to_the_inch(tmp_path):
    found = facts_of(tmp_path, pdf((A4, b""), (A4, b"")))
    # 210 / 25.4 x 300 = 2480.3, 297 / 25.4 x 300 = 3507.9
    assert (found.width, found.height) == (2480, 3508)
    assert (found.format, found.pages, found.page) == ("PDF", 2, 1)
    assert found.dpi == pytest.approx((300, 300))
    assert found.remarks == ()


def test_ink_is_drawn_where_it_lies(tmp_path):
    # a square from 1 to 1.5 inches from the left and from the bottom of 2 by 4 inches
    found = pixels_of(tmp_path, pdf(((144, 288), BLACK_SQUARE)))
    rows, columns = np.nonzero(found[..., 0] < 128)
    assert (columns.min(), columns.max() + 1) == (300, 450)
    assert (rows.min(), rows.max() + 1) == (1200 - 450, 1200 - 300)


@pytest.mark.parametrize(("ink", "colour"), [(BLACK_SQUARE, False), (RED_SQUARE, True)])
def test_only_a_page_with_colour_has_colour(tmp_path, ink, colour):
    wanted = Wanted(pdf=in_file(tmp_path, pdf(((144, 144), ink))), page=1)
    assert drawn(Drawing(wanted=wanted, into=tmp_path / "page.raw")).colour is colour


def test_red_is_red(tmp_path):
    assert pixels_of(tmp_path, pdf(((144, 144), RED_SQUARE)))[225, 375].tolist() == [255, 0, 0]


def test_a_turned_page_is_upright(tmp_path):
    # turned by 90 degrees clockwise: what was at the lower left is at the upper left
    found = pixels_of(tmp_path, pdf(((144, 288), BLACK_SQUARE), Rotate=90))
    assert found.shape == (600, 1200, 3)
    rows, columns = np.nonzero(found[..., 0] < 128)
    assert (rows.min(), columns.min()) == (300, 300)


def test_a_page_is_cropped_as_it_is_shown(tmp_path):
    found = pixels_of(
        tmp_path, pdf(((144, 288), BLACK_SQUARE), CropBox=pikepdf.Array([36, 36, 144, 180]))
    )
    assert found.shape == (600, 450, 3)
    rows, columns = np.nonzero(found[..., 0] < 128)
    assert (columns.min(), rows.max() + 1) == (150, 600 - 150)


@pytest.mark.parametrize("packed", [False, True])
def test_the_user_unit_of_a_page_is_respected(tmp_path, packed):
    document = pikepdf.open(io.BytesIO(pdf(((72, 144), BLACK_SQUARE), UserUnit=10)))
    mode = pikepdf.ObjectStreamMode
    how = {"object_stream_mode": mode.generate if packed else mode.disable}
    content = saved(document, **how)
    assert (b"/UserUnit" in content) is not packed
    found = facts_of(tmp_path, content)
    assert (found.width, found.height) == (3000, 6000)


@pytest.mark.parametrize("unit", [0, -3, 1e9])
def test_a_user_unit_that_cannot_be_counts_as_none(tmp_path, unit):
    assert facts_of(tmp_path, pdf(((72, 144), b""), UserUnit=unit)).width == 300


def test_a_page_of_200_inches_is_drawn_coarser_and_says_so(tmp_path):
    found = facts_of(tmp_path, pdf(((14400, 14400), b"")))
    assert found.width * found.height == pytest.approx(150e6, rel=1e-3)
    # the root of 150 million, to 200 inches: 61.2
    (told,) = found.remarks
    assert "61.2 dots per inch" in told


def test_a0_is_drawn_as_any_other_page(tmp_path):
    found = facts_of(tmp_path, pdf(((2383.94, 3370.39), b"")))
    assert (found.width, found.height) == (9933, 14043)
    assert found.remarks == ()


def test_a_page_as_small_as_a_stamp_is_refused(tmp_path):
    with pytest.raises(CannotRead, match="smaller than 10 mm"):
        facts_of(tmp_path, pdf(((20, 400), b"")))


def test_a_page_that_is_not_there_is_refused(tmp_path):
    content = pdf((A4, b""), (A4, b""))
    for page in (0, 3):
        with pytest.raises(CannotRead, match=f"2 pages .* no page {page}"):
            facts_of(tmp_path, content, page)


def locked(**how) -> bytes:
    document = pikepdf.open(io.BytesIO(pdf((A4, b""))))
    return saved(document, encryption=pikepdf.Encryption(**how))


def test_a_locked_pdf_is_refused(tmp_path):
    with pytest.raises(CannotRead, match="locked with a password"):
        facts_of(tmp_path, locked(user="sexton", owner="vicar"))


def test_a_pdf_that_opens_without_a_password_is_read(tmp_path):
    assert facts_of(tmp_path, locked(user="", owner="vicar")).width == 2480


WHOLE = pdf(((144, 288), BLACK_SQUARE), ((144, 288), RED_SQUARE))


def looping() -> bytes:
    """Return a PDF whose only page is the tree of pages itself."""
    document = pikepdf.open(io.BytesIO(WHOLE))
    pages = document.Root.Pages
    pages.Kids = pikepdf.Array([pages])
    return saved(document)


def empty() -> bytes:
    return saved(pikepdf.new())


@pytest.mark.parametrize(
    "content",
    [b"%PDF-1.7\n", WHOLE[:40], b"%PDF-1.7\n" + bytes(5000), looping(), empty()],
    ids=["head", "beginning", "zeros", "loop", "empty"],
)
def test_a_broken_pdf_is_refused_in_a_sentence(tmp_path, content):
    with pytest.raises(CannotRead, match="nothing was changed"):
        facts_of(tmp_path, content)


@pytest.mark.parametrize("share", [0.3, 0.5, 0.7, 0.9])
def test_a_pdf_cut_short_is_read_as_far_as_it_goes_or_refused(tmp_path, share):
    try:
        found = facts_of(tmp_path, WHOLE[: int(share * len(WHOLE))])
    except CannotRead as refused:
        assert "nothing was changed" in str(refused)  # noqa: PT017  # either answer is right
    else:
        assert (found.width, found.height) == (600, 1200)


def test_a_full_disk_is_said(tmp_path):
    wanted = Wanted(pdf=in_file(tmp_path, WHOLE), page=1)
    with pytest.raises(NoRoom, match="no room"):
        drawn(Drawing(wanted=wanted, into=tmp_path / "nowhere" / "page.raw"))


def test_a_pdf_is_a_scan_like_any_other(tmp_path):
    # whole: measured and drawn in processes of their own, and put on the shelf
    shelf = tmp_path / "shelf"
    found = probe(WHOLE, 2)
    assert (found.pages, found.width, found.height) == (2, 600, 1200)
    folder = make_tiles(WHOLE, shelf, page=2)
    assert folder is not None
    assert folder.name.endswith("-page2")
    pyramid = open_tiles(folder)
    assert pyramid.colour
    assert pyramid.levels[0].pixels[825, 375].tolist() == [255, 0, 0]
    assert [p.name for p in shelf.iterdir()] == [folder.name]


def test_a_page_without_colour_takes_one_byte_a_pixel(tmp_path):
    page = pdf_page(in_file(tmp_path, WHOLE), 1, tmp_path)
    assert not page.colour
    strip = page.strip(740, 760)
    assert strip.shape == (20, 600)
    assert strip[:, 375].tolist() == [255] * 10 + [0] * 10


def test_a_picture_that_speaks_of_pdf_is_a_picture():
    content = as_bytes(drawing(), "PNG")
    assert probe(content[:33] + content[33:]).format == "PNG"
    comment = as_bytes(drawing(), "JPEG", comment=b"%PDF-1.7")
    assert b"%PDF-" in comment[:1024]
    assert probe(comment).format == "JPEG"


def test_bytes_before_the_head_of_a_pdf_do_no_harm():
    assert probe(b"\r\n\x00mail\r\n" + WHOLE).pages == 2


def test_a_scanned_page_shows_its_picture(tmp_path):
    image = Image.new("RGB", (200, 400), (10, 200, 30))
    stream = io.BytesIO()
    image.save(stream, "PDF", resolution=100)
    assert pixels_of(tmp_path, stream.getvalue())[600, 300].tolist() == pytest.approx(
        [10, 200, 30], abs=3
    )


def test_the_size_of_a_drawn_page_stays_what_it_was():
    # what was clicked on a page is kept in its pixels
    assert (pdf_drawing.DPI, pdf_drawing.MOST_DRAWN) == (300.0, 150_000_000)
