"""An afternoon with the window, picture by picture.

By hand, under a virtual screen::

    xvfb-run -a -s "-screen 0 1700x1100x24" env QT_QPA_PLATFORM=xcb \
        python -m tests.stories.tour OUTDIR

A path, a grave and a tree are traced over the old plan, a failed inspection is recorded, the
mowing map is printed; each step is kept as a picture, in light and in dark colours.
"""

import os
import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from plan_editor.desktop.app import Application
from plan_editor.desktop.ask import WindowAsk
from plan_editor.desktop.house import House
from plan_editor.desktop.window import PlanWindow
from plan_editor.drafting.tool import tools
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind, kind_named
from plan_editor.resources import sample

SIZE = (1600, 1000)
PATIENCE_S = 60.0

ON_THE_SCAN = {"M1": (1052, 1208), "M8": (1225, 989), "M10": (1301, 2103), "M5": (1621, 1262)}
"""Where some marks are drawn on the old plan, in pixels right and down."""


class Filed(WindowAsk):
    """Answers every wish for a file to be written with one file."""

    target = Path("mowing.pdf")

    def file_to_write(self, title: str, suffix: str, suggested: str) -> Path | None:
        """Return that file."""
        return self.target


class Afternoon:
    """What somebody does with a plan, by clicks and keys."""

    def __init__(self, window: PlanWindow) -> None:
        self.window = window
        body = window.body
        assert body is not None
        self.body = body
        self.canvas = body.ground.canvas
        window.resize(*SIZE)
        wait_until(lambda: self.canvas.width() > SIZE[0] // 2)

    def go_to(self, east: float, north: float, metres: float) -> None:
        """Show a square of ground."""
        side = min(self.canvas.viewport().width(), self.canvas.viewport().height())
        self.canvas.centerOn(east, north)
        self.canvas.zoom(side / metres / self.canvas.transform().m11())
        self.canvas.centerOn(east, north)

    def click(self, east: float, north: float) -> None:
        """Click a place on the ground."""
        at = self.canvas.mapFromScene(east, north)
        ground = self.canvas.viewport()
        QTest.mouseMove(ground, at)
        QTest.mouseClick(
            ground, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier, at
        )

    def click_caught(self, east: float, north: float) -> None:
        """Click by something on the ground, so that it is caught."""
        at = self.canvas.mapFromScene(east, north) + QPoint(2, 2)
        QTest.mouseMove(self.canvas.viewport(), at)
        click(self.canvas.viewport(), at)

    def press(self, key: Qt.Key) -> None:
        """Press a key on the ground."""
        QTest.keyClick(self.canvas, key)

    def draw(self, title: str) -> None:
        """Choose what to draw."""
        listed = self.body.side.panels["trace"].sections["drawing"].kinds
        item = listed.findItems(title, Qt.MatchFlag.MatchExactly)[0]
        listed.scrollToItem(item)
        click(listed.viewport(), listed.visualItemRect(item).center())

    def describe(self, field: str, words: str) -> None:
        """Fill in a field of the card and leave it."""
        editor = self.body.side.card.rows[field].editor
        editor.setFocus()
        editor.selectAll()
        QTest.keyClicks(editor, words)
        QTest.keyClick(editor, Qt.Key.Key_Return)

    def show_a_grave(self) -> None:
        """Choose a grave whose stone is known, with some ground round it."""
        kind = kind_named("grave")
        assert kind is not None
        graves = self.window.session.document.plan.of(kind)
        grave = next(i for i in graves if i.number == "C 14")
        self.window.session.choose((grave.id,))
        self.canvas.go_to((grave.id,))
        self.canvas.zoom(1.05)

    def trace_a_path(self) -> None:
        """Draw a path along its middle, and leave off the tool."""
        self.window.go("trace")
        self.draw("Path")
        for east, north in ((50.0, 49.5), (51.5, 60.0), (51.0, 72.0)):
            self.click(east, north)

    def trace_a_grave(self) -> None:
        """Draw a grave along its head line, by typed lengths."""
        self.draw("Grave")
        self.click(46.8, 52.0)
        self.click(46.9, 53.2)
        self.click(49.0, 52.6)

    def trace_a_tree(self) -> None:
        """Set a tree, and say which."""
        self.draw("Tree")
        self.click(61.0, 55.0)
        self.describe("species", "Taxus baccata")

    def lay_out_a_row(self) -> None:
        """Begin a row of graves and leave it standing, to be laid out by Enter."""
        self.window.session.take_up(next(t for t in tools() if t.name == "row"))
        self.click(52.0, 75.0)
        self.click(53.0, 66.0)

    def record_a_failed_inspection(self, stone: Item) -> None:
        """Open the form of a stone and fill it in."""
        self.window.go("safety")
        self.window.session.choose((stone.id,))
        panel = self.body.side.panels["safety"].sections["stones"]
        wait_until(lambda: bool(panel.stones.table.items))
        panel.record.click()
        result = panel.form.rows["result"].editor
        result.setCurrentIndex(result.findData("immediate action"))
        action = panel.form.rows["action"].editor
        action.setPlainText("Leans 12 degrees. Cordoned off; family to be found.")

    def fit_the_old_plan(self) -> None:
        """Open the form in which the old plan is fitted, with the points that it has."""
        panel = self.body.side.panels["survey"]
        panel.open("base_plans")
        section = panel.sections["base_plans"]
        self.window.session.choose((_first(self.window, "base_plan").id,))
        section.place.click()
        wait_until(lambda: section.form.trial.fit is not None)

    def fit_a_mark(self, number: str, slip: float = 0.0) -> None:
        """Click a mark on the old plan, so many pixels beside it, and then on the ground."""
        form = self.body.side.panels["survey"].sections["base_plans"].form
        named = [p.control.name for p in form.points]
        if number in named:
            form.table.selectRow(named.index(number))
            form.remove.click()
        wait_until(lambda: self._settled(form))
        marks = self.window.session.document.plan.of(_kind("mark"))
        shape = next(i.shape for i in marks if i.number == number)
        assert shape is not None
        lying = self.body.ground.lying(form.item)
        assert lying is not None
        right, down = ON_THE_SCAN[number]
        paper = np.array([(right + slip, down)])
        self.click(*lying.mapping.to_ground(paper)[0].tolist())
        east, north = shape.coords[0]
        self.click_caught(east, north)
        wait_until(lambda: self._settled(form))

    def _settled(self, form: Any) -> bool:
        return form.trial.points == form.points and not self.window.background.title

    def survey(self, section: str) -> Any:
        """Open a section of the survey."""
        panel = self.body.side.panels["survey"]
        panel.open(section)
        return panel.sections[section]

    def read_a_field_book(self) -> Any:
        """Read the field book that lies beside the sample, and see what it comes to."""
        section = self.survey("field_books")
        section.read_file(sample("harrowmere-ties.csv"))
        wait_until(lambda: section.form.outcome is not None)
        return section.form

    def print_the_mowing_map(self) -> None:
        """Choose the mowing map and print it."""
        self.window.print_sheet("mowing")
        self.body.side.panels["sheets"].print.click()


def click(widget: QWidget, at: QPoint) -> None:
    """Click a place on a widget."""
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)


def rest(milliseconds: int) -> None:
    """Let the window and its threads work; ``QTest.qWait`` would hold the interpreter."""
    end = time.monotonic() + milliseconds / 1000
    while time.monotonic() < end:
        QApplication.processEvents()
        time.sleep(0.005)


def wait_until(true: Callable[[], bool]) -> None:
    """Let the window work until something is true."""
    end = time.monotonic() + PATIENCE_S
    while not true():
        assert time.monotonic() < end, "it did not come about"
        rest(20)


def _kind(name: str) -> Kind:
    kind = kind_named(name)
    assert kind is not None
    return kind


def _first(window: PlanWindow, kind: str) -> Item:
    return next(iter(window.session.document.plan.of(_kind(kind))))


def sound_stone(window: PlanWindow) -> Item:
    """Return a stone of the plan that is sound."""
    kind = kind_named("memorial")
    assert kind is not None
    return next(i for i in window.session.document.plan.of(kind) if i.number == "W 3")


def _asking(window: PlanWindow, house: House) -> Filed:
    return Filed(window, window, house)


class Pictures:
    """Keeps a picture of the window after each step."""

    def __init__(self, folder: Path, colours: str, house: Application) -> None:
        self._folder = folder
        self._colours = colours
        self._house = house
        self._number = 0

    def keep(self, name: str) -> None:
        """Let the window settle and keep what it looks like."""
        self._number += 1
        rest(600)
        file = self._folder / f"{self._colours}-{self._number:02d}-{name}.png"
        self._house.windows[-1].grab().save(str(file))

    def keep_popup(self, name: str, popup: QWidget) -> None:
        """Keep what a list that hangs over the window looks like."""
        self._number += 1
        file = self._folder / f"{self._colours}-{self._number:02d}-{name}.png"
        popup.grab().save(str(file))


def _tour(folder: Path, colours: str, qt: QApplication) -> None:
    work = Path(tempfile.mkdtemp())
    plan = work / "harrowmere.gpkg"
    shutil.copyfile(sample("harrowmere.gpkg"), plan)
    Filed.target = work / "mowing.pdf"
    house = Application(qt, ask=_asking)
    house.dress(colours)
    pictures = Pictures(folder, colours, house)
    house.start([])
    house.windows[-1].resize(*SIZE)
    pictures.keep("start")
    house.open_plan(plan)
    afternoon = Afternoon(house.windows[-1])
    wait_until(lambda: not afternoon.window.background.title)
    pictures.keep("whole")
    _trace(afternoon, pictures)
    _look_after(afternoon, pictures)
    afternoon.window.saving.save()
    wait_until(lambda: not afternoon.window.background.title)
    house.quit()
    shutil.rmtree(work)


def _trace(afternoon: Afternoon, pictures: Pictures) -> None:
    afternoon.show_a_grave()
    pictures.keep("grave chosen")
    afternoon.window.session.choose(())
    afternoon.go_to(50.0, 58.0, 44.0)
    afternoon.trace_a_path()
    pictures.keep("path begun")
    afternoon.press(Qt.Key.Key_Return)
    pictures.keep("path")
    afternoon.trace_a_grave()
    pictures.keep("grave")
    afternoon.trace_a_tree()
    pictures.keep("tree")
    afternoon.lay_out_a_row()
    pictures.keep("row")
    afternoon.press(Qt.Key.Key_Escape)
    afternoon.press(Qt.Key.Key_Escape)
    afternoon.show_a_grave()
    panel = afternoon.body.side.panels["trace"]
    for name in panel.folds:
        panel.open(name)
        rest(800)
        pictures.keep(f"trace {name.replace('_', ' ')}")
    panel.open("drawing")
    afternoon.window.list_shown()
    rest(300)
    pictures.keep_popup("shown", afternoon.body.shown)
    afternoon.body.shown.hide()


def _look_after(afternoon: Afternoon, pictures: Pictures) -> None:
    window = afternoon.window
    stone = sound_stone(window)
    afternoon.press(Qt.Key.Key_Escape)
    afternoon.record_a_failed_inspection(stone)
    afternoon.canvas.go_to((stone.id,))
    afternoon.canvas.zoom(0.8)
    pictures.keep("inspection form")
    afternoon.body.side.panels["safety"].sections["stones"].form.record.click()
    rest(1000)
    pictures.keep("inspection recorded")
    window.session.choose(())
    afternoon.canvas.whole()
    pictures.keep("safety")
    for job in ("records", "space", "survey"):
        window.go(job)
        pictures.keep(job)
    _fit(afternoon, pictures)
    _survey(afternoon, pictures)
    afternoon.print_the_mowing_map()
    wait_until(lambda: Filed.target.exists() and not window.background.title)
    pictures.keep("mowing map")


def _fit(afternoon: Afternoon, pictures: Pictures) -> None:
    afternoon.fit_the_old_plan()
    for number, slip in (("M1", 0.0), ("M8", 0.0), ("M10", 0.0), ("M5", 30.0)):
        afternoon.fit_a_mark(number, slip)
    pictures.keep("fit with a slip")
    form = afternoon.body.side.panels["survey"].sections["base_plans"].form
    form.verdict.without.click()
    wait_until(lambda: form.trial.points == form.points)
    pictures.keep("fit")
    form.cancel.click()


def _survey(afternoon: Afternoon, pictures: Pictures) -> None:
    afternoon.window.session.choose(())
    afternoon.survey("marks").map.show_or_hide.click()
    rest(3000)
    pictures.keep("marks")
    form = afternoon.read_a_field_book()
    afternoon.go_to(50.0, 28.0, 52.0)
    pictures.keep("field book")
    form.verdict.leave_out.emit(form.outcome.suspects[0].reading.line.line)
    wait_until(lambda: form.outcome is not None and not form.outcome.suspects)
    pictures.keep("field book without the slip")
    form.leave()
    for section in ("points", "grid"):
        afternoon.survey(section)
        pictures.keep(section)


def tour(folder: Path, qt: QApplication) -> None:
    """Take every picture, in light and in dark colours, and leave nothing else behind."""
    with tempfile.TemporaryDirectory() as home:
        for name in ("STATE", "CACHE", "CONFIG", "DATA"):
            os.environ[f"XDG_{name}_HOME"] = home
        for colours in ("light", "dark"):
            _tour(folder, colours, qt)


def main() -> int:
    """Take the pictures."""
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    tour(folder, QApplication(sys.argv[:1]))
    return 0


if __name__ == "__main__":
    sys.exit(main())
