"""What is damaged, disguised or made to do harm is refused in a sentence, and soon."""

from time import monotonic
from typing import Any

import numpy as np
import pytest
from drawings import content_of, drawing
from ezdxf.document import Drawing as Document
from ezdxf.filemanagement import new

from plan_editor.errors import CannotRead
from plan_editor.exchange.formats.dxf import FORMAT
from plan_editor.exchange.formats.dxf.reading import read_drawing, read_here

SOON = 20.0  # seconds: most of it for the start of a process on a busy machine


def _refused(content: bytes) -> str:
    begun = monotonic()
    with pytest.raises(CannotRead) as refused:
        read_drawing(content)
    assert monotonic() - begun < SOON
    said = str(refused.value)
    assert "Nothing was changed." in said
    assert "\n" not in said
    assert len(said) < 300
    return said


def _grid(_: Document, space: Any) -> None:
    for i in range(200):
        space.add_line((i, 0), (i, 100))


def test_a_drawing_comes_back_whole_from_the_other_process() -> None:
    def draw(document: Document, space: Any) -> None:
        _grid(document, space)
        space.add_text("Porch", height=0.33).set_placement((5, 6))

    assert FORMAT.read_drawing is not None
    found = FORMAT.read_drawing(drawing(draw))
    assert len(found.line_work.lines) == 200
    assert found.line_work.lines[7].tolist() == [[7, 0], [7, 100]]
    assert found.extent == (0, 0, 199, 100)
    assert found.report.done == ("200 lines", "1 text")
    (text,) = found.line_work.texts
    # DXF gives the height of capitals, ink that of the em: 0.66 in the shipped font
    assert (text.text, text.x, text.y, text.height) == ("Porch", 5, 6, pytest.approx(0.5))
    with pytest.raises(ValueError, match="read-only"):
        found.line_work.lines[7][0, 0] = 5.0


@pytest.mark.parametrize("content", [b"", b"\n", b" \r\n\0"])
def test_an_empty_file_is_refused(content: bytes) -> None:
    assert _refused(content).startswith("The file is empty")


@pytest.mark.parametrize(
    "content",
    [
        b"AC1032" + bytes(200),  # how another sort of drawing begins, renamed
        b"\x89PNG\r\n\x1a\n" + bytes(50),
        b"%PDF-1.7\n",
        b"Name,East,North\nM1,100,200\n",
        b"SQLite format 3\0" + bytes(84),
    ],
)
def test_another_sort_of_file_under_the_name_of_a_drawing_is_refused(content: bytes) -> None:
    assert _refused(content).startswith("The file is not a DXF drawing")


def test_a_header_without_a_drawing_is_refused() -> None:
    whole = drawing(_grid)
    assert "damaged or incomplete" in _refused(whole[: len(whole) // 5])


@pytest.mark.parametrize("part", [0.3, 0.5, 0.9, 0.97])
def test_a_file_cut_short_gives_what_is_left_or_a_sentence(part: float) -> None:
    whole = drawing(_grid)
    try:
        found = read_here(whole[: int(len(whole) * part)])
    except CannotRead:
        return  # its sentence is looked at in the tests around this one
    assert "whatever lay in the damaged parts of the file" in found.report.passed_over
    assert 0 < len(found.lengths) <= 200


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_a_drawing_cut_in_half_is_refused(version: str) -> None:
    whole = drawing(_grid, version=version)
    assert "damaged or incomplete" in _refused(whole[: len(whole) // 2])


def test_numbers_overwritten_with_letters_lose_no_more_than_their_line() -> None:
    whole = drawing(_grid, version="R12")
    at = whole.index(b"\n 21\n100.0", whole.index(b"ENTITIES"))
    found = read_here(whole[:at] + b"\n 21\n1x0.0" + whole[at + 10 :])
    assert len(found.lengths) >= 199


def test_a_block_that_holds_itself_is_refused() -> None:
    def draw(document: Document, space: Any) -> None:
        document.blocks.new("A").add_blockref("B", (0, 0))
        document.blocks.new("B").add_blockref("a", (1, 0))
        space.add_blockref("A", (0, 0))

    assert "holds itself" in _refused(drawing(draw))


def test_blocks_that_double_twenty_four_times_are_refused() -> None:
    def draw(document: Document, space: Any) -> None:
        document.blocks.new("B0").add_line((0, 0), (1, 0))
        for i in range(24):
            block = document.blocks.new(f"B{i + 1}")
            block.add_blockref(f"B{i}", (0, 0))
            block.add_blockref(f"B{i}", (2**i, 0))
        space.add_blockref("B24", (0, 0))

    assert "more than 1,000,000 lines" in _refused(drawing(draw))


@pytest.mark.parametrize("full", [True, False])
def test_a_block_in_a_grid_of_thousands_of_millions_is_refused(full: bool) -> None:  # noqa: FBT001
    def draw(document: Document, space: Any) -> None:
        block = document.blocks.new("DOT")
        if full:
            block.add_line((0, 0), (1, 0))
        space.add_blockref("DOT", (0, 0)).grid((30_000, 30_000), (1, 1))

    assert "more than 1,000,000 lines" in _refused(drawing(draw))


def test_blocks_fifty_deep_are_refused() -> None:
    def draw(document: Document, space: Any) -> None:
        document.blocks.new("B0").add_line((0, 0), (1, 0))
        for i in range(50):
            document.blocks.new(f"B{i + 1}").add_blockref(f"B{i}", (0, 0))
        space.add_blockref("B50", (0, 0))

    assert "40 deep" in _refused(drawing(draw))


def test_blocks_that_double_ten_times_are_drawn() -> None:
    def draw(document: Document, space: Any) -> None:
        document.blocks.new("B0").add_line((0, 0), (1, 0))
        for i in range(10):
            block = document.blocks.new(f"B{i + 1}")
            block.add_blockref(f"B{i}", (0, 0))
            block.add_blockref(f"B{i}", (2**i, 0))
        space.add_blockref("B10", (0, 0))

    found = read_here(drawing(draw))
    assert sorted(found.points[::2, 0]) == list(range(1024))


def test_a_spline_of_senseless_numbers_is_left_out() -> None:
    def draw(_: Document, space: Any) -> None:
        space.add_line((0, 0), (1, 0))
        spline = space.add_spline(degree=3)
        spline.control_points = [(0, 0, 0), (1, 1, 0)]
        spline.knots = [0, 0, 1]

    found = read_here(drawing(draw))
    assert found.report.passed_over == ("things whose record is damaged (1)",)


def test_a_thousand_blocks_at_many_sizes_take_no_long_time() -> None:
    document = new("R2010", units=6)
    block = document.blocks.new("OAK")
    for i in range(30):
        block.add_circle((i, 0), 1 + i / 10)
    space = document.modelspace()
    sizes = np.linspace(0.5, 3, 1000)
    for i, size in enumerate(sizes):
        space.add_blockref("OAK", (0, i), dxfattribs={"xscale": size, "yscale": size})
    content = content_of(document)
    begun = monotonic()
    assert len(read_here(content).lengths) == 30_000
    assert monotonic() - begun < SOON
