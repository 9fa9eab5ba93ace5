"""Ink on a painter, measured in its pixels."""

import numpy as np
import pytest
from PySide6.QtGui import QImage, QPainter
from pytestqt.qtbot import QtBot

from plan_editor.desktop.canvas.painter import InkPainter
from plan_editor.drawing.ink import Anchor, Clipped, Fill, Ink, Picture, Stroke, Text
from plan_editor.plan.look import Pen

PX_PER_MM = 10.0
WIDE, HIGH = 60, 40


def drawn(*inks: Ink):
    """Return how dark a sheet of 60 by 40 mm is, rows from the top, 0 white and 255 black."""
    image = QImage(int(WIDE * PX_PER_MM), int(HIGH * PX_PER_MM), QImage.Format.Format_RGB32)
    image.fill(0xFFFFFFFF)
    painter = QPainter(image)
    InkPainter(painter, px_per_mm=PX_PER_MM, height_mm=HIGH).draw_all(inks)
    painter.end()
    grey = image.convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(grey.constBits(), np.uint8).reshape(grey.height(), grey.bytesPerLine())
    return 255 - rows[:, : grey.width()].astype(int)


def box_of(dark) -> tuple[float, float, float, float]:
    """Return left, bottom, right, top in millimetres of what is darker than half."""
    rows, columns = np.where(dark > 127)
    return (
        columns.min() / PX_PER_MM,
        HIGH - (rows.max() + 1) / PX_PER_MM,
        (columns.max() + 1) / PX_PER_MM,
        HIGH - rows.min() / PX_PER_MM,
    )


def points(*pairs: tuple[float, float]):
    return np.array(pairs, dtype=float)


BLACK = Pen(width=0.5, colour="#000000")


def test_a_line_lies_where_it_is_and_is_as_thick_as_its_pen(qtbot: QtBot):
    dark = drawn(Stroke(lines=(points((10, 20), (50, 20)),), pen=BLACK))
    assert box_of(dark) == pytest.approx((10, 19.75, 50, 20.25), abs=0.1)


def test_a_closed_line_returns_to_its_start(qtbot: QtBot):
    corners = points((10, 10), (30, 10), (30, 30))
    assert drawn(Stroke(lines=(corners,), pen=BLACK, closed=True)).sum() > 1.3 * (
        drawn(Stroke(lines=(corners,), pen=BLACK)).sum()
    )


def test_dashes_are_millimetres_of_paper(qtbot: QtBot):
    pen = Pen(width=0.5, colour="#000000", dash=(2.0, 1.0))
    dark = drawn(Stroke(lines=(points((10, 20), (40, 20)),), pen=pen))[200]
    assert (dark > 127).sum() / PX_PER_MM == pytest.approx(20, abs=0.5)
    odd = Pen(width=0.5, colour="#000000", dash=(1.0,))
    dark = drawn(Stroke(lines=(points((10, 20), (40, 20)),), pen=odd))[200]
    assert (dark > 127).sum() / PX_PER_MM == pytest.approx(15, abs=0.5)


def test_a_hole_stays_open(qtbot: QtBot):
    outer = points((10, 5), (40, 5), (40, 35), (10, 35))
    inner = points((20, 15), (30, 15), (30, 25), (20, 25))
    dark = drawn(Fill(rings=(outer, inner), colour="#000000"))
    assert (dark > 127).sum() / PX_PER_MM**2 == pytest.approx(30 * 30 - 10 * 10, rel=0.01)


def test_text_stands_on_its_line_by_its_anchor(qtbot: QtBot):
    for anchor, left, right in (
        (Anchor.LEFT, 30, None),
        (Anchor.RIGHT, None, 30),
    ):
        box = box_of(
            drawn(Text(text="HHH", x=30, y=20, size=5, anchor=anchor, colour="#000000"))
        )
        assert box[1] == pytest.approx(20, abs=0.2)
        assert box[0 if left else 2] == pytest.approx(left or right, abs=0.7)
    middle = box_of(
        drawn(Text(text="HHH", x=30, y=20, size=5, anchor=Anchor.MIDDLE, bold=True))
    )
    assert (middle[0] + middle[2]) / 2 == pytest.approx(30, abs=0.3)


def test_text_is_turned_anticlockwise(qtbot: QtBot):
    box = box_of(drawn(Text(text="HHHHH", x=30, y=10, size=4, turn_deg=90)))
    assert box[3] - box[1] > 2 * (box[2] - box[0])
    assert box[1] == pytest.approx(10, abs=0.7)
    assert box[2] == pytest.approx(30, abs=0.3)


def test_a_halo_clears_the_lines_beneath(qtbot: QtBot):
    black = Fill(rings=(points((0, 0), (60, 0), (60, 40), (0, 40)),), colour="#000000")
    words = {"text": "H", "x": 30.0, "y": 20.0, "size": 5.0, "colour": "#000000"}
    assert (drawn(black, Text(**words, halo=1.0)) < 127).any()
    assert not (drawn(black, Text(**words)) < 127).any()


@pytest.mark.parametrize("shape", [(2, 2), (2, 2, 3)], ids=["grey", "colour"])
def test_a_picture_lies_upright(qtbot: QtBot, shape):
    pixels = np.full(shape, 255, dtype=np.uint8)
    pixels[0, 0] = 0
    dark = drawn(Picture(pixels=pixels, left=10, bottom=10, right=30, top=30))
    assert dark[110, 110] > 200  # the first pixel is at the upper left
    assert dark[290, 290] < 50
    faint = drawn(Picture(pixels=pixels, left=10, bottom=10, right=30, top=30, opacity=0.5))
    assert 90 < faint[110, 110] < 165


def test_what_is_clipped_ends_at_its_box(qtbot: QtBot):
    line = Stroke(lines=(points((0, 20), (60, 20)),), pen=BLACK)
    dark = drawn(
        Clipped(box=(20, 0, 30, 40), ink=(line,)),
        Stroke(lines=(points((50, 5), (55, 5)),), pen=BLACK),
    )
    assert box_of(dark[150:250])[0::2] == pytest.approx((20, 30), abs=0.1)
    assert (dark[345:355] > 127).any()
