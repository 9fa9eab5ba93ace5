"""One year in the window: a burial, a dangerous stone, mowing, a memorial, and a handover."""

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from openpyxl import load_workbook
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot
from scripted import Script
from tour import Afternoon, sound_stone

from plan_editor.desktop.app import Application
from plan_editor.desktop.window import PlanWindow
from plan_editor.plan.item import Item
from plan_editor.plan.kind import kind_named
from plan_editor.resources import sample
from plan_editor.storage.loading import read_plan
from plan_editor.storage.verifying import verify

WAIT = 60_000


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


class Year:
    """What the person at the desk does, by the buttons and fields of the window."""

    def __init__(self, qtbot: QtBot, window: PlanWindow, script: Script, folder: Path) -> None:
        self.qtbot, self.window, self.script, self.folder = qtbot, window, script, folder
        self.body = Afternoon(window).body

    def section(self, job: str, name: str) -> Any:
        """Turn to a job and open one of its sections."""
        self.window.go(job)
        panel: Any = self.body.side.panels[job]
        panel.open(name)
        return panel.sections[name]

    def items(self, kind: str) -> list[Item]:
        """Return what there is of a kind."""
        found = kind_named(kind)
        assert found is not None
        return list(self.window.session.document.plan.of(found))

    def now(self, item: Item) -> Item:
        """Return an item as it is now."""
        return self.window.session.document.plan.items[item.id]

    def choose(self, item: Item) -> None:
        """Choose one thing."""
        self.window.session.choose((item.id,))

    def fill(self, form: Any, **told: str) -> None:
        """Type into the fields of a form and record it."""
        for name, words in told.items():
            form.rows[name].show_text(words)
        form.record.click()
        assert form.isHidden(), form.foot.sentence

    def printed(self, button: QWidget, name: str) -> str:
        """Press a button that prints and return the words on the first page."""
        target = self.folder / name
        self.script.files.append(target)
        before = len(self.script.told)
        button.click()  # type: ignore[attr-defined]  # a button
        self.qtbot.waitUntil(lambda: len(self.script.told) > before, timeout=WAIT)
        with pdfplumber.open(target) as pdf:
            return str(pdf.pages[0].extract_text())


@pytest.fixture
def year(qtbot: QtBot, window: PlanWindow, script: Script, tmp_path: Path) -> Year:
    return Year(qtbot, window, script, tmp_path)


def test_a_year(year: Year, tmp_path: Path) -> None:
    _a_burial(year)
    stone = _a_dangerous_stone(year)
    _a_season_of_mowing(year)
    _a_memorial(year)
    _a_handover(year, stone, tmp_path)


def _a_burial(year: Year) -> None:
    section = year.section("records", "burials")
    (agreed,) = [r for r in year.items("request") if r.details.surname == "Rainbird"]
    year.choose(agreed)
    section.next.click()
    year.fill(section.form, dug="2026-05-21", depth_m="1.95")
    section.next.click()
    year.fill(section.form, buried="2026-05-22")
    (entry,) = [b for b in year.items("burial") if b.details.buried == "2026-05-22"]
    space = year.window.session.document.plan.items[entry.details.grave]
    assert (space.number, space.details.state, space.details.dug) == (
        "Z 3",
        "occupied",
        "2026-05-21",
    )
    assert year.now(agreed).details.burial == entry.id


def _a_dangerous_stone(year: Year) -> Item:
    stone = sound_stone(year.window)
    afternoon = Afternoon(year.window)
    afternoon.record_a_failed_inspection(stone)
    stones = year.section("safety", "stones")
    stones.form.record.click()
    families = year.section("safety", "families")
    year.choose(stone)
    year.qtbot.waitUntil(lambda: stone.id in families.stones.table.items, timeout=WAIT)
    families.add.click()
    year.fill(families.form, step="notice fixed to the stone", date="2026-06-01", days="28")
    year.qtbot.waitUntil(lambda: "29 June 2026" in families.steps.text(), timeout=WAIT)
    words = year.printed(families.prints["notice"], "notice.pdf")
    assert stone.number in words
    return stone


def _a_season_of_mowing(year: Year) -> None:
    section = year.section("safety", "mowing_sessions")
    before = len(year.items("visit"))
    for month, hours in (("06", "4.5"), ("07", "5"), ("08", "4")):
        section.add.click()
        year.fill(section.form, date=f"2026-{month}-13", mowing_h=hours, trimming_h="6")
    assert len(year.items("visit")) == before + 3


def _a_memorial(year: Year) -> None:
    section = year.section("records", "memorials_asked")
    modest, proud = sorted(year.items("application"), key=lambda a: a.details.height_mm)
    year.choose(proud)
    assert "faculty" in f"{section.told.text()} {section.answer.text()}".lower()
    year.choose(modest)
    words = year.printed(section.print, "answer.pdf")
    assert "1200" in words.replace("\u202f", "").replace(",", "")
    decision = year.body.side.card.rows["decision"].editor
    at = decision.findData("allowed under the regulations")
    decision.setCurrentIndex(at)
    decision.activated.emit(at)
    year.qtbot.waitUntil(lambda: "allowed" in year.now(modest).details.decision, timeout=WAIT)
    section.fix.click()
    year.fill(section.form, fixed="2026-11-20")
    stone = year.window.session.document.plan.items[year.now(modest).details.memorial]
    assert stone.kind.name == "memorial"
    assert stone.details.grave == modest.details.grave


def _a_handover(year: Year, stone: Item, folder: Path) -> None:
    section = year.section("records", "schedules")
    file = year.window.session.file
    assert file is not None
    year.window.save()
    assert verify(file.path).findings == ()
    taken_over = read_plan(file.path)
    assert taken_over.items == year.window.session.document.plan.items
    assert stone.id in taken_over.items
    target = folder / "burials.xlsx"
    section.which.setCurrentIndex(section.which.findData("burials"))
    year.script.files.append(target)
    before = len(year.script.told)
    section.write[1].click()
    year.qtbot.waitUntil(lambda: len(year.script.told) > before, timeout=WAIT)
    rows = list(load_workbook(target).active.values)
    assert any("Rainbird" in str(cell) for row in rows for cell in row)
