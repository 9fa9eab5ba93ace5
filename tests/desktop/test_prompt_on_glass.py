"""The prompt on the ground: where it stands, and how its words are broken."""

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from plan_editor.desktop.canvas.furniture import BAR, BETWEEN, MARGIN, Prompt
from plan_editor.desktop.canvas.on_glass import OnGlass
from plan_editor.desktop.canvas.palette import LIGHT

LONG = "Shift its ends to fit; Enter or a click where the next row begins lays it out"
FIGURES = "7 graves, AA 1 to AA 7"


@pytest.mark.parametrize("across", [640, 660, 700, 800, 1200])
def test_a_long_prompt_leaves_scale_bar_and_north_point_free(qtbot: QtBot, across: int) -> None:
    ground = QWidget()
    qtbot.addWidget(ground)
    ground.resize(across, 480)
    glass = OnGlass(ground, LIGHT)
    glass.say(BETWEEN.join((LONG, FIGURES)))
    assert glass.prompt.x() > MARGIN + BAR[0]
    assert glass.prompt.geometry().right() < across


def test_a_prompt_of_several_lines_has_lines_of_about_the_same_length(qtbot: QtBot) -> None:
    ground = QWidget()
    qtbot.addWidget(ground)
    ground.resize(660, 480)
    prompt = Prompt(ground, LIGHT)
    prompt.say(LONG)
    whole = prompt.fontMetrics().horizontalAdvance(LONG)
    lines = round((prompt.height() - MARGIN) / prompt.fontMetrics().lineSpacing())
    assert lines > 1
    assert prompt.width() - 2 * MARGIN < max(1.4 * whole / lines, BAR[0] + MARGIN)
