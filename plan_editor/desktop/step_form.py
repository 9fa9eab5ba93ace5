"""A short form in a section: a few fields, one edit when it is recorded."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from plan_editor.commands.forms import may_refer_to, shown
from plan_editor.desktop.card.field_row import FieldRow, read_rows
from plan_editor.desktop.form_end import FormEnd
from plan_editor.desktop.parts import column, text
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.plan.detail import Detail
from plan_editor.plan.edit import Edit
from plan_editor.session import Session

Made = Callable[[dict[str, Any]], Edit]
"""Make the edit from the values of the fields, by their names.

Raises:
    PlanEditorError: it cannot be made; the text says what is missing.
"""


class StepForm(QWidget):
    """Fields, *Record* and *Cancel*. ``closed`` tells when it is done."""

    closed = Signal()

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._made: Made | None = None
        self.rows: dict[str, FieldRow] = {}
        self._title = text(self, "", "strong")
        self._note = text(self, "", "soft")
        self._fields = QWidget(self)
        self._lines = column(self._fields, space=2 * STEP)
        self.foot = FormEnd(self, "Record", self._record, self._close)
        self.record, self.cancel = self.foot.do, self.foot.cancel
        self._lay_out()
        self.hide()

    def begin(
        self,
        title: str,
        fields: tuple[Detail, ...],
        usual: dict[str, Any],
        made: Made,
        note: str = "",
    ) -> None:
        """Show the form.

        Args:
            title: what is recorded, and of what.
            fields: what is asked.
            usual: what the fields hold at first, by their names.
            made: makes the edit.
            note: what is to be known before.
        """
        self._made = made
        self._title.setText(title)
        self._note.setText(note)
        self._note.setVisible(bool(note))
        self._put(fields, usual)
        self.foot.say("")
        self.show()
        first = next(iter(self.rows.values()))
        first.editor.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        for part in (self._title, self._note, self._fields, self.foot):
            lines.addWidget(part)

    def _put(self, fields: tuple[Detail, ...], usual: dict[str, Any]) -> None:
        for row in self.rows.values():
            row.hide()
            row.deleteLater()
        document = self._session.document
        self.rows = {}
        for detail in fields:
            row = FieldRow(detail, self._fields, self._offering(detail))
            row.show_text(shown(detail, usual.get(detail.name, detail.default), document))
            self._lines.addWidget(row)
            self.rows[detail.name] = row

    def _offering(self, detail: Detail) -> Callable[[], list[str]] | None:
        if not detail.about.refers_to:
            return None
        return lambda: [i.named() for i in may_refer_to(detail, self._session.document)]

    def _record(self) -> None:
        if self._made is None:
            return
        values = read_rows(self.rows, self._session.document)
        if values is None:
            return
        try:
            self._session.apply(self._made(values))
        except PlanEditorError as error:
            self.foot.say(str(error))
            return
        self._close()

    def _close(self) -> None:
        self.hide()
        self.closed.emit()

    @property
    def sentence(self) -> str:
        """What is said under the fields; empty where it is well."""
        return self.foot.sentence
