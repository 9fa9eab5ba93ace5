"""The application: one window a plan, colours, what happens where it is itself at fault."""

import shutil
import sys
import traceback
from collections.abc import Callable, Sequence
from dataclasses import replace
from getpass import getuser
from pathlib import Path
from types import TracebackType

from platformdirs import user_data_path
from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication, QWidget

from plan_editor.commands.command import Ask
from plan_editor.commands.crash import written_down
from plan_editor.desktop import screen
from plan_editor.desktop.ask import WindowAsk
from plan_editor.desktop.canvas.palette import DARK, LIGHT, STRONG, Palette
from plan_editor.desktop.dialogs.crash import CrashDialog
from plan_editor.desktop.dialogs.new_plan import NewPlanDialog
from plan_editor.desktop.house import House
from plan_editor.desktop.opening import opened
from plan_editor.desktop.preferences import APPLICATION, Preferences, keep, load
from plan_editor.desktop.theme import dress, system_is_dark, system_wants_contrast
from plan_editor.desktop.window import PROGRAM, PlanWindow
from plan_editor.drafting.tool import tools
from plan_editor.edits.basic import Replace
from plan_editor.errors import PlanEditorError
from plan_editor.plan.document import Document
from plan_editor.plan.plan import Plan
from plan_editor.resources import sample
from plan_editor.session import Session
from plan_editor.storage.leftovers import leftovers
from plan_editor.storage.plan_file import PlanFile

SAMPLE = "harrowmere.gpkg"
FIRST_TOOL = "select"
MOST_TOLD = 3
"""So many of the things that another program changed are named."""

TAKE_IN, LEAVE_OUT = "Take the changes in", "Leave them out"


Asking = Callable[[PlanWindow, House], Ask]
"""Makes what answers the questions of a window."""


def _dialogs(window: PlanWindow, house: House) -> Ask:
    return WindowAsk(window, window, house)


class Application(QObject):
    """Everything above the windows.

    Args:
        qt: Qt's own application.
        ask: makes what answers the questions of a window; dialogs, unless given.
    """

    def __init__(self, qt: QApplication, ask: Asking = _dialogs) -> None:
        super().__init__(qt)
        self._qt = qt
        self._ask = ask
        self.preferences: Preferences = load()
        self.windows: list[PlanWindow] = []
        self._dressed: Palette | None = None
        self._put_on()

    @property
    def palette(self) -> Palette:
        """The colours that are on."""
        match self.preferences.colours:
            case "dark":
                return DARK
            case "light":
                return LIGHT
            case "contrast":
                return STRONG
            case _ if system_wants_contrast():
                return STRONG
            case _:
                return DARK if system_is_dark() else LIGHT

    def remember(self, preferences: Preferences) -> None:
        """Keep what this user likes."""
        self.preferences = preferences
        keep(preferences)

    def start(self, paths: Sequence[str]) -> None:
        """Show the plans that were named, or the start page; offer back what a crash left."""
        for path in paths:
            self.open_plan(Path(path))
        if not self.windows:
            self.show(None)
        if not paths:
            self._offer_back()

    def show(self, file: PlanFile | None) -> PlanWindow:
        """Show a plan in a window of its own; the start page for None."""
        session = _session(file)
        window = PlanWindow(session, self, self._ask)
        self.windows.append(window)
        if file is not None:
            self.remember(self.preferences.having_opened(file.path))
            self._drop_start_pages()
        window.show()
        if file is not None:
            _tell_of_other_programs(window, file)
        return window

    def open_plan(self, path: Path) -> None:
        """Show a plan in a window of its own; say so where it cannot be opened."""
        if (there := self._window_of(path)) is not None:
            there.activateWindow()
            return
        asking = self._front()
        try:
            file = opened(path, asking.ask)
        except PlanEditorError as error:
            asking.say(str(error))
            return
        if file is not None:
            self.show(file)

    def ask_open(self, window: QWidget) -> None:
        """Ask which plan to open, and show it."""
        if isinstance(window, PlanWindow):
            window.commands.action("open").trigger()

    def open_sample(self) -> None:
        """Show a copy of the sample; one that was made before is shown as it was left."""
        copy = user_data_path(APPLICATION, appauthor=False) / "sample" / SAMPLE
        try:
            if not copy.exists():
                copy.parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(sample(SAMPLE), copy)
        except OSError as error:
            self._front().say(f"The sample could not be copied: {error.strerror}.")
            return
        self.open_plan(copy)

    def new_plan(self) -> None:
        """Ask for a name, a grid and a place, and show the new plan."""
        asking = self._front()
        dialog = NewPlanDialog(asking)
        dialog.exec()
        wanted = dialog.wanted
        dialog.deleteLater()
        if wanted is None:
            return
        suggested = f"{wanted.name or 'churchyard'}.gpkg"
        path = asking.ask.file_to_write("Keep the new plan as", ".gpkg", suggested)
        if path is None:
            return
        try:
            self.show(PlanFile.create(path, name=wanted.name, grid=wanted.grid))
        except PlanEditorError as error:
            asking.say(str(error))

    def dress(self, colours: str) -> None:
        """Put on another palette: ``light``, ``dark``, ``contrast`` or ``system``."""
        self.remember(replace(self.preferences, colours=colours))
        self._put_on()
        for window in self.windows:
            window.dress()

    def closed(self, window: object) -> None:
        """Hear that a window was closed."""
        self.windows = [w for w in self.windows if w is not window]

    def quit(self) -> None:
        """Close every window; one that has to ask may stay."""
        for window in tuple(self.windows):
            if not window.close():
                return

    def crash(self, error: BaseException) -> CrashDialog:
        """Say that the program is at fault, and write down what led there."""
        front = self.windows[-1] if self.windows else None
        last = front.session.document.undo_title or "" if front is not None else ""
        trace = "".join(traceback.format_exception(error))
        dialog = CrashDialog(last, written_down(trace, (f"last edit: {last}",)), front)
        dialog.show()
        return dialog

    def goes_well(self, work: Callable[[], bool]) -> bool:
        """Do something that must not raise; return its answer, or False where it did."""
        try:
            return work()
        except Exception as error:  # noqa: BLE001  # Qt itself would end the program
            sys.excepthook(type(error), error, error.__traceback__)
            return False

    def caught(
        self,
        kind: type[BaseException],
        error: BaseException,
        trace: TracebackType | None,
    ) -> None:
        """Take the place of ``sys.excepthook`` while windows are open."""
        if issubclass(kind, KeyboardInterrupt):
            self.quit()
            return
        del trace
        self.crash(error)

    def _put_on(self) -> None:
        if self.palette != self._dressed:
            self._dressed = self.palette
            dress(self._qt, self.palette)

    def _front(self) -> PlanWindow:
        active = self._qt.activeWindow()
        if isinstance(active, PlanWindow):
            return active
        return self.windows[-1] if self.windows else self.show(None)

    def _window_of(self, path: Path) -> PlanWindow | None:
        wanted = path.resolve()
        for window in self.windows:
            file = window.session.file
            if file is not None and file.path == wanted and not _is_of_another_day(file):
                return window
        return None

    def _drop_start_pages(self) -> None:
        for window in tuple(self.windows):
            if not window.session.is_open:
                window.close()

    def _offer_back(self) -> None:
        for leftover in leftovers():
            self.open_plan(leftover.plan)


def _session(file: PlanFile | None) -> Session:
    plan = Plan() if file is None else file.plan
    document = Document(plan, journal=file, author=_author())
    first = next(t for t in tools() if t.name == FIRST_TOOL)
    return Session(document, first=first, file=file)


def _is_of_another_day(file: PlanFile) -> bool:
    # saved under another name it is a plan of its own
    return bool(file.of_day) and file.read_only


def _author() -> str:
    try:
        return getuser()
    except (OSError, KeyError):  # the account has no name
        return ""


def _tell_of_other_programs(window: PlanWindow, file: PlanFile) -> None:
    if file.remarks:
        window.say(_few(file.remarks, " "))
    changes = file.changed_elsewhere
    if not changes and not file.remarks and not file.of_day:
        window.look_through()  # silent damage is found by reading everything
    if not changes or file.read_only:
        return
    things = "1 thing was" if len(changes) == 1 else f"{len(changes)} things were"
    named = [item.called() for c in changes if (item := c.after or c.before) is not None]
    question = (
        f"{things} changed in {file.path.name} by another program: {_few(named, ', ')}."
        " What is left out is gone from the file at the next Save."
    )
    if window.ask.which(question, (TAKE_IN, LEAVE_OUT)) == 0:
        window.session.try_apply(
            Replace(made=changes, title="Take in the changes of another program")
        )


def _few(told: Sequence[str], between: str) -> str:
    more = len(told) - MOST_TOLD
    return between.join(told[:MOST_TOLD]) + (f"{between}and {more} more" if more > 0 else "")


def run(paths: Sequence[str]) -> int:
    """Run the windows until the last is closed; return the exit code.

    Raises:
        ImportError: this computer lacks a system library that Qt needs.
    """
    if sentence := screen.fault():
        sys.stderr.write(f"{sentence}\n")
        return 2
    qt = QApplication(sys.argv[:1])
    qt.setApplicationName(PROGRAM)
    qt.setDesktopFileName(APPLICATION)
    application = Application(qt)
    sys.excepthook = application.caught
    application.start(paths)
    return qt.exec()
