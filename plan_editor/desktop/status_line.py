"""The line at the bottom: where the pointer is, what it has caught, job, scale, work."""

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtWidgets import QProgressBar, QWidget

from plan_editor.desktop.background import Background
from plan_editor.desktop.parts import button, row, rule, text
from plan_editor.desktop.theme import STEP, role
from plan_editor.drawing.showing import Showing


class StatusLine(QWidget):
    """Plain words, separated by hairlines; work that goes on can be stopped here."""

    list_asked = Signal()
    """Somebody wants to see, or change, what is shown."""

    def __init__(self, background: Background, parent: QWidget) -> None:
        super().__init__(parent)
        role(self, "bar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._background = background
        self._place = text(self, "", "")
        self._caught = text(self, "", "figure")
        self.shown = button(self, "showing", self.list_asked.emit, "link")
        self._title, self._left_out, self._things_out = "", 0, 0
        self._scale = text(self, "", "")
        self._work = text(self, "", "soft")
        self._progress = QProgressBar(self)
        self._stop = button(self, "Stop", background.stop)
        self._dress()
        background.changed.connect(self._show_work)
        self._show_work()

    def show_place(self, place: str, caught: str) -> None:
        """Show coordinates, and what the pointer has caught."""
        self._place.setText(place)
        self._caught.setText(caught)

    def show_job(self, title: str) -> None:
        """Show which job is done."""
        self._title = title
        self._say_shown()

    def show_left_out(self, showing: Showing) -> None:
        """Show that not all of the plan is shown."""
        self._left_out = len(showing.kinds) + len(showing.states)
        self._things_out = len(showing.things)
        self._say_shown()

    @property
    def corner(self) -> QPoint:
        """Where the list of what is shown has its lower right corner, on the screen."""
        return self.shown.mapToGlobal(QPoint(self.shown.width(), -STEP))

    def _say_shown(self) -> None:
        left_out = f", {self._left_out} sorts left out" if self._left_out > 1 else ""
        left_out = ", 1 sort left out" if self._left_out == 1 else left_out
        things = f", {self._things_out} things elsewhere left out" if self._things_out else ""
        self.shown.setText(f"showing: {self._title}{left_out}{things}")

    def show_scale(self, scale: str) -> None:
        """Show the scale of the ground on the screen."""
        self._scale.setText(scale)

    def _dress(self) -> None:
        self._progress.setRange(0, 0)
        self._progress.setTextVisible(False)
        self._progress.setFixedWidth(30 * STEP)
        self._progress.setAccessibleName("Work goes on")
        self._place.setMinimumWidth(64 * STEP)
        self.setFixedHeight(self._stop.sizeHint().height() + 2 * STEP)
        line = row(self, space=3 * STEP)
        line.setContentsMargins(4 * STEP, STEP, 4 * STEP, STEP)
        self.shown.setToolTip("What is shown, and what is locked")
        for label in (self._place, self._caught, self._work, self._scale):
            label.setWordWrap(False)
        line.addWidget(self._place)
        line.addWidget(self._upright())
        line.addWidget(self._caught, 1)
        for part in (self._work, self._progress, self._stop):
            line.addWidget(part)
        for part in (self.shown, self._scale):
            line.addWidget(self._upright())
            line.addWidget(part)

    def _upright(self) -> QWidget:
        line = rule(self)
        line.setFixedSize(1, 4 * STEP)
        return line

    def _show_work(self) -> None:
        title = self._background.title
        self._work.setText(title)
        for part in (self._work, self._progress):
            part.setVisible(bool(title))
        self._stop.setVisible(self._background.may_stop)
