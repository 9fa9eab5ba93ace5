"""The row of graves in hand: what it is, and what can be done with it as a whole."""

from collections.abc import Callable

from PySide6.QtWidgets import (
    QCheckBox,
    QLineEdit,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from plan_editor.commands.forms import capital
from plan_editor.commands.rows import (
    NO_ROW,
    Numbering,
    carry_on,
    copy_row,
    even_out,
    first_number,
    first_of_copy,
    new_numbers,
    number_anew,
    put_in_line,
    row_in_hand,
    told,
    turn_to_row,
)
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.parts import Choice, button, column, rule, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.edits.numbering import Gaps
from plan_editor.errors import PlanEditorError
from plan_editor.ground.rows import Row

HIGH = 40 * STEP

ONLY_READ = "This plan can only be read here: no row is numbered, set right or copied."


class Rows(QWidget):
    """Figures of the row, buttons that set it right, and three small forms."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self.row: Row | None = None
        self._empty = text(self, NO_ROW, "soft")
        self._inside = QWidget(self)
        self._figures = Figures("The row", self._inside)
        self._said = text(self._inside, "", "danger")
        self.first = self._field("First number")
        self.step = self._field("Counts up by")
        self.gaps = Choice(self._inside)
        self.from_end = QCheckBox("From the end of the row", self._inside)
        self.preview = QTableWidget(0, 2, self._inside)
        self.number = button(self._inside, "Number it so", self._number, "main")
        self.aside = self._field("To the right")
        self.along = self._field("Along it")
        self.copied = self._field("First number of the copy")
        self.copy = button(self._inside, "Copy the row", self._copy)
        self.count = self._field("How many more")
        self.at_start = QCheckBox("Before its start", self._inside)
        self.more = button(self._inside, "Carry the row on", self._more)
        self._dress()
        self._lay_out()
        self._listen()
        until_gone(self, self._session.chosen_changed.connect(self._chosen))
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    def _field(self, name: str) -> QLineEdit:
        made = QLineEdit(self._inside)
        made.setAccessibleName(name)
        return made

    def _dress(self) -> None:
        for gaps in Gaps:
            self.gaps.addItem(capital(gaps.value), gaps)
        self.gaps.setAccessibleName("Gaps in the numbers")
        self.preview.setHorizontalHeaderLabels(("now", "then"))
        self.preview.setAccessibleName("Numbers now and then")
        self.preview.verticalHeader().hide()
        self.preview.horizontalHeader().setStretchLastSection(True)
        self.preview.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        self.preview.setTabKeyNavigation(False)
        self.preview.setFixedHeight(HIGH)
        self.step.setText("1")
        self.aside.setPlaceholderText("2.75, or -9' for to the left")
        self.along.setPlaceholderText("0")
        self.count.setPlaceholderText("3")

    def _lay_out(self) -> None:
        lines = column(self._inside, space=2 * STEP)
        lines.addWidget(self._figures)
        lines.addWidget(self._said)
        lines.addWidget(
            side_by_side(
                self._inside,
                button(self._inside, "Space evenly", self._even),
                button(self._inside, "Put in line", self._line),
                button(self._inside, "Turn to it", self._turn),
            )
        )
        self._add(lines, "Number it anew", (self.first, self.step, self.gaps))
        for part in (self.from_end, self.preview, self.number):
            lines.addWidget(part)
        self._add(lines, "Copy it", (self.aside, self.along, self.copied))
        lines.addWidget(self.copy)
        self._add(lines, "Carry it on", (self.count,))
        lines.addWidget(self.at_start)
        lines.addWidget(self.more)
        over_all = column(self, space=2 * STEP)
        over_all.addWidget(self._empty)
        over_all.addWidget(self._inside)

    def _add(self, lines: QVBoxLayout, title: str, fields: tuple[QWidget, ...]) -> None:
        lines.addSpacing(STEP)
        lines.addWidget(rule(self._inside))
        lines.addWidget(text(self._inside, title, "strong"))
        for field in fields:
            label = text(self._inside, field.accessibleName(), "soft")
            label.setBuddy(field)
            lines.addWidget(label)
            lines.addWidget(field)

    def _listen(self) -> None:
        for field in (self.first, self.step):
            field.textChanged.connect(self._show_numbers)
        self.gaps.currentIndexChanged.connect(self._show_numbers)
        self.from_end.toggled.connect(self._show_numbers)
        for field, do in (
            (self.first, self._number),
            (self.step, self._number),
            (self.aside, self._copy),
            (self.along, self._copy),
            (self.copied, self._copy),
            (self.count, self._more),
        ):
            field.returnPressed.connect(do)

    def _chosen(self, chosen: object) -> None:
        del chosen
        # what nobody sees is not worked out: all graves are looked through for the row of one
        if self.isVisibleTo(self.window()):
            self._follow.now()
        else:
            self._follow.later()

    def _refresh(self) -> None:
        before = self.row.ids if self.row is not None else ()
        self.row = row_in_hand(self._session) if self._session.may_edit else None
        self._empty.setText(NO_ROW if self._session.may_edit else ONLY_READ)
        self._empty.setVisible(self.row is None)
        self._inside.setVisible(self.row is not None)
        if self.row is None:
            return
        plan = self._session.document.plan
        self._figures.show_rows(told(plan, self.row))
        if self.row.ids != before:
            self._say("")
            self.first.setText(first_number(plan, self.row))
        if self.row.ids != before or not self.copied.isModified():
            self.copied.setText(first_of_copy(plan, self.row))
        self._show_numbers()

    def _wish(self) -> Numbering:
        return Numbering(
            first=self.first.text(),
            step=self.step.text(),
            gaps=self.gaps.currentData(),
            from_end=self.from_end.isChecked(),
        )

    def _show_numbers(self) -> None:
        if self.row is None:
            return
        try:
            lines = new_numbers(self._session.document.plan, self.row, self._wish())
        except PlanEditorError as error:
            lines = ()
            self._say(str(error) if self.first.text() else "")
        else:
            self._say("")
        self.preview.setRowCount(len(lines))
        for place, (_, now, then) in enumerate(lines):
            self.preview.setItem(place, 0, QTableWidgetItem(now or "–"))
            self.preview.setItem(place, 1, QTableWidgetItem(then))
        self.number.setEnabled(any(now != then for _, now, then in lines))

    def _number(self) -> None:
        if self.row is not None and self.number.isEnabled():
            self._try(lambda row: number_anew(self._session, row, self._wish()))

    def _copy(self) -> None:
        self.copied.setModified(False)  # what is offered next follows the plan again
        self._try(
            lambda row: copy_row(
                self._session,
                row,
                aside=self.aside.text(),
                along=self.along.text(),
                first=self.copied.text(),
            )
        )

    def _more(self) -> None:
        self._try(
            lambda row: carry_on(
                self._session,
                row,
                count=self.count.text(),
                at_end=not self.at_start.isChecked(),
            )
        )

    def _even(self) -> None:
        self._try(lambda _: even_out(self._session, self._desk.ask))

    def _line(self) -> None:
        self._try(lambda _: put_in_line(self._session, self._desk.ask))

    def _turn(self) -> None:
        self._try(lambda _: turn_to_row(self._session, self._desk.ask))

    def _try(self, do: Callable[[Row], None]) -> None:
        if self.row is None:
            return
        try:
            do(self.row)
        except PlanEditorError as error:
            self._say(str(error))
        else:
            self._say("")

    def _say(self, words: str) -> None:
        self._said.setText(words)
        self._said.setVisible(bool(words))


SECTION = Section(
    name="rows",
    job="trace",
    title="Rows",
    order=20,
    help="The row in which what is chosen stands: space it, line it up, number it, copy it.",
    widget=Rows,
)
