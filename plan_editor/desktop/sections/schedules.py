"""Schedules: one to choose, its table, and files of it."""

from functools import partial

from PySide6.QtWidgets import QCheckBox, QHeaderView, QWidget

from plan_editor.commands.month import box_to_show
from plan_editor.commands.schedules import SUFFIXES, schedule_of
from plan_editor.commands.size import thousands
from plan_editor.commands.today import today
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import Choice, button, column, letters, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.plan.item import ItemId
from plan_editor.records.schedule import Asked, Made, Schedule, schedules

HEIGHT = 60 * STEP
WIDEST = 26
"""Letters of a column; what is longer is told when the pointer rests on it."""

NOTHING = "There is nothing to tell."
TITLES = {".pdf": "PDF…", ".xlsx": "Workbook…", ".csv": "CSV…"}


class Schedules(QWidget):
    """A schedule to choose, its lines, which lead to their things, and files to write."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._made: Made | None = None
        self.which = Choice(self)
        self._purpose = text(self, "", "soft")
        self.contacts = QCheckBox("With the names of living people", self)
        self.table = ItemTable("Lines of the schedule", (), self)
        self._count = text(self, "", "strong")
        self._note = text(self, "", "caution")
        self.write = tuple(button(self, TITLES[s], partial(self._write, s)) for s in SUFFIXES)
        self._lay_out()
        self.which.currentIndexChanged.connect(self._turn)
        self.contacts.toggled.connect(self._turn)
        self.table.picked.connect(self._pick)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    @property
    def schedule(self) -> Schedule:
        """The schedule that is chosen."""
        return schedules()[max(self.which.currentIndex(), 0)]

    def _lay_out(self) -> None:
        for one in schedules():
            self.which.addItem(one.title, one.name)
        self.which.setAccessibleName("Which schedule")
        for made, suffix in zip(self.write, SUFFIXES, strict=True):
            made.setAccessibleName(f"Write the schedule as {suffix[1:].upper()}")
        across = self.table.horizontalHeader()
        across.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        across.setMaximumSectionSize(letters(self, WIDEST))
        self.table.setFixedHeight(HEIGHT)
        lines = column(self, space=2 * STEP)
        for part in (
            self.which,
            self._purpose,
            self.contacts,
            self._count,
            self.table,
            side_by_side(self, text(self, "Write as", "soft"), *self.write),
            self._note,
        ):
            lines.addWidget(part)

    def _turn(self, index: int = 0) -> None:
        del index
        self._follow.now()

    def _asked(self) -> Asked:
        return Asked(on=today(), contacts=self.contacts.isChecked())

    def _refresh(self) -> None:
        schedule = self.schedule
        private = schedule.private or any(h.private for h in schedule.headings)
        self.contacts.setVisible(private)
        self._purpose.setText(schedule.purpose)
        self._note.setText(schedule.note)
        self._desk.background.in_thread(
            Work(
                about="schedule",
                title="",
                function=schedule_of,
                arguments=(self._session.document.plan, schedule.name, self._asked()),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, made: Made) -> None:
        self._made = made
        self.table.table.show_heads(tuple(h.title for h in made.headings))
        rows = tuple(ItemId(str(n)) for n in range(len(made.lines)))
        self.table.show_items(rows, lambda row: made.lines[int(row)].cells, None)
        self.table.resizeColumnsToContents()
        self.table.setVisible(bool(rows))
        many = "1 line" if len(rows) == 1 else f"{thousands(len(rows))} lines"
        self._count.setText(many if rows else NOTHING)

    def _pick(self, row: str) -> None:
        item = None if self._made is None else self._made.lines[int(row)].item
        plan = self._session.document.plan
        if item is None or item not in plan.items:
            return
        self._session.choose((item,))
        if (box := box_to_show(plan, item)) is not None:
            self._desk.ground.look_at(box)

    def _write(self, suffix: str) -> None:
        self._desk.making.write_schedule(self.schedule.name, self._asked(), suffix)


SECTION = Section(
    name="schedules",
    job="records",
    title="Schedules",
    order=80,
    help="Tables of the plan to read, to print and to hand on: unsafe stones, trees, burials.",
    widget=Schedules,
)
