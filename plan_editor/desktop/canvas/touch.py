"""Fingers and pens on the ground.

One finger points, as the mouse does; held still it opens the menu of the place. Two fingers
draw the ground along, and nearer or farther as they part or close. A pen points; its other end
takes back the last corner.
"""

from math import hypot

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, Qt, QTimer, Signal
from PySide6.QtGui import QEventPoint, QPointingDevice, QTabletEvent, QTouchEvent
from typing_extensions import override

from plan_editor.desktop.canvas.view import Canvas
from plan_editor.drafting.tool import Act

TREMBLE_PX = 10.0
"""A finger that moves no farther than this is held still."""

HELD_MS = 600
"""So long held still, a finger asks for the menu."""

LEAST_APART_PX = 20.0
"""Two fingers nearer than this do not tell a scale."""

FINGERTIP_PX = 18.0
"""A fingertip means what lies so far round its middle: it hides what it points at."""

_NONE = Qt.KeyboardModifier.NoModifier
_BEGIN, _UPDATE = QEvent.Type.TouchBegin, QEvent.Type.TouchUpdate
_END, _CANCEL = QEvent.Type.TouchEnd, QEvent.Type.TouchCancel


class Touch(QObject):
    """Turns what fingers do into what the canvas understands. ``held`` tells a place."""

    held = Signal(QPoint)

    def __init__(self, canvas: Canvas) -> None:
        super().__init__(canvas)
        self._canvas = canvas
        self._began: QPointF | None = None
        self._pressed = False
        self._two: tuple[QPointF, float] | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(HELD_MS)
        self._timer.timeout.connect(self._hold)
        canvas.viewport().setAttribute(Qt.WidgetAttribute.WA_AcceptTouchEvents)
        canvas.viewport().installEventFilter(self)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        del watched
        if isinstance(event, QTouchEvent):
            return self._touched(event)
        if isinstance(event, QTabletEvent):
            return self._other_end(event)
        return False

    def _touched(self, event: QTouchEvent) -> bool:
        if event.device().type() is not QPointingDevice.DeviceType.TouchScreen:
            return False  # a touch pad moves the pointer itself
        down = [p for p in event.points() if p.state() is not QEventPoint.State.Released]
        if event.type() is _CANCEL:
            self._drop()
        elif len(down) > 1:
            self._two_fingers(down[0].position(), down[1].position())
        elif self._two is not None:
            # the second finger is lifted first: what is left of the gesture points at nothing
            self._two = None if event.type() is _END else self._two
        else:
            self._one_finger(event.type(), event.points()[0].position())
        event.accept()
        return True

    def _one_finger(self, what: QEvent.Type, at: QPointF) -> None:
        if what is _BEGIN:
            self._began, self._pressed = at, False
            self._timer.start()
            self._act(Act.MOVE, at)
        elif self._began is None:
            return  # the menu was opened
        elif what is _UPDATE:
            self._drag(self._began, at)
        else:
            self._lift(self._began, at)

    def _drag(self, began: QPointF, at: QPointF) -> None:
        if not self._pressed and _apart(began, at) > TREMBLE_PX:
            self._timer.stop()
            self._pressed = True
            self._act(Act.PRESS, began)
        if self._pressed:
            self._act(Act.MOVE, at)

    def _lift(self, began: QPointF, at: QPointF) -> None:
        self._timer.stop()
        if not self._pressed:
            self._act(Act.PRESS, began)
        self._act(Act.RELEASE, at if self._pressed else began)
        self._began, self._pressed = None, False

    def _two_fingers(self, one: QPointF, other: QPointF) -> None:
        self._drop()
        middle, apart = (one + other) / 2, _apart(one, other)
        if self._two is not None:
            before, was = self._two
            self._canvas.pan((before - middle).toPoint())
            if min(apart, was) > LEAST_APART_PX:
                self._canvas.zoom_at(apart / was, middle)
        self._two = middle, apart

    def _drop(self) -> None:
        """Leave off what one finger had begun."""
        self._timer.stop()
        if self._pressed:
            self._act(Act.CANCEL, self._began or QPointF())
        self._began, self._pressed = None, False

    def _act(self, act: Act, at: QPointF) -> None:
        self._canvas.act_at(act, at, _NONE, finger_px=FINGERTIP_PX)

    def _hold(self) -> None:
        if self._began is not None and not self._pressed:
            at, self._began = self._began, None
            self.held.emit(at.toPoint())

    def _other_end(self, event: QTabletEvent) -> bool:
        """Take back with a pen's other end; what its point does Qt hands on as a mouse."""
        if event.pointerType() is not QPointingDevice.PointerType.Eraser:
            return False
        if event.type() is QEvent.Type.TabletPress:
            self._act(Act.BACK, event.position())
        event.accept()
        return True


def _apart(one: QPointF, other: QPointF) -> float:
    return hypot(one.x() - other.x(), one.y() - other.y())
