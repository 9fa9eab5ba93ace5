"""Points: from a receiver or an instrument onto the plan."""

from pathlib import Path

from PySide6.QtWidgets import QWidget

from plan_editor.commands.point_files import SUFFIXES, Looked, look
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.dialogs.points import PointsDialog
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP

ABOUT = (
    "A file of points, one a line: name, coordinates, code. CSV, text and XLSX in any order of"
    " columns; GPX from a telephone. You see what becomes of it before anything is changed."
)
CAUTION = (
    "Near trees and walls a receiver can be metres out and not know it. Measure each mark"
    " twice, the second time at another hour, and check a distance by tape."
)


class Points(QWidget):
    """Opens a point file, and shows it before it comes on the plan."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self.dialog: PointsDialog | None = None
        self.read = button(self, "Read a point file…", self._choose)
        down = column(self, space=2 * STEP)
        down.addWidget(text(self, ABOUT, "soft"))
        down.addWidget(self.read)
        down.addWidget(text(self, CAUTION, "caution"))
        self._follow = Follow(self, self._refresh, desk.session.document.changed)

    def _refresh(self) -> None:
        self.read.setEnabled(self._desk.session.may_edit)

    def _choose(self) -> None:
        path = self._desk.ask.file_to_open("Read a point file", SUFFIXES)
        if path is not None:
            self._begin(path)

    def _begin(self, path: Path) -> None:
        self._desk.background.in_thread(
            Work(
                about="reading points",
                title=f"Reading {path.name}",
                function=look,
                arguments=(path,),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, looked: Looked) -> None:
        self.dialog = PointsDialog(self._desk, looked, self.window())
        self.dialog.finished.connect(self.dialog.deleteLater)
        self.dialog.finished.connect(self._forget)
        self.dialog.open()

    def _forget(self) -> None:
        self.dialog = None


SECTION = Section(
    name="points",
    title="Points",
    order=40,
    help="Put points from a satellite receiver or a total station on the plan.",
    widget=Points,
)
