"""What was done: the log of the plan, what each entry changed, and taking one back."""

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QCheckBox, QLineEdit, QWidget

from plan_editor.commands.change_sketch import change_sketch, place_of
from plan_editor.commands.history import (
    TAKEN_BACK_ALREADY,
    Log,
    found,
    line_words,
    longer,
    made_words,
    numbers_of,
    read_made,
    take_back,
)
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.log_table import LogTable
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.edits.reverting import TakeBack
from plan_editor.plan.document import Entry
from plan_editor.plan.item import ItemId

EMPTY = "Nothing was done yet. Every step will be listed here, and can be taken back."
ANOTHER = "This window shows another day. What was done stands in the window of today's plan."
NOTHING = "No entry holds these words."
OTHER_GRID = "The plan lay in another grid then, so it is not shown on the ground."
HEIGHT = 48 * STEP


class History(QWidget):
    """The list, found by words or by the thing chosen; what the entry in hand changed."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._log = Log()
        self._number: int | None = None
        self._only: tuple[ItemId, tuple[int, ...]] | None = None
        self._box: tuple[float, float, float, float] | None = None
        self._looking = False
        self.words = QLineEdit(self)
        self.of_chosen = QCheckBox("Only what concerns the thing chosen", self)
        self._empty = text(self, EMPTY, "soft")
        self.table = LogTable(self)
        self._title = text(self, "", "strong")
        self._about = text(self, "", "soft")
        self.back = button(self, "Take it back", self._take_back)
        self.show_place = button(self, "Show the place", self._look)
        self._buttons = side_by_side(self, self.back, self.show_place)
        self._made = text(self, "")
        self._lay_out()
        self.words.textChanged.connect(self._list)
        self.of_chosen.toggled.connect(self._concerning)
        self.table.picked.connect(self._pick)
        self._follow = Follow(self, self._refresh, self._session.document.changed)
        until_gone(self, self._session.chosen_changed.connect(self._chosen_changed))

    def _lay_out(self) -> None:
        self.words.setAccessibleName("Find in what was done")
        self.words.setPlaceholderText("a word, a name, a day: grave 3 May 2026")
        self.words.setClearButtonEnabled(True)
        self.table.setFixedHeight(HEIGHT)
        lines = column(self, space=2 * STEP)
        for part in (self.words, self.of_chosen, self._empty, self.table):
            lines.addWidget(part)
        self._in_hand: tuple[QWidget, ...] = (
            self._title,
            self._about,
            self._buttons,
            self._made,
        )
        for shown in self._in_hand:
            lines.addWidget(shown)
        lines.addStretch(1)
        self._show_none()
        self._chosen_changed(self._session.chosen)
        if self._is_of_another_day():
            for other in (self.words, self.of_chosen, self.table):
                other.hide()
            self._empty.setText(ANOTHER)

    def _is_of_another_day(self) -> bool:
        file = self._session.file
        return file is not None and bool(file.of_day)

    # the list

    def _refresh(self) -> None:
        file = self._session.file
        if file is not None and not self._is_of_another_day():
            self._do("history", longer, (file.working_copy, self._log), self._take_in)

    def _take_in(self, log: Log) -> None:
        self._log = log
        if self._only is not None:
            self._concerning()  # there may be more of it now
        self._list()
        if self._number is not None:
            self._read(self._number)  # it may have been taken back

    def _list(self) -> None:
        only = self._only[1] if self._only is not None else None
        lines = found(self._log, self.words.text(), only)
        self.table.show_lines(self._log, lines, self._number)
        self._empty.setText(NOTHING if self._log.lines else EMPTY)
        self._empty.setVisible(not lines)
        if self._number not in {one.number for one in lines}:
            self._show_none()

    def _chosen_changed(self, chosen: tuple[ItemId, ...]) -> None:
        self.of_chosen.setEnabled(len(chosen) == 1 or self.of_chosen.isChecked())
        if self.of_chosen.isChecked() and len(chosen) == 1:
            self._concerning()

    def _concerning(self, checked: object = None) -> None:
        del checked
        file, chosen = self._session.file, self._session.chosen
        if not self.of_chosen.isChecked():
            self._only = None
            self._chosen_changed(chosen)
            self._list()
            return
        # a thing that was removed is chosen no longer, but its history goes on
        last = (self._only[0],) if self._only is not None else ()
        item = next(iter(chosen if len(chosen) == 1 else last), None)
        if file is not None and item is not None:
            self._do(
                "history of one thing",
                numbers_of,
                (file.working_copy, item),
                lambda numbers: self._list_only(item, numbers),
            )

    def _list_only(self, item: ItemId, numbers: tuple[int, ...]) -> None:
        if self.of_chosen.isChecked():
            self._only = item, numbers
            self._list()

    # the entry in hand

    def _pick(self, number: int) -> None:
        self._number = number
        self._looking = True
        self._read(number)

    def _read(self, number: int) -> None:
        only = self._only[0] if self._only is not None else None
        if (file := self._session.file) is not None:
            self._do("entry", read_made, (file.working_copy, number, only), self._show_made)

    def _show_made(self, entry: Entry) -> None:
        one = self._log.line(entry.number)
        if one is None or entry.number != self._number:
            return
        plan = self._session.document.plan
        here = entry.grid == entry.grid_before == plan.grid
        pairs = [(c.before, c.after) for c in entry.changes] if here else []
        self._desk.ground.show_sketch(change_sketch(pairs))
        self._box = place_of(pairs)
        self._title.setText(self._log.told(one))
        self._about.setText(line_words(self._log, one))
        said = "\n".join(made_words(entry, plan))
        self._made.setText(said if here else f"{OTHER_GRID}\n{said}")
        for part in self._in_hand:
            part.show()
        self.show_place.setVisible(self._box is not None)
        undone = entry.number in self._log.taken_back
        self.back.setEnabled(self._session.may_edit and not undone)
        if self._looking:  # only when it is picked: nobody is led away while he works
            self._looking = False
            self._look()

    def _show_none(self) -> None:
        self._number = self._box = None
        self._desk.ground.show_sketch(None)
        for part in self._in_hand:
            part.hide()

    def _look(self) -> None:
        if self._box is not None:
            self._desk.ground.look_at(self._box)

    def _take_back(self) -> None:
        if (file := self._session.file) is not None and self._number is not None:
            self._do(
                "taking back", take_back, (file.working_copy, self._number), self._make_back
            )

    def _make_back(self, edit: TakeBack) -> None:
        self._session.cancel()
        before = self._session.document.plan
        if self._session.try_apply(edit) and self._session.document.plan is before:
            self._desk.ask.tell(TAKEN_BACK_ALREADY)

    def _do(
        self,
        about: str,
        function: Callable[..., Any],
        arguments: tuple[Any, ...],
        done: Callable[[Any], None],
    ) -> None:
        self._desk.background.in_thread(
            Work(
                about=about,
                title="",
                function=function,
                arguments=arguments,
                done=done,
                failed=self._desk.say_why,
            )
        )


SECTION = Section(
    name="history",
    job="trace",
    title="What was done",
    order=80,
    help="Every step since the plan was begun: who, when and what. Any one can be taken back.",
    widget=History,
)
