"""The longest gap in the window's event loop while a PDF and a DXF of 5,000 graves are made.

Goal: at most 100 ms. A timer of one millisecond ticks in the window's own thread; the longest
time between two ticks is printed and compared.
"""

import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop.app import Application
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.kind import kind_named
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

pytestmark = pytest.mark.bench

GRAVES = 5_000
LONGEST_MS = 100.0
PATIENCE_MS = 240_000


class Ticks:
    """Notes the longest time between two ticks of the event loop."""

    def __init__(self, parent: PlanWindow) -> None:
        self.longest = 0.0
        self._last = time.perf_counter()
        self._timer = QTimer(parent)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._tick)
        self._timer.start(1)

    def _tick(self) -> None:
        now = time.perf_counter()
        self.longest = max(self.longest, now - self._last)
        self._last = now

    def begin(self) -> None:
        """Forget what was noted."""
        self.longest = 0.0
        self._last = time.perf_counter()


@pytest.fixture
def script() -> Script:
    return Script()


@pytest.fixture
def window(qapp: QApplication, script: Script, tmp_path: Path) -> Iterator[PlanWindow]:
    path = tmp_path / "many.gpkg"
    kind = kind_named("grave")
    assert kind is not None
    with PlanFile.create(path, name="Many", grid=Grid()) as file:
        graves = tuple(
            new_item(
                kind,
                Rectangle(east=1.6 * (n % 100), north=2.8 * (n // 100), width=0.9, length=2.1),
                number=f"{chr(65 + n // 250)} {n % 250 + 1}",
            )
            for n in range(GRAVES)
        )
        Document(file.plan, journal=file).apply(Add(graves))
        file.save()
    house = Application(qapp, ask=script.ask)
    house.start([str(path)])
    yield house.windows[0]
    house.quit()
    house.deleteLater()


def test_the_window_goes_on_while_a_pdf_and_a_dxf_are_made(
    qtbot: QtBot,
    window: PlanWindow,
    script: Script,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    window.resize(1600, 1000)
    window.go("sheets")
    assert window.body is not None
    panel = window.body.side.panels["sheets"]
    qtbot.waitUntil(lambda: not panel.picture.pixmap().isNull(), timeout=PATIENCE_MS)
    script.files.extend([tmp_path / "many.pdf", tmp_path / "many.dxf"])
    qtbot.wait(300)
    ticks = Ticks(window)
    qtbot.wait(300)
    quiet = ticks.longest
    ticks.begin()
    panel.print.click()
    window.write_drawing("dxf")
    ground = window.body.ground.canvas.viewport()
    while len(script.told) < 2:
        # somebody goes on looking round meanwhile
        for x in range(300, 900, 50):
            QTest.mouseMove(ground, QPoint(x, 400))
            qtbot.wait(5)
    busy = ticks.longest
    with capsys.disabled():
        sys.stdout.write(
            f"\n  longest gap: {1000 * quiet:.0f} ms at rest,"
            f" {1000 * busy:.0f} ms while a PDF and a DXF of {GRAVES} graves are made"
            f" (goal {LONGEST_MS:.0f} ms)\n"
        )
    assert (tmp_path / "many.pdf").stat().st_size > 50_000
    assert (tmp_path / "many.dxf").stat().st_size > 1_000_000
