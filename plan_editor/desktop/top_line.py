"""The line at the top: the plan's name, one field that finds everything, saved or not."""

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListWidget, QWidget
from typing_extensions import override

from plan_editor.commands.finding import Found, find
from plan_editor.desktop.parts import row, text
from plan_editor.desktop.theme import STEP, role
from plan_editor.session import Session

FIELD_WIDTH = 420
FIND = "find a name, number, command…"
NOTHING = "Nothing is called that."


class TopLine(QWidget):
    """``gone_to`` tells what was found and chosen with Enter or a click."""

    gone_to = Signal(object)

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        role(self, "bar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._session = session
        self._found: tuple[Found, ...] = ()
        self._name = text(self, "", "strong")
        self._name.setWordWrap(False)
        self.field = QLineEdit(self)
        self._state = text(self, "", "soft")
        self._state.setWordWrap(False)
        self.list = QListWidget(self.window())
        self._dress()
        self._lay_out()

    @property
    def state(self) -> str:
        """What is said about saving."""
        return self._state.text()

    def show_name(self, name: str) -> None:
        """Show what the plan is called."""
        self._name.setText(name)

    def show_state(self, words: str, kind: str) -> None:
        """Say whether the plan is saved; ``caution`` where it may only be read."""
        self._state.setText(words)
        role(self._state, kind)

    def reach(self) -> None:
        """Take the keys to the field."""
        self.field.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.field.selectAll()

    def _dress(self) -> None:
        self.field.setPlaceholderText(FIND)
        self.field.setAccessibleName("Find a name, number or command")
        self.field.setClearButtonEnabled(True)
        self.field.setMaximumWidth(FIELD_WIDTH)
        self.field.setMinimumWidth(FIELD_WIDTH // 2)
        self.field.textEdited.connect(self._look)
        self.field.installEventFilter(self)
        self.list.setAccessibleName("What was found")
        self.list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.itemClicked.connect(self._take)
        self.list.hide()

    def _lay_out(self) -> None:
        line = row(self, space=4 * STEP)
        line.setContentsMargins(4 * STEP, 2 * STEP, 4 * STEP, 2 * STEP)
        line.addWidget(self._name, 1)
        line.addWidget(self.field, 2)
        line.addWidget(self._state, 1, Qt.AlignmentFlag.AlignRight)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusOut:
            self.list.hide()
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            return self._key(Qt.Key(event.key()))
        return False

    def _key(self, key: Qt.Key) -> bool:
        match key:
            case Qt.Key.Key_Down | Qt.Key.Key_Up if self._found:
                step = 1 if key is Qt.Key.Key_Down else -1
                self.list.setCurrentRow((self.list.currentRow() + step) % len(self._found))
            case Qt.Key.Key_Return | Qt.Key.Key_Enter:
                self._take()
            case Qt.Key.Key_Escape:
                self._end()
            case _:
                return False
        return True

    def _look(self, typed: str) -> None:
        self._found = find(self._session, typed)
        self.list.clear()
        self.list.addItems([f.text for f in self._found] or [NOTHING])
        if self._found:
            self.list.setCurrentRow(0)
        self.list.setVisible(bool(typed.strip()))
        self._put_list()

    def _put_list(self) -> None:
        below = self.field.mapTo(self.window(), QPoint(0, self.field.height() + STEP))
        high = self.list.sizeHintForRow(0) * self.list.count() + 2 * STEP
        self.list.setGeometry(below.x(), below.y(), self.field.width(), high)
        self.list.raise_()

    def _take(self) -> None:
        number = self.list.currentRow()
        if self.list.isVisible() and 0 <= number < len(self._found):
            found = self._found[number]
            self._end()
            self.gone_to.emit(found)

    def _end(self) -> None:
        self.list.hide()
        self.field.clear()
        self._found = ()
