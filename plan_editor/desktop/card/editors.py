"""An editor for each sort of value: shows it as text, tells the text when it is left."""

from PySide6.QtCore import QStringListModel, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QCompleter, QLineEdit, QPlainTextEdit, QWidget
from typing_extensions import override

from plan_editor.commands.forms import OFF, ON, capital
from plan_editor.desktop.parts import Choice
from plan_editor.plan.detail import Detail, Value

VARIOUS = "various"
"""Shown where several items differ."""

LONG_TEXT_LINES = 3


class LineEditor(QLineEdit):
    """One line of text, taken when the field is left or Enter is pressed."""

    left = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._shown = ""
        self.editingFinished.connect(self.leave)

    def show_text(self, text: str, *, various: bool) -> None:
        """Show a value, or that the items differ."""
        self._shown = text
        self.setText(text)
        self.setPlaceholderText(VARIOUS if various else "")

    def typed(self) -> str:
        """Return what stands in it now."""
        return self.text()

    @property
    def unfinished(self) -> bool:
        """Whether something was typed and not told yet."""
        return self.text() != self._shown

    def leave(self) -> None:
        """Tell what was typed, if anything was."""
        if self.unfinished:
            self._shown = self.text()
            self.left.emit(self.text())

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.text() != self._shown:
            self.setText(self._shown)
            return
        super().keyPressEvent(event)


class ReferenceEditor(LineEditor):
    """A line that offers what it may point to."""

    asked = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._offered = QStringListModel(self)
        completer = QCompleter(self._offered, self)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.setCompleter(completer)

    def offer(self, names: list[str]) -> None:
        """Set what is offered while one types."""
        self._offered.setStringList(names)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        self.asked.emit()
        super().focusInEvent(event)


class LongEditor(QPlainTextEdit):
    """Several lines of text, taken when the field is left."""

    left = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._shown = ""
        self.setTabChangesFocus(True)
        self.setFixedHeight(LONG_TEXT_LINES * self.fontMetrics().lineSpacing() + 20)

    def show_text(self, text: str, *, various: bool) -> None:
        """Show a value, or that the items differ."""
        self._shown = text
        self.setPlainText(text)
        self.setPlaceholderText(VARIOUS if various else "")

    def typed(self) -> str:
        """Return what stands in it now."""
        return self.toPlainText()

    @property
    def unfinished(self) -> bool:
        """Whether something was typed and not told yet."""
        return self.toPlainText() != self._shown

    def leave(self) -> None:
        """Tell what was typed, if anything was."""
        if self.unfinished:
            self._shown = self.toPlainText()
            self.left.emit(self._shown)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.leave()


class ChoiceEditor(Choice):
    """One of a few, taken when it is chosen."""

    left = Signal(str)

    def __init__(self, parent: QWidget, choices: tuple[str, ...]) -> None:
        super().__init__(parent)
        for choice in choices:
            self.addItem(capital(choice), choice)
        self.activated.connect(self._leave)

    def show_text(self, text: str, *, various: bool) -> None:
        """Show a value, or that the items differ."""
        self.setPlaceholderText(VARIOUS if various else "–")
        self.setCurrentIndex(-1 if various else self.findData(text))

    def typed(self) -> str:
        """Return what stands in it now."""
        return str(self.currentData() or "")

    @property
    def unfinished(self) -> bool:
        """Never: a choice is taken when it is made."""
        return False

    def leave(self) -> None:
        """Do nothing."""

    def _leave(self, index: int) -> None:
        self.left.emit(str(self.itemData(index)))


Editor = LineEditor | LongEditor | ChoiceEditor
"""Each shows a value as text, and tells by ``left`` the text that was put in its place."""


def editor_for(detail: Detail, parent: QWidget) -> Editor:
    """Return the editor for a detail."""
    match detail.value:
        case Value.CHOICE:
            none = ("",) if detail.optional else ()
            return ChoiceEditor(parent, (*none, *(c.value for c in detail.choices)))
        case Value.YES_NO:
            return ChoiceEditor(parent, (ON, OFF))
        case Value.LONG_TEXT:
            return LongEditor(parent)
        case Value.ITEM:
            return ReferenceEditor(parent)
        case Value.TEXT | Value.NUMBER | Value.WHOLE | Value.DATE | Value.NUMBERS:
            return LineEditor(parent)
