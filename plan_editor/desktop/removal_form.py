"""The form in which remains that were moved are recorded."""

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from plan_editor.commands.correcting import entry_among, name_of
from plan_editor.commands.forms import may_refer_to
from plan_editor.commands.moving_remains import move_remains, removal_details
from plan_editor.desktop.card.field_row import FieldRow
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.plan.item import Item, ItemId
from plan_editor.session import Session

CAUTION = (
    "Remains may be moved only by faculty, or by licence where the ground is not consecrated."
    " Ask the registry before anything is dug. The entry stays in the register."
)


class RemovalForm(QWidget):
    """A button that opens the form of the chosen entry; ``moved`` when it was recorded."""

    moved = Signal()

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._entry: Item[Any] | None = None
        self.begin = button(self, "Remains were moved…", self._begin)
        self.form = QWidget(self)
        self.title = text(self.form, "", "strong")
        self.rows = {d.name: self._row(d) for d in removal_details()}
        self.fault = text(self.form, "", "danger")
        self.record = button(self.form, "Record the removal", self._record)
        self.cancel = button(self.form, "Cancel", self._close)
        self._lay_out()
        until_gone(self, session.chosen_changed.connect(self._choose))
        self._choose(session.chosen)

    def _row(self, detail: Any) -> FieldRow:
        def offered() -> list[str]:
            return [i.named() for i in may_refer_to(detail, self._session.document)]

        return FieldRow(detail, self.form, offered)

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        lines.addWidget(side_by_side(self, self.begin))
        lines.addWidget(self.form)
        down = column(self.form, space=STEP)
        down.addWidget(self.title)
        down.addWidget(text(self.form, CAUTION, "caution"))
        for field in self.rows.values():
            down.addWidget(field)
        down.addWidget(self.fault)
        down.addWidget(side_by_side(self.form, self.record, self.cancel))

    def _choose(self, chosen: tuple[ItemId, ...]) -> None:
        self._entry = entry_among(self._session.document, chosen)
        self._close()

    def _begin(self) -> None:
        if self._entry is None:
            return
        self.title.setText(f"Remains of {name_of(self._entry)}")
        for field in self.rows.values():
            field.show_text("")
        self._say("")
        self.begin.hide()
        self.form.show()
        next(iter(self.rows.values())).editor.setFocus()

    def _close(self) -> None:
        self._say("")
        self.form.hide()
        self.begin.setVisible(self._entry is not None)
        self.begin.setEnabled(self._session.may_edit)

    def _record(self) -> None:
        if self._entry is None:
            return
        typed = {name: field.text for name, field in self.rows.items()}
        try:
            self._session.apply(move_remains(self._session.document, self._entry.id, typed))
        except PlanEditorError as error:
            self._say(str(error))
            return
        self._close()
        self.moved.emit()

    def _say(self, sentence: str) -> None:
        self.fault.setText(sentence)
        self.fault.setVisible(bool(sentence))
