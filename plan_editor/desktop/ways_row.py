"""The row above the ground for the state of the tool in hand: fields to type in, and offers."""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.desktop.blanks import Blanks
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.desktop.offers import Offers
from plan_editor.desktop.parts import letters
from plan_editor.desktop.theme import STEP, role
from plan_editor.desktop.typed_fields import TypedFields
from plan_editor.errors import PlanEditorError
from plan_editor.session import Session

WIDE = 130
"""A row with room for so many letters has one line, a narrower one two."""


class WaysRow(QWidget):
    """Length and bearing, what else may be typed, what else can be done.

    Its height follows from its width alone and stays, whatever comes and goes in it: the ground
    must not jump.
    """

    def __init__(self, session: Session, canvas: Canvas, parent: QWidget) -> None:
        super().__init__(parent)
        role(self, "bar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._session = session
        self._canvas = canvas
        self.typed = TypedFields(session, self)
        self.blanks = Blanks(session, self)
        self.offers = Offers(session, self)
        self._lines = 1
        self._connect()
        self._walk()
        self._place()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    @override
    def event(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.LayoutRequest:
            self._place()  # one of them came, went or has another width
        return super().event(event)

    def _place(self) -> None:
        """Put the parts side by side from the left, on the next line where there is one."""
        high = self.typed.sizeHint().height()
        self._lines = 1 if self.width() >= letters(self, WIDE) else 2
        self.setFixedHeight(self._lines * (high + STEP) + STEP)
        x, line, right = 3 * STEP, 0, self.width() - 2 * STEP
        typed = () if self.typed.isHidden() else (self.typed,)
        for part in (*typed, *self.blanks.pairs, self.offers):
            part.ensurePolished()
            wide = part.minimumSizeHint().width()
            if x + wide > right and line < self._lines - 1:
                x, line = 3 * STEP, line + 1
            if part is self.offers:
                wide = max(wide, right - x)
            part.setGeometry(x, STEP + line * (high + STEP), wide, high)
            part.show()
            x += wide + 3 * STEP

    def _connect(self) -> None:
        canvas = self._canvas
        canvas.typing_begun.connect(self._begin)
        self.typed.given.connect(self._take_typed)
        self.blanks.filled.connect(self._take_filled)
        self.blanks.made.connect(self._walk)
        self.blanks.made.connect(self._place)
        self.offers.taken.connect(self._take_offer)
        for gone in (self.typed.left, self.blanks.left):
            gone.connect(self._back_to_ground)

    def _walk(self) -> None:
        """Let Tab go from the ground to length, bearing, and the blanks in turn."""
        stops = (self.typed.length, self.typed.bearing, *self.blanks.fields.values())
        before: QWidget = self._canvas
        for stop in stops:
            QWidget.setTabOrder(before, stop)
            before = stop

    def _begin(self, digit: str) -> None:
        if self._session.answer.origin is not None:
            self.typed.begin(digit)
        else:
            self.blanks.begin(digit)

    def _take_typed(self, length: str, bearing: str) -> None:
        try:
            self._canvas.typed(length, bearing)
        except PlanEditorError as error:
            self._session.refused.emit(str(error))
            return
        self.typed.clear()
        self._back_to_ground()

    def _take_filled(self, filled: tuple[tuple[str, str], ...]) -> None:
        self._canvas.fill(filled)
        self._back_to_ground()

    def _take_offer(self, name: str) -> None:
        self._canvas.take(name)
        self._back_to_ground()

    def _back_to_ground(self) -> None:
        self._canvas.setFocus(Qt.FocusReason.OtherFocusReason)
