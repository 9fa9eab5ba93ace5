"""One field of the card: label, editor, and a sentence where what was typed will not do."""

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QWidget

from plan_editor.commands.forms import capital, read
from plan_editor.desktop.card.editors import Editor, ReferenceEditor, editor_for
from plan_editor.desktop.parts import letters, text
from plan_editor.desktop.theme import STEP, role
from plan_editor.errors import PlanEditorError
from plan_editor.plan.detail import Detail
from plan_editor.plan.document import Document

LABEL_LETTERS = 17


class FieldRow(QWidget):
    """A label and an editor side by side; below them, if need be, a sentence.

    ``left`` tells the detail's name and the text when the field is left and was changed.
    """

    left = Signal(str, str)

    def __init__(
        self, detail: Detail, parent: QWidget, offered: Callable[[], list[str]] | None = None
    ) -> None:
        super().__init__(parent)
        self.detail = detail
        self._offered = offered
        self._label = text(self, _label(detail), "soft")
        self._editor: Editor = editor_for(detail, self)
        self._sentence = text(self, "", "danger")
        self._sentence.hide()
        self._dress()
        self._lay_out()
        self._editor.left.connect(self._leave)
        if isinstance(self._editor, ReferenceEditor):
            self._editor.asked.connect(self._offer)

    @property
    def editor(self) -> QWidget:
        """The widget that is typed into."""
        return self._editor

    @property
    def sentence(self) -> str:
        """What is said under the field; empty where it is well."""
        return self._sentence.text()

    @property
    def text(self) -> str:
        """What stands in the field."""
        return self._editor.typed()

    def show_text(self, value: str, *, various: bool = False) -> None:
        """Show a value, or that the chosen items differ; what was said is gone."""
        self._editor.show_text(value, various=various)
        self.say("")

    def say(self, sentence: str) -> None:
        """Say what is amiss, under the field."""
        self._sentence.setText(sentence)
        self._sentence.setVisible(bool(sentence))
        if isinstance(widget := self.editor, QLineEdit):
            role(widget, "danger" if sentence else "")

    @property
    def unfinished(self) -> bool:
        """Whether something was typed and not told yet."""
        return self._editor.unfinished

    def leave(self) -> None:
        """Tell what was typed, as if the keys had gone elsewhere."""
        self._editor.leave()

    def set_editable(self, editable: bool) -> None:  # noqa: FBT001  # as Qt's own setters
        """Let the field be typed into, or not."""
        self.editor.setEnabled(editable)

    def _dress(self) -> None:
        self.editor.setAccessibleName(_label(self.detail))
        if told := self.detail.about.help:
            self.editor.setToolTip(told)
            self.editor.setAccessibleDescription(told)
        self._label.setBuddy(self.editor)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(2 * STEP)
        grid.setVerticalSpacing(STEP)
        self._label.setFixedWidth(letters(self, LABEL_LETTERS))
        self._label.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self._label.setContentsMargins(0, STEP, 0, 0)
        grid.addWidget(self._label, 0, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self.editor, 0, 1)
        grid.addWidget(self._sentence, 1, 1)
        grid.setColumnStretch(1, 1)

    def _leave(self, typed: str) -> None:
        self.left.emit(self.detail.name, typed)

    def _offer(self) -> None:
        if self._offered is not None and isinstance(self._editor, ReferenceEditor):
            self._editor.offer(self._offered())


def read_rows(rows: Mapping[str, FieldRow], document: Document) -> dict[str, Any] | None:
    """Return what stands in fields, by their names; None where one says what is amiss."""
    values: dict[str, Any] = {}
    for name, field in rows.items():
        try:
            values[name] = read(field.detail, field.text, document)
        except PlanEditorError as error:
            field.say(str(error))
            return None
        field.say("")
    return values


def _label(detail: Detail) -> str:
    unit = f" ({detail.about.unit})" if detail.about.unit else ""
    return capital(detail.about.title) + unit
