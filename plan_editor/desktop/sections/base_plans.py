"""Base plans: what lies under the ground, and where it lies."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QSlider, QWidget

from plan_editor.commands.base_plans import BasePlanLine, give_opacity, give_shown, lines
from plan_editor.commands.menus import file
from plan_editor.desktop.actions import run
from plan_editor.desktop.chosen_row import ChosenRow
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.fit.form import FitForm
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import button, column, row, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId

EMPTY = "No base plan yet. Lay an old plan under the ground, then place it by points."
CHOOSE = "Choose a base plan to place it, or to set how strongly it shows."
CAUTION = (
    "What is traced is no better than the paper: it has stretched, and was drawn by somebody."
    " Check it by tape before anything is dug."
)
PLACE, AGAIN = "Place by points", "Place it again, from its points"
PERCENT = 100


class BasePlans(QWidget):
    """A list of base plans; opacity, on and off, and placing of the one that is chosen."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._empty = text(self, EMPTY, "soft")
        self.table = ItemTable("Base plans", ("Base plan", "Placed", "Misfit"), self)
        self.table.narrow(1, 2)
        self.table.setFixedHeight(36 * STEP)
        self.lay = button(self, "Lay an old plan under the ground…", self._lay)
        self.shown = QCheckBox("Shown", self)
        self.opacity = QSlider(Qt.Orientation.Horizontal, self)
        self._fitted = text(self, "", "soft")
        self.place = button(self, PLACE, self._place)
        self.geotiff = button(self, "Write it as a GeoTIFF…", self._write_geotiff, "link")
        self.world = button(self, "Write it with a world file…", self._write_world, "link")
        self.form = FitForm(desk, self)
        self._row = ChosenRow(self.table, self._session, self._say)
        self._dress()
        self._lay_out()
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    @property
    def chosen(self) -> ItemId | None:
        """The base plan that is chosen, or None."""
        return self._row.listed

    def _dress(self) -> None:
        self.shown.setAccessibleName("Shown")
        self.opacity.setAccessibleName("Opacity")
        self.opacity.setRange(5, PERCENT)
        self.opacity.setTracking(False)
        self.shown.clicked.connect(self._show)
        self.opacity.valueChanged.connect(self._fade)
        self.form.closed.connect(self._say)

    def _lay_out(self) -> None:
        down = column(self, space=2 * STEP)
        down.addWidget(self._empty)
        down.addWidget(self.table)
        self._tools = QWidget(self)
        beside = row(self._tools, space=3 * STEP)
        beside.addWidget(self.shown)
        beside.addWidget(text(self._tools, "Opacity", "soft"))
        beside.addWidget(self.opacity, 1)
        self._writing = QWidget(self)
        ways = row(self._writing, space=4 * STEP)
        ways.addWidget(self.geotiff)
        ways.addWidget(self.world)
        ways.addStretch(1)
        for part in (self._tools, self._fitted, self.place, self._writing, self.form, self.lay):
            down.addWidget(part)
        down.addWidget(text(self, CAUTION, "caution"))

    def _refresh(self) -> None:
        told = lines(self._session.document.plan)
        cells = {b.item: (b.name, "yes" if b.placed else "not yet", b.misfit) for b in told}
        self._row.show_items(tuple(cells), cells.__getitem__)
        self._say()

    def _say(self) -> None:
        item = self.chosen
        ready = item is not None and self._session.may_edit
        self._empty.setText(CHOOSE if self.table.table.items else EMPTY)
        self._empty.setVisible(item is None)
        self.lay.setEnabled(self._session.may_edit)
        if item != self.form.item:
            self.form.leave()
        for part in (self.table, self.lay):
            part.setVisible(self.form.isHidden())
        self._tools.setVisible(ready and self.form.isHidden())
        self.place.setVisible(ready and self.form.isHidden())
        self._show_values(item)

    def _line(self, item: ItemId | None) -> BasePlanLine | None:
        return next((b for b in lines(self._session.document.plan) if b.item == item), None)

    def _show_values(self, item: ItemId | None) -> None:
        line = self._line(item)
        idle = self.form.isHidden()
        self._fitted.setText("" if line is None else line.fitted)
        self._fitted.setVisible(idle and bool(self._fitted.text()))
        self._writing.setVisible(idle and line is not None and line.placed and line.is_scan)
        if line is None:
            return
        self.place.setText(AGAIN if line.fitted else PLACE)
        self.shown.setChecked(line.shown)
        blocked = self.opacity.blockSignals(True)  # Qt's own setter
        self.opacity.setValue(round(line.opacity * PERCENT))
        self.opacity.blockSignals(blocked)

    def _lay(self) -> None:
        command = next(c for _, c in file.MENU.all_commands() if c.name == "lay")
        run(command, self._session, self._desk.ask)

    def _show(self, shown: bool) -> None:  # noqa: FBT001  # a signal of Qt
        if (item := self.chosen) is not None:
            self._session.try_apply(give_shown(self._session.document.plan, item, shown=shown))

    def _fade(self, percent: int) -> None:
        if (item := self.chosen) is not None:
            plan = self._session.document.plan
            self._session.try_apply(give_opacity(plan, item, percent / PERCENT))

    def _place(self) -> None:
        if (item := self.chosen) is not None:
            self.form.begin(item)
            self._say()

    def _write_geotiff(self) -> None:
        if (line := self._line(self.chosen)) is not None:
            self._desk.making.write_geotiff(line.item, line.name)

    def _write_world(self) -> None:
        if (line := self._line(self.chosen)) is not None:
            self._desk.making.write_with_world_file(line.item, line.name)


SECTION = Section(
    name="base_plans",
    title="Base plans",
    order=10,
    help="Lay old plans and drawings under the ground, and place them.",
    widget=BasePlans,
)
