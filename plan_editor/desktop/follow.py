"""Keep a widget in step with what it shows, and stop when it is gone."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from plan_editor.plan.signal import Signal

SETTLED_MS = 120
"""A burst of edits is shown once, so much after the last of them."""


def until_gone(widget: QWidget, *ends: Callable[[], None]) -> None:
    """Call these when a widget is gone: what ``Signal.connect`` returned."""

    def end() -> None:
        for one in ends:
            one()

    widget.destroyed.connect(end)


class Follow(QObject):
    """Refreshes a widget some time after a notice, and only while it can be seen."""

    def __init__(
        self, widget: QWidget, refresh: Callable[[], None], *signals: Signal[Any]
    ) -> None:
        super().__init__(widget)
        self._widget = widget
        self._refresh = refresh
        self._stale = True
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(SETTLED_MS)
        self._timer.timeout.connect(self.now)
        until_gone(widget, *(s.connect(self._notice) for s in signals))
        widget.installEventFilter(self)

    def later(self) -> None:
        """Refresh some time after this, or when the widget is seen next."""
        self._stale = True
        if self._widget.isVisible():
            self._timer.start()

    def now(self) -> None:
        """Refresh at once."""
        self._stale = False
        self._refresh()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Show and self._stale:
            self.now()
        return False

    def _notice(self, notice: object) -> None:
        del notice
        self.later()
