"""The form in which an inspection of one thing is recorded."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QWidget

from plan_editor.commands.forms import shown
from plan_editor.commands.safety import (
    FAILED,
    cordon_of,
    inspection_details,
    is_unsafe,
    looked_at_by,
    record_inspection,
)
from plan_editor.desktop.card.field_row import FieldRow, read_rows
from plan_editor.desktop.form_end import FormEnd
from plan_editor.desktop.parts import column, text
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.plan.item import ItemId
from plan_editor.session import Session

TAKEN_AWAY = "Its cordon was taken away"


class InspectionForm(QWidget):
    """Date, test, result, action; one edit when it is recorded. ``closed`` when it is done."""

    closed = Signal()

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self.stone: ItemId | None = None
        self._title = text(self, "", "strong")
        self._method = text(self, "", "soft")
        self.rows = {d.name: FieldRow(d, self) for d in inspection_details()}
        self.taken_away = QCheckBox(TAKEN_AWAY, self)
        self.foot = FormEnd(self, "Record", self._record, self.closed.emit)
        self.record, self.cancel = self.foot.do, self.foot.cancel
        self._lay_out()

    def begin(self, stone: ItemId, today: str, result: str = "") -> None:
        """Show the form for a thing, empty but for the day and perhaps the result."""
        self.stone = stone
        document = self._session.document
        plan = document.plan
        self._title.setText(f"Inspection of {plan.items[stone].called()}")
        self._method.setText(looked_at_by(plan, stone))
        for name, field in self.rows.items():
            usual = shown(field.detail, field.detail.default, document)
            field.show_text({"date": today, "result": result}.get(name) or usual)
        self.taken_away.setChecked(False)
        fenced = cordon_of(plan, stone) is not None
        self.taken_away.setVisible(fenced and is_unsafe(plan, stone))
        self.foot.say("")
        self.show()
        begin = {"": self.rows["result"].editor, FAILED: self.record}
        first = begin.get(result, self.rows["inspector"].editor)
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        lines.addWidget(self._title)
        lines.addWidget(self._method)
        for field in self.rows.values():
            lines.addWidget(field)
        self.taken_away.setToolTip("When it was made safe: the cordon leaves the plan.")
        lines.addWidget(self.taken_away)
        lines.addWidget(self.foot)

    def _record(self) -> None:
        document = self._session.document
        if self.stone is None:
            return
        values = read_rows(self.rows, document)
        if values is None:
            return
        gone = self.taken_away.isChecked() and not self.taken_away.isHidden()
        cordon = cordon_of(document.plan, self.stone) if gone else None
        try:
            edit = record_inspection(document, self.stone, values, cordon=cordon)
            self._session.apply(edit)
        except PlanEditorError as error:
            self.foot.say(str(error))
            return
        self.closed.emit()
