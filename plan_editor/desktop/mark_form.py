"""The form in which a mark is added by hand, or is given other coordinates."""

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from plan_editor.commands.forms import ON
from plan_editor.commands.marks import (
    EAST,
    NORTH,
    OF_MARK,
    OF_PLACE,
    WHERE,
    add_mark,
    asked,
    left_behind,
    place_mark,
)
from plan_editor.commands.placing import Pick, picking, read_place
from plan_editor.desktop.card.field_row import FieldRow, read_rows
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.form_end import FormEnd
from plan_editor.desktop.parts import column, text
from plan_editor.desktop.theme import STEP
from plan_editor.drafting.tool import Answer
from plan_editor.edits.chosen import called_on
from plan_editor.edits.marks import AddMark
from plan_editor.errors import PlanEditorError
from plan_editor.ground.marks import next_number
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId, Method

NEW = "New mark"


class MarkForm(QWidget):
    """``closed`` when it is done or given up, with what is to be said of it then."""

    closed = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = desk.session
        self.item: ItemId | None = None
        self._picked: tuple[str, str] = ("", "")
        self._title = text(self, NEW, "strong")
        first, *others = asked(OF_MARK)
        details = (first, EAST, NORTH, *others, *asked(OF_PLACE))
        self.rows = {d.name: FieldRow(d, self) for d in details}
        self.foot = FormEnd(self, "Add it", self._do, self.leave)
        self.done, self.cancel = self.foot.do, self.foot.cancel
        self._lay_out()
        until_gone(self, self._session.answered.connect(self._answered))
        self.hide()

    def begin(self, item: ItemId | None) -> None:
        """Ask for a new mark, or for other coordinates of one."""
        self.item = item
        plan = self._session.document.plan
        self._title.setText(
            NEW if item is None else f"Other coordinates for {called_on(plan, (item,))}"
        )
        self.done.setText("Add it" if item is None else "Place it there")
        usual = {"number": next_number(plan), "permanent": ON, "method": Method.UNKNOWN.value}
        for name, field in self.rows.items():
            field.setVisible(item is None or name not in OF_MARK)
            field.show_text(usual.get(name, ""))
        self._picked = ("", "")
        self.foot.say("")
        self.show()
        self._session.take_up(picking(WHERE))
        self.rows["east"].editor.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Give up what was begun."""
        if not self.isHidden():
            self._end("")

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        for part in (self._title, *self.rows.values(), self.foot):
            lines.addWidget(part)

    def _answered(self, answer: Answer) -> None:
        if self.isHidden():
            return
        if not isinstance(answer.tool, Pick) or answer.tool.prompt != WHERE:
            self._end("", put_down=False)  # another tool was taken in hand
        elif answer.tool.picked is not None:
            self._take(*answer.tool.picked)

    def _take(self, east: float, north: float) -> None:
        e, n = self._session.document.plan.grid.to_crs(east, north)
        self._picked = (f"{e:.3f}", f"{n:.3f}")
        for name, words in zip(("east", "north"), self._picked, strict=True):
            self.rows[name].show_text(words)
        self._session.take_up(picking(WHERE))  # a better place may be clicked

    def _do(self) -> None:
        try:
            edit = self._edit()
            if edit is None:
                return
            self._session.apply(edit)
        except PlanEditorError as error:
            self.foot.say(str(error))
            return
        plan = self._session.document.plan
        self._end("" if self.item is None else left_behind(plan, self.item))
        if isinstance(edit, AddMark):
            self._session.choose((edit.id,))

    def _edit(self) -> Edit | None:
        """Return the edit that is asked for; None where a field says what is amiss."""
        plan = self._session.document.plan
        typed = (self.rows["east"].text, self.rows["north"].text)
        place = read_place(plan.grid, *typed)
        values = self._values()
        if values is None:
            return None
        clicked = typed == self._picked
        if self.item is None:
            return add_mark(plan, place, values, clicked=clicked)
        return place_mark(plan, self.item, place, values, clicked=clicked)

    def _values(self) -> dict[str, Any] | None:
        rows = {name: self.rows[name] for name in (*OF_MARK, *OF_PLACE)}
        return read_rows(rows, self._session.document)

    def _end(self, said: str, *, put_down: bool = True) -> None:
        self.hide()
        if put_down:
            self._session.put_down()
        self.closed.emit(said)
