"""A new plan: its name, its coordinate system, where its origin lies."""

from dataclasses import dataclass

from PySide6.QtWidgets import QDialog, QLineEdit, QWidget

from plan_editor.commands.placing import read_coordinate
from plan_editor.desktop.parts import Choice, button, column, row, text
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.survey.grids.crs import checked
from plan_editor.survey.grids.grid import LOCAL, Grid

LOCAL_GRID = "Local grid: tied to nothing but the ground"
NATIONAL = "EPSG:27700  British National Grid"
HELP = (
    "Take the local grid where no coordinates are known: a plan can be measured and printed all"
    " the same. Otherwise give the number of the system in the EPSG register, and the whole"
    " metres of a point near the church as origin."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What was asked for."""

    name: str
    grid: Grid


class NewPlanDialog(QDialog):
    """``wanted`` is what was asked for, once it was accepted."""

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.wanted: Wanted | None = None
        self.setWindowTitle("New plan")
        self.setMinimumWidth(120 * STEP)
        self.name = self._field("Name of the ground", "St Elfric, Harrowmere")
        self.crs = Choice(self)
        self.crs.setEditable(True)
        self.crs.addItems([LOCAL_GRID, NATIONAL])
        self.crs.setAccessibleName("Coordinate system")
        self.east = self._field("Easting of the origin", "0")
        self.north = self._field("Northing of the origin", "0")
        self._sentence = text(self, "", "danger")
        self._lay_out()

    def _field(self, name: str, example: str) -> QLineEdit:
        made = QLineEdit(self)
        made.setAccessibleName(name)
        made.setPlaceholderText(example)
        return made

    def _lay_out(self) -> None:
        lines = column(self, space=STEP, edge=6 * STEP)
        lines.addWidget(text(self, "New plan", "heading"))
        for field in (self.name, self.crs, self.east, self.north):
            label = text(self, field.accessibleName(), "soft")
            label.setBuddy(field)
            lines.addSpacing(STEP)
            lines.addWidget(label)
            lines.addWidget(field)
        lines.addSpacing(STEP)
        lines.addWidget(text(self, HELP, "soft"))
        lines.addWidget(self._sentence)
        ends = QWidget(self)
        across = row(ends)
        self.make = button(ends, "Choose where to keep it…", self._accept, "main")
        self.make.setDefault(True)
        across.addWidget(self.make)
        across.addWidget(button(ends, "Cancel", self.reject))
        across.addStretch(1)
        lines.addSpacing(2 * STEP)
        lines.addWidget(ends)

    def _accept(self) -> None:
        try:
            self.wanted = self._read()
        except PlanEditorError as error:
            self._sentence.setText(str(error))
            return
        self.accept()

    def _read(self) -> Wanted:
        words = self.crs.currentText()
        crs = LOCAL if words == LOCAL_GRID else checked(words.split("  ")[0])
        east = read_coordinate(self.east.text() or "0", "easting")
        north = read_coordinate(self.north.text() or "0", "northing")
        return Wanted(name=self.name.text().strip(), grid=Grid(crs=crs, east=east, north=north))
