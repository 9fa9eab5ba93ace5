"""Looking a plan's file through for silent damage, beside the window."""

from collections.abc import Callable
from pathlib import Path

from plan_editor.desktop.background import Background, Work
from plan_editor.errors import PlanEditorError
from plan_editor.storage.verifying import Report, verify


class LookingThrough:
    """Reads a plan's file from end to end and says what is found."""

    def __init__(self, background: Background, say: Callable[[str], None]) -> None:
        self._background = background
        self._say = say

    def begin(self, path: Path) -> None:
        """Look through a file; nothing is said where it is whole."""
        self._background.in_thread(
            Work(
                about="looking through",
                title="Looking through the file",
                function=verify,
                arguments=(path,),
                done=self._heed,
                failed=self._heed_fault,
            )
        )

    def _heed(self, report: Report) -> None:
        if not report.whole:
            more = len(report.findings) - 1
            others = f" There is more ({more}); the verb “verify” tells all." if more else ""
            self._say(f"{report.findings[0]}{others}")

    def _heed_fault(self, error: PlanEditorError) -> None:
        self._say(str(error))
