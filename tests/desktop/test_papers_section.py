"""The section with the photographs and papers of the thing that is chosen."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop.sections.papers import Papers
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import new_item
from plan_editor.plan.kind import kind_named

WAIT = 30_000


@pytest.fixture
def section(qtbot: QtBot, window: PlanWindow) -> Papers:
    """The section of the plan with a stone C 14, which is chosen."""
    kind = kind_named("memorial")
    assert kind is not None
    item = new_item(kind, Rectangle(east=0, north=0, width=0.8, length=0.1), number="C 14")
    window.session.apply(Add((item,)))
    window.go("records")
    assert window.body is not None
    panel = window.body.side.panels["records"]
    panel.open("papers")  # type: ignore[attr-defined]  # a column of sections
    found = panel.sections["papers"]  # type: ignore[attr-defined]
    assert isinstance(found, Papers)
    assert not found.add.isEnabled()
    window.session.choose((item.id,))
    qtbot.waitUntil(found.add.isEnabled, timeout=WAIT)
    return found


def test_a_photograph_is_added_seen_and_written_out(
    qtbot: QtBot,
    window: PlanWindow,
    section: Papers,
    script: Script,
    tmp_path: Path,
) -> None:
    taken = tmp_path / "leaning.png"
    Image.fromarray(np.full((40, 60, 3), 90, dtype=np.uint8)).save(taken)
    out = tmp_path / "again.jpg"
    script.files.append(taken)
    qtbot.mouseClick(section.add, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: section.pictures.count() == 1, timeout=WAIT)
    assert window.session.document.undo_title == "Add a paper to memorial C 14"
    qtbot.waitUntil(lambda: not section.pictures.item(0).icon().isNull(), timeout=WAIT)
    section.pictures.setCurrentRow(0)
    qtbot.mouseClick(section.large, Qt.MouseButton.LeftButton)
    (shown,) = section.findChildren(QDialog)
    qtbot.waitUntil(shown.isVisible)
    shown.accept()
    script.files.append(out)
    qtbot.mouseClick(section.write, Qt.MouseButton.LeftButton)
    with Image.open(out) as image:
        assert image.size == (60, 40)


def test_what_is_no_picture_is_refused_in_a_sentence(
    qtbot: QtBot,
    window: PlanWindow,
    section: Papers,
    script: Script,
    tmp_path: Path,
) -> None:
    text = tmp_path / "letter.png"
    text.write_text("Dear Sir")
    script.files.append(text)
    section.add.click()
    qtbot.waitUntil(lambda: bool(script.told), timeout=WAIT)
    assert script.told[-1].startswith("letter.png: ")
    assert section.pictures.count() == 0
