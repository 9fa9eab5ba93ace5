"""Another day: the plan as it knew then, or the ground as it was then, to look at and print."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QCheckBox, QLineEdit, QWidget

from plan_editor.commands.change_sketch import change_sketch
from plan_editor.commands.past import open_known, open_stood, read_day
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.drawing.sketch import Sketch
from plan_editor.errors import PlanEditorError
from plan_editor.storage.plan_file import PlanFile

ABOUT = (
    "What the plan knew on a day, and what stood on the ground on that day, are two questions:"
    " a stone of 1911 that was drawn this year was there in 1911, but the plan did not know it."
)
KNOWN = "What had been drawn and recorded by the end of that day, by the history of the plan."
STOOD = "What was there on that day, by the dates recorded of each thing and record."
IS_ANOTHER = (
    "This window shows another day and can only be read. Print as usual; the day stands before"
    " the name of the plan on every sheet."
)
WHY_DOUBT = (
    "No date tells whether these stood here then. A date filled in on a card of today's plan"
    " makes it known."
)

Opener = Callable[[Path, Path, str], PlanFile]


class AnotherDay(QWidget):
    """A day, and two buttons for the two questions."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self.day = QLineEdit(self)
        self.known = button(self, "The plan as it knew then", self._open_known)
        self.stood = button(self, "The ground as it was then", self._open_stood)
        self._said = text(self, "", "danger")
        self.doubtful = QCheckBox("Mark what no date tells of", self)
        self._lay_out()
        self.doubtful.toggled.connect(self._mark)
        self.day.textEdited.connect(self._said.hide)
        file = self._session.file
        self.doubtful.setChecked(file is not None and bool(file.doubtful))

    def _lay_out(self) -> None:
        self.day.setAccessibleName("Day")
        self.day.setPlaceholderText("2026-05-03, 3.5.2026, 2026-05 or 2026")
        lines = column(self, space=2 * STEP)
        file = self._session.file
        asked = (
            text(self, ABOUT, "soft"),
            self.day,
            self._said,
            self.known,
            text(self, KNOWN, "soft"),
            self.stood,
            text(self, STOOD, "soft"),
        )
        told = text(self, IS_ANOTHER, "soft"), self.doubtful, text(self, WHY_DOUBT, "soft")
        elsewhere = file is not None and bool(file.of_day)
        for part in (*asked, *told):
            lines.addWidget(part)
            part.setVisible(False)
        for shown in told if elsewhere else asked:
            shown.setVisible(shown is not self._said)
        if file is not None and not file.doubtful:
            for part in told[1:]:
                part.hide()
        lines.addStretch(1)

    def _open_known(self) -> None:
        self._open(open_known, "Looking up what the plan knew")

    def _open_stood(self) -> None:
        self._open(open_stood, "Looking up what was there")

    def _open(self, opener: Opener, title: str) -> None:
        file = self._session.file
        try:
            day = read_day(self.day.text())
        except PlanEditorError as error:
            self._say(error)
            return
        if file is not None:
            self._said.hide()
            self._desk.background.in_thread(
                Work(
                    about="another day",
                    title=title,
                    function=opener,
                    arguments=(file.path, file.working_copy, day),
                    done=self._show,
                    failed=self._say,
                    may_stop=False,
                )
            )

    def _show(self, file: PlanFile) -> None:
        self._desk.house.show(file)

    def _say(self, error: PlanEditorError) -> None:
        self._said.setText(str(error))
        self._said.show()

    def _mark(self, wanted: bool) -> None:  # noqa: FBT001  # a signal of Qt
        file, items = self._session.file, self._session.document.plan.items
        doubtful = file.doubtful if file is not None and wanted else ()
        pairs = [(items[i], None) for i in doubtful if i in items]
        self._desk.ground.show_sketch(change_sketch(pairs) if wanted else Sketch())


SECTION = Section(
    name="another_day",
    job="trace",
    title="Another day",
    order=85,
    help="The plan as it knew on a day, and the ground as it was on a day: to read and print.",
    widget=AnotherDay,
)
