"""The window that is shown when the program itself is at fault. Never a bare traceback."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QWidget

from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.theme import STEP

KEPT = (
    "Every edit that was made is kept on this computer. Save now. If the program behaves oddly,"
    " close it and start it again: what was not saved is offered back."
)


class CrashDialog(QDialog):
    """Says what happened in plain words, and where the report lies."""

    def __init__(self, last: str, report: Path | None, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Something went wrong")
        lines = column(self, space=3 * STEP, edge=6 * STEP)
        lines.addWidget(text(self, "Something went wrong in this program", "heading"))
        lines.addWidget(text(self, KEPT))
        if last:
            lines.addWidget(text(self, f"The last edit was “{last}”.", "soft"))
        where = (
            f"A report lies in {report}. Please send it to whoever looks after the program."
            if report is not None
            else "A report could not be written."
        )
        lines.addWidget(text(self, where, "soft"))
        go_on = button(self, "Go on", self.accept, "main")
        lines.addWidget(go_on, 0, Qt.AlignmentFlag.AlignLeft)
        self.setFixedSize(120 * STEP, lines.heightForWidth(120 * STEP))
        self.finished.connect(self.deleteLater)
