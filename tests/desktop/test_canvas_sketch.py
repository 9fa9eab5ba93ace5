"""What is sketched over the ground: told apart without colour, and quick."""

from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtGui import QColor, QImage
from pytestqt.qtbot import QtBot

from plan_editor.desktop.canvas.palette import DARK, LIGHT, Palette
from plan_editor.desktop.canvas.sketch_names import placed_names
from plan_editor.desktop.canvas.sketch_patches import batched
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.drafting.tools import select
from plan_editor.drawing.sketch import Sketch, SketchDot, SketchLine, SketchPatch, Tone
from plan_editor.plan.document import Document
from plan_editor.plan.plan import Plan
from plan_editor.session import Session

Pixels = NDArray[np.int64]
SIDE = 400


@pytest.fixture(params=[LIGHT, DARK], ids=["light", "dark"])
def canvas(request: pytest.FixtureRequest, qtbot: QtBot) -> Canvas:
    palette: Palette = request.param
    made = Canvas(Session(Document(Plan()), first=select.TOOL), palette)
    qtbot.addWidget(made)
    made.resize(SIDE, SIDE)
    made.show()
    made.zoom(10.0 / made.transform().m11())
    made.centerOn(0.0, 0.0)
    return made


def _pixels(canvas: Canvas) -> Pixels:
    picture = canvas.viewport().grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    held = np.frombuffer(picture.constBits(), dtype=np.uint8)
    return held.reshape(picture.height(), picture.width(), 4)[:, :, 2::-1].astype(np.int64)


def _square(side: float) -> NDArray[np.float64]:
    return np.array([(-side, -side), (side, -side), (side, side), (-side, side)])


def _middle(picture: Pixels) -> Pixels:
    row, column = (n // 2 for n in picture.shape[:2])
    return picture[row - 40 : row + 40, column - 40 : column + 40]


def test_fills_of_different_tones_differ_in_a_grey_copy_too(canvas: Canvas) -> None:
    grey = {}
    for tone in Tone:
        patch = SketchPatch(points=_square(8.0), strength=0.5, tone=tone)
        canvas.set_sketch(Sketch(patches=(patch,)))
        middle = _middle(_pixels(canvas)).sum(axis=2)
        ink = np.abs(middle - np.median(middle)) > 40
        assert ink.any()  # the hatch, over the tint
        grey[tone] = ink
    for one, other in combinations(Tone, 2):
        assert (grey[one] != grey[other]).mean() > 0.01


def test_the_stronger_a_fill_the_more_ink(canvas: Canvas) -> None:
    canvas.set_sketch(Sketch())
    bare = _middle(_pixels(canvas))
    covered = []
    for strength in (0.0, 0.2, 0.6, 1.0):
        canvas.set_sketch(
            Sketch(patches=(SketchPatch(points=_square(8.0), strength=strength),))
        )
        covered.append(int(np.abs(_middle(_pixels(canvas)) - bare).sum()))
    assert covered[0] == 0
    assert covered == sorted(set(covered))


def test_a_line_is_as_wide_at_every_scale_and_its_head_points_on(canvas: Canvas) -> None:
    rust = _rgb(QColor(canvas._sight.palette.rust))
    wide = []
    for scale in (10.0, 40.0):
        canvas.zoom(scale / canvas.transform().m11())
        canvas.centerOn(0.0, 0.0)
        reach = 120.0 / scale
        line = SketchLine(
            points=np.array([(-reach, 0.0), (reach, 0.0)]), tone=Tone.DANGER, arrow=True
        )
        canvas.set_sketch(Sketch(lines=(line,)))
        near = np.abs(_pixels(canvas) - rust).max(axis=2) < 30
        columns = near.sum(axis=0)
        middle = near.shape[1] // 2
        wide.append(int(columns[middle - 50 : middle + 50].max()))
        # the head is wider than the line, near the far end, and narrows to its tip
        assert columns[middle + 105 : middle + 115].max() > wide[-1] + 2
        assert columns[middle - 120 : middle - 100].max() <= wide[-1]
    assert wide[0] == wide[1]


def test_a_dot_of_danger_is_crossed_and_one_that_was_measured_is_open(canvas: Canvas) -> None:
    ink = {}
    for tone in (Tone.MEASURED, Tone.DANGER):
        canvas.set_sketch(Sketch(dots=(SketchDot(east=0.0, north=0.0, tone=tone),)))
        picture = _pixels(canvas)
        row, column = (n // 2 for n in picture.shape[:2])
        inside = picture[row - 2 : row + 3, column - 2 : column + 3]
        ground = _rgb(QColor(canvas._sight.palette.ground))
        ink[tone] = int((np.abs(inside - ground).max(axis=2) > 60).sum())
    assert ink[Tone.MEASURED] == 0
    assert ink[Tone.DANGER] >= 5


def test_twenty_thousand_patches_are_few_paths() -> None:
    squares = (
        SketchPatch(points=_square(0.35) + np.array((0.7 * i, 0.7 * j)), strength=i / 141)
        for i in range(142)
        for j in range(141)
    )
    paths = batched(squares)
    assert sum(path.elementCount() for *_, path in paths) == 4 * (141 * 142 - 141)
    # 16 squares of ground in a hectare, times the strengths that meet in each
    assert len(paths) < 200


def test_names_are_not_written_over_one_another_and_danger_comes_first() -> None:
    dots = [SketchDot(east=0.1 * n, north=0.0, text=f"M{n}") for n in range(40)]
    dots.append(SketchDot(east=2.0, north=0.0, text="the slip", tone=Tone.DANGER))
    found = placed_names(dots, 10.0, lambda words: 7 * len(words))
    assert found[0].text == "the slip"
    assert 1 < len(found) < len(dots)
    assert not any(one.meets(other) for one, other in combinations(found, 2))


def _rgb(colour: QColor) -> Pixels:
    return np.array([colour.red(), colour.green(), colour.blue()])
