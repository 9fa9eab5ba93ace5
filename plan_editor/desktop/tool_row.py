"""The tools of a job, along the top of the ground."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QToolButton, QWidget

from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.folding_row import FoldingRow
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import row
from plan_editor.desktop.theme import STEP, icon, role
from plan_editor.drafting.tool import Answer, ToolButton, tools
from plan_editor.session import Session


class ToolRow(QWidget):
    """A button for each tool that the job brings; the one in hand is down.

    A tool in hand that the job does not bring stands there too, for as long.
    """

    def __init__(self, session: Session, palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        role(self, "bar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._session = session
        self._palette = palette
        self._job = ""
        self._down = ""
        self.buttons: dict[str, QToolButton] = {}
        self.row = FoldingRow("More tools", self)
        across = row(self)
        across.setContentsMargins(2 * STEP, STEP, 2 * STEP, STEP)
        across.addWidget(self.row, 1)
        until_gone(self, session.answered.connect(self._follow))

    def show_job(self, job: str) -> None:
        """Show the tools of a job."""
        self._job = job
        in_hand = self._session.button.name
        brought = [t for t in tools() if (job in t.jobs or t.name == in_hand) and not t.draws]
        self.buttons = {t.name: self._made(t) for t in brought}
        self._mark()
        self.row.show_buttons(tuple(self.buttons.values()))

    def dress(self, palette: Palette) -> None:
        """Draw the icons in the colours of a palette."""
        self._palette = palette
        self.show_job(self._job)

    def _made(self, tool: ToolButton) -> QToolButton:
        made = QToolButton(self.row)
        made.setText(tool.title)
        made.setIcon(icon(tool.icon, self._palette))
        made.setIconSize(QSize(20, 20))
        made.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        made.setToolTip(f"{tool.title}  ({tool.key})" if tool.key else tool.title)
        made.setAccessibleName(tool.title)
        made.setCheckable(True)
        file = self._session.file
        made.setEnabled(not (tool.edits and file is not None and file.read_only))
        made.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        made.clicked.connect(self._pressed)
        made.setProperty("tool", tool.name)
        made.setProperty("keys", tool.key)
        return made

    def _pressed(self) -> None:
        name = self.sender().property("tool")
        self._session.take_up(next(t for t in tools() if t.name == name))

    def _follow(self, answer: Answer) -> None:
        del answer
        in_hand, before = self._session.button, self._down
        if in_hand.name == before:
            return
        if self._is_guest(in_hand.name) or self._is_guest(before):
            self.show_job(self._job)
        else:
            self._mark()
            self.row.fold()

    def _is_guest(self, name: str) -> bool:
        return any(t.name == name and self._job not in t.jobs and not t.draws for t in tools())

    def _mark(self) -> None:
        self._down = self._session.button.name
        for name, button in self.buttons.items():
            button.setChecked(name == self._down)
