"""The tools of a job, along the top of the ground."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QToolButton, QWidget

from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import emptied, row
from plan_editor.desktop.theme import STEP, icon, role
from plan_editor.drafting.tool import Answer, ToolButton, tools
from plan_editor.session import Session


class ToolRow(QWidget):
    """A button for each tool that the job brings; the one in hand is down."""

    def __init__(self, session: Session, palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        role(self, "bar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._session = session
        self._palette = palette
        self._job = ""
        self.buttons: dict[str, QToolButton] = {}
        self._row = row(self, space=STEP)
        self._row.setContentsMargins(2 * STEP, STEP, 2 * STEP, STEP)
        until_gone(self, session.answered.connect(self._follow))

    def show_job(self, job: str) -> None:
        """Show the tools of a job."""
        self._job = job
        emptied(self._row)
        self.buttons.clear()
        for tool in tools():
            if job in tool.jobs and not tool.draws:
                self._add(tool)
        self._row.addStretch(1)
        self._mark()

    def dress(self, palette: Palette) -> None:
        """Draw the icons in the colours of a palette."""
        self._palette = palette
        self.show_job(self._job)

    def _add(self, tool: ToolButton) -> None:
        made = QToolButton(self)
        made.setText(tool.title)
        made.setIcon(icon(tool.icon, self._palette))
        made.setIconSize(QSize(20, 20))
        made.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        made.setToolTip(f"{tool.title}  ({tool.key})" if tool.key else tool.title)
        made.setAccessibleName(tool.title)
        made.setCheckable(True)
        made.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        made.clicked.connect(self._pressed)
        made.setProperty("tool", tool.name)
        self.buttons[tool.name] = made
        self._row.addWidget(made)

    def _pressed(self) -> None:
        name = self.sender().property("tool")
        self._session.take_up(next(t for t in tools() if t.name == name))

    def _follow(self, answer: Answer) -> None:
        del answer
        self._mark()

    def _mark(self) -> None:
        for name, button in self.buttons.items():
            button.setChecked(name == self._session.button.name)
