"""The form in which an inspection of one stone is recorded."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.commands.forms import read, shown
from plan_editor.commands.safety import inspection_details, record_inspection
from plan_editor.desktop.card.field_row import FieldRow
from plan_editor.desktop.parts import button, column, side_by_side, text
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.plan.item import ItemId
from plan_editor.session import Session


class InspectionForm(QWidget):
    """Date, test, result, action; one edit when it is recorded. ``closed`` when it is done."""

    closed = Signal()

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self.stone: ItemId | None = None
        self._title = text(self, "", "strong")
        self.rows = {d.name: FieldRow(d, self) for d in inspection_details()}
        self._sentence = text(self, "", "danger")
        self.record = button(self, "Record", self._record, "main")
        self.cancel = button(self, "Cancel", self._close)
        self._lay_out()

    def begin(self, stone: ItemId, today: str) -> None:
        """Show the form, empty, for a stone."""
        self.stone = stone
        document = self._session.document
        self._title.setText(f"Inspection of {document.plan.items[stone].called()}")
        for name, field in self.rows.items():
            usual = (
                today if name == "date" else shown(field.detail, field.detail.default, document)
            )
            field.show_text(usual)
        self._say("")
        self.show()
        self.rows["result"].editor.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        lines.addWidget(self._title)
        for field in self.rows.values():
            lines.addWidget(field)
        lines.addWidget(self._sentence)
        across = side_by_side(self, self.record, self.cancel)
        lines.addWidget(across)

    def _record(self) -> None:
        document = self._session.document
        if self.stone is None:
            return
        values = {}
        for name, field in self.rows.items():
            try:
                values[name] = read(field.detail, field.text, document)
            except PlanEditorError as error:
                field.say(str(error))
                return
            field.say("")
        try:
            self._session.apply(record_inspection(document, self.stone, values))
        except PlanEditorError as error:
            self._say(str(error))
            return
        self._close()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._close()
        else:
            super().keyPressEvent(event)

    def _close(self) -> None:
        self.closed.emit()

    def _say(self, sentence: str) -> None:
        self._sentence.setText(sentence)
        self._sentence.setVisible(bool(sentence))
