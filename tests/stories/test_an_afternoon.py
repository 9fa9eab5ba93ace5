"""Trace a path, a grave and a tree; record a failed inspection; print the mowing map."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pdfplumber
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from scripted import Script
from tour import Afternoon, sound_stone

from plan_editor.desktop.app import Application
from plan_editor.desktop.window import PlanWindow
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan


@pytest.fixture
def script() -> Script:
    return Script()


@pytest.fixture
def window(qapp: QApplication, script: Script, tmp_path: Path) -> Iterator[PlanWindow]:
    plan = tmp_path / "harrowmere.gpkg"
    shutil.copyfile(sample("harrowmere.gpkg"), plan)
    house = Application(qapp, ask=script.ask)
    house.start([str(plan)])
    yield house.windows[0]
    script.answers.append(1)
    house.quit()
    house.deleteLater()


def test_an_afternoon(qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path) -> None:
    afternoon = Afternoon(window)
    before = window.session.document.plan
    afternoon.go_to(50.0, 58.0, 44.0)
    afternoon.trace_a_path()
    afternoon.press(Qt.Key.Key_Return)
    afternoon.trace_a_grave()
    afternoon.trace_a_tree()
    afternoon.press(Qt.Key.Key_Escape)
    stone = sound_stone(window)
    afternoon.record_a_failed_inspection(stone)
    afternoon.body.side.panels["safety"].sections["stones"].form.record.click()
    target = tmp_path / "mowing.pdf"
    script.files.append(target)
    afternoon.print_the_mowing_map()
    qtbot.waitUntil(lambda: bool(script.told), timeout=60_000)

    after = window.session.document.plan
    new = [i for i in after.items.values() if i.id not in before.items]
    assert [i.kind.name for i in new] == ["path", "grave", "tree", "inspection"]
    assert all(i.basis.method == "traced" for i in new[:3])
    assert "Plan of 1962" in new[0].basis.source
    assert new[1].rectangle is not None
    assert new[1].rectangle.width == pytest.approx(1.2, abs=0.1)
    assert new[2].details.species == "Taxus baccata"
    assert after.revision == before.revision + 5  # four things, and a field of the card
    assert window.session.file is not None
    assert read_plan(window.session.file.working_copy).items == after.items
    with pdfplumber.open(target) as pdf:
        words = pdf.pages[0].extract_text()
    assert "W 3" in words
