"""The row above the ground for the state of the tool in hand: fields to type in, and offers."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from plan_editor.desktop.blanks import Blanks
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.desktop.offers import Offers
from plan_editor.desktop.parts import row
from plan_editor.desktop.theme import STEP, role
from plan_editor.desktop.typed_fields import TypedFields
from plan_editor.errors import PlanEditorError
from plan_editor.session import Session


class WaysRow(QWidget):
    """Length and bearing, what else may be typed, what else can be done.

    Its height stays, whatever comes and goes in it: the ground must not jump.
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
        self.setFixedHeight(self.typed.sizeHint().height() + 2 * STEP)
        across = row(self, space=3 * STEP)
        across.setContentsMargins(3 * STEP, STEP, 2 * STEP, STEP)
        across.addWidget(self.typed)
        across.addWidget(self.blanks)
        across.addWidget(self.offers, 1)
        self._connect()
        self._walk()

    def _connect(self) -> None:
        canvas = self._canvas
        canvas.typing_begun.connect(self._begin)
        self.typed.given.connect(self._take_typed)
        self.blanks.filled.connect(self._take_filled)
        self.blanks.made.connect(self._walk)
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
