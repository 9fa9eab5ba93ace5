"""Saving, beside the window; what is asked before a window closes."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject

from plan_editor.commands.command import Ask
from plan_editor.desktop.background import Background, Work
from plan_editor.errors import ChangedElsewhere, PlanEditorError
from plan_editor.session import Session

READ_ONLY = "read only: nothing can be changed here"
UNSAVED = "edits kept, not saved yet"
SAVING = "saving…"

OTHER_NAME, OVER = "Save under another name", "Save over the other's work"
SAVE, DROP = "Save", "Close without saving"


class Saving(QObject):
    """How the plan of a window is saved."""

    def __init__(
        self, session: Session, background: Background, ask: Ask, parent: QObject
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._background = background
        self._ask = ask
        self._going = False

    @property
    def state(self) -> tuple[str, str]:
        """What to say about saving, and the role of the words."""
        file = self._session.file
        if file is None:
            return "", "soft"
        if file.read_only:
            return READ_ONLY, "caution"
        if self._going:
            return SAVING, "soft"
        if file.unsaved:
            return UNSAVED, "caution"
        return f"saved {_time_of(file.path)}", "soft"

    def save(self) -> None:
        """Save; where somebody else saved meanwhile, ask."""
        if (file := self._session.file) is not None:
            self._do(file.save, (), self._save_elsewhere)

    def save_as(self, path: Path) -> None:
        """Save under another name and work on there."""
        if (file := self._session.file) is not None:
            self._do(file.save_as, (path,), self._fail)

    def save_copy(self, path: Path) -> None:
        """Write a copy and go on working on the plan itself."""
        if (file := self._session.file) is not None:
            self._do(file.save_copy, (path,), self._fail)

    def may_close(self) -> bool:
        """Ask about unsaved work; return whether the window may close."""
        if self._is_held():
            return False
        file = self._session.file
        if file is None or file.read_only or not file.unsaved:
            return True
        name = file.path.name
        answer = self._ask.which(f"{name} has edits that are not saved.", (SAVE, DROP))
        if answer is None:
            return False
        return answer == 1 or self._saved_now()

    def _is_held(self) -> bool:
        """Say why the plan can neither be saved nor closed now; return whether it is so."""
        if self._session.held:
            self._ask.tell(self._session.held)
        return bool(self._session.held)

    def _saved_now(self) -> bool:
        file = self._session.file
        assert file is not None  # noqa: S101  # asked only of an open plan
        try:
            file.save()
        except PlanEditorError as error:
            self._ask.tell(str(error))
            return False
        return True

    def _do(
        self,
        function: Callable[..., Any],
        arguments: tuple[Any, ...],
        failed: Callable[[PlanEditorError], None],
    ) -> None:
        if self._is_held():
            return
        self._going = True
        self._background.in_thread(
            Work(
                about="saving",
                title="Saving",
                function=function,
                arguments=arguments,
                done=self._done,
                failed=failed,
                may_stop=False,
            )
        )

    def _done(self, remarks: tuple[str, ...] | None) -> None:
        self._going = False
        for remark in remarks or ():
            self._ask.tell(remark)
        self._session.saved.emit(None)

    def _fail(self, error: PlanEditorError) -> None:
        self._going = False
        self._ask.tell(str(error))
        self._session.saved.emit(None)

    def _save_elsewhere(self, error: PlanEditorError) -> None:
        self._fail(error)
        file = self._session.file
        if file is None or not isinstance(error, ChangedElsewhere):
            return
        match self._ask.which(str(error), (OTHER_NAME, OVER)):
            case 0:
                suggested = f"{file.path.stem} mine{file.path.suffix}"
                path = self._ask.file_to_write("Save as", file.path.suffix, suggested)
                if path is not None:
                    self.save_as(path)
            case 1:
                self._do(_save_over, (file,), self._fail)
            case _:
                return


def _save_over(file: Any) -> tuple[str, ...]:
    remarks: tuple[str, ...] = file.save(overwrite=True)
    return remarks


def _time_of(path: Path) -> str:
    try:
        then = datetime.fromtimestamp(path.stat().st_mtime)  # noqa: DTZ006  # the user's own clock
    except OSError:
        return ""
    today = then.date() == datetime.now().date()  # noqa: DTZ005  # the user's own clock
    return f"{then:%H:%M}" if today else f"{then:%d %b %Y}"
