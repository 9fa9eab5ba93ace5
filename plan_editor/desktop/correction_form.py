"""The form in which one column of an entry of the register is put right."""

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from plan_editor.commands.correcting import COLUMNS, correct, entry_among, name_of, reads_now
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import Choice, button, column, text
from plan_editor.desktop.theme import STEP
from plan_editor.edits.corrections import Reason
from plan_editor.errors import PlanEditorError
from plan_editor.plan.item import Item, ItemId
from plan_editor.session import Session

NONE = "Choose an entry in the list of all entries, or on a grave's card, to correct it."
ABOUT = "What the entry says now is kept as a correction, with the day and the reason."


class CorrectionForm(QWidget):
    """Column, old reading, new reading, by whom and why; ``corrected`` when it was made."""

    corrected = Signal()

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._entry: Item[Any] | None = None
        self.title = text(self, "", "strong")
        self.form = QWidget(self)
        self.column = Choice(self.form)
        self.old = text(self.form, "", "soft")
        self.new = self._field("New reading")
        self.by = self._field("Corrected by")
        self.why = self._field("Why")
        self.fault = text(self.form, "", "danger")
        self.correct = button(self.form, "Correct the entry", self._correct)
        self._lay_out()
        self.column.currentIndexChanged.connect(self._turn)
        until_gone(self, session.chosen_changed.connect(self._choose))
        until_gone(self, session.document.changed.connect(self._refresh))
        self._choose(session.chosen)

    def _field(self, name: str) -> QLineEdit:
        made = QLineEdit(self.form)
        made.setAccessibleName(name)
        return made

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        lines.addWidget(self.title)
        lines.addWidget(self.form)
        down = column(self.form, space=STEP)
        self.column.setAccessibleName("Column")
        for name, title in COLUMNS:
            self.column.addItem(title, name)
        self.column.setCurrentIndex(self.column.findData("surname"))
        parts: tuple[tuple[str, QWidget], ...] = (
            ("Column", self.column),
            ("Reads now", self.old),
            ("New reading", self.new),
            ("Corrected by", self.by),
            ("Why", self.why),
        )
        for words, field in parts:
            label = text(self.form, words, "soft")
            label.setBuddy(field)
            down.addWidget(label)
            down.addWidget(field)
        down.addWidget(text(self.form, ABOUT, "soft"))
        down.addWidget(self.fault)
        down.addWidget(self.correct)

    def _choose(self, chosen: tuple[ItemId, ...]) -> None:
        entry = entry_among(self._session.document, chosen)
        if entry is not None and (self._entry is None or self._entry.id != entry.id):
            self.new.clear()
            self.why.clear()
            self._say("")
        self._entry = entry
        self._show()

    def _refresh(self, *_: object) -> None:
        self._choose(self._session.chosen)

    def _turn(self, index: int) -> None:
        del index
        self.new.clear()
        self._say("")
        self._show()

    def _show(self) -> None:
        entry = self._entry
        self.form.setVisible(entry is not None)
        self.title.setText(NONE if entry is None else f"Correct {name_of(entry)}")
        self.correct.setEnabled(self._session.may_edit)
        if entry is not None:
            reads = reads_now(self._session.document, entry, str(self.column.currentData()))
            self.old.setText(reads or "nothing")

    def _correct(self) -> None:
        if self._entry is None:
            return
        try:
            edit = correct(
                self._session.document,
                self._entry.id,
                str(self.column.currentData()),
                self.new.text(),
                Reason(by=self.by.text().strip(), why=self.why.text().strip()),
            )
            self._session.apply(edit)
        except PlanEditorError as error:
            self._say(str(error))
            return
        self.new.clear()
        self.why.clear()
        self._say("")
        self.corrected.emit()

    def _say(self, sentence: str) -> None:
        self.fault.setText(sentence)
        self.fault.setVisible(bool(sentence))
