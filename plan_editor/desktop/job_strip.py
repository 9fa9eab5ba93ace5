"""The strip down one side: one button for each job, always with its word."""

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QToolButton, QWidget

from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.jobs import Job
from plan_editor.desktop.parts import column, letters
from plan_editor.desktop.theme import STEP, icon, role

LETTERS = 12


class JobStrip(QWidget):
    """Buttons, one of which is down. ``chosen`` tells the name of the job."""

    chosen = Signal(str)

    def __init__(self, jobs: tuple[Job, ...], palette: Palette, parent: QWidget) -> None:
        super().__init__(parent)
        role(self, "bar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedWidth(letters(self, LETTERS))
        self._jobs = jobs
        self._group = QButtonGroup(self)
        self.buttons: dict[str, QToolButton] = {}
        lines = column(self, space=STEP, edge=STEP)
        for number, job in enumerate(jobs, 1):
            lines.addWidget(self._button(job, number))
        lines.addStretch(1)
        self.dress(palette)

    def show_job(self, name: str) -> None:
        """Put a job's button down without telling anyone."""
        self.buttons[name].setChecked(True)

    def dress(self, palette: Palette) -> None:
        """Draw the icons in the colours of a palette."""
        for job in self._jobs:
            self.buttons[job.name].setIcon(icon(job.icon, palette))

    def _button(self, job: Job, number: int) -> QToolButton:
        made = QToolButton(self)
        made.setText(job.title)
        made.setToolTip(f"{job.help}  (Alt+{number})")
        made.setAccessibleName(job.title)
        made.setAccessibleDescription(job.help)
        made.setCheckable(True)
        made.setIconSize(QSize(24, 24))
        made.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextUnderIcon)
        made.setFixedWidth(letters(self, LETTERS) - 2 * STEP)
        made.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        role(made, "job")
        made.clicked.connect(self._pressed)
        self._group.addButton(made)
        self.buttons[job.name] = made
        return made

    def _pressed(self) -> None:
        for name, button in self.buttons.items():
            if button.isChecked():
                self.chosen.emit(name)
