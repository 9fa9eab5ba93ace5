"""Two fields for a place that is typed, and a list of marks that fills them in."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from plan_editor.commands.marks import MarkLine
from plan_editor.commands.placing import read_coordinate, read_place
from plan_editor.desktop.parts import Choice, button, column, row
from plan_editor.desktop.theme import STEP
from plan_editor.survey.grids.grid import Grid

NO_MARK = "Choose a mark…"
PIXELS, UNITS = ("Pixels right", "Pixels down"), ("x", "y")
GROUND = ("Easting", "Northing")


class PlaceFields(QWidget):
    """``given`` tells that what stands in the fields is to be taken."""

    given = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._marks: tuple[MarkLine, ...] = ()
        self.mark: MarkLine | None = None
        self.marks = Choice(self)
        self.marks.setAccessibleName("Mark")
        self.marks.activated.connect(self._fill)
        inner = QWidget(self)
        across = row(inner)
        self.first, self.second = QLineEdit(inner), QLineEdit(inner)
        self.take = button(inner, "Take", self.given.emit)
        for part in (self.first, self.second, self.take):
            across.addWidget(part)
        for field in (self.first, self.second):
            field.returnPressed.connect(self.given)
            field.textEdited.connect(self._forget)
        lines = column(self, space=2 * STEP)
        lines.addWidget(self.marks)
        lines.addWidget(inner)

    def ask_paper(self, *, upward: bool) -> None:
        """Ask for a place on the base plan: units of a drawing if upward, or pixels."""
        self._name(UNITS if upward else PIXELS)
        self.marks.hide()

    def ask_ground(self, marks: tuple[MarkLine, ...]) -> None:
        """Ask for a place on the ground; the marks are those that can be chosen."""
        self._name(GROUND)
        self._marks = tuple(m for m in marks if m.east is not None)
        self.marks.clear()
        self.marks.addItem(NO_MARK)
        for mark in self._marks:
            self.marks.addItem(f"{mark.number}  {mark.description}".strip())
        self.marks.setVisible(bool(self._marks))
        self.first.setFocus(Qt.FocusReason.OtherFocusReason)

    def paper(self) -> tuple[float, float]:
        """Return what is typed, as a place on the base plan.

        Raises:
            CannotUse: it is no number.
        """
        return (
            read_coordinate(self.first.text(), self.first.accessibleName().lower()),
            read_coordinate(self.second.text(), self.second.accessibleName().lower()),
        )

    def ground(self, grid: Grid) -> tuple[float, float]:
        """Return what is typed, as metres about the plan's origin.

        Raises:
            CannotUse: it is no number.
        """
        return read_place(grid, self.first.text(), self.second.text())

    def clear(self) -> None:
        """Let nothing stand in the fields."""
        self.first.clear()
        self.second.clear()
        self.mark = None

    def _name(self, names: tuple[str, str]) -> None:
        self.clear()
        for field, name in zip((self.first, self.second), names, strict=True):
            field.setPlaceholderText(name)
            field.setAccessibleName(name)

    def _fill(self, index: int) -> None:
        self.clear()
        if index > 0:
            self.mark = self._marks[index - 1]
            self.first.setText(f"{self.mark.east:.3f}")
            self.second.setText(f"{self.mark.north:.3f}")

    def _forget(self) -> None:
        self.mark = None
        self.marks.setCurrentIndex(0)
