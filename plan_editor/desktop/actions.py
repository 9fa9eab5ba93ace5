"""Commands as menus: each a QAction, greyed and worded by the command itself."""

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar

from plan_editor.commands.command import Ask, Command, Menu, menus
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.theme import icon
from plan_editor.errors import PlanEditorError
from plan_editor.session import Session


def run(command: Command, session: Session, ask: Ask) -> None:
    """Run a command; what it refuses is told in a sentence."""
    if not command.enabled(session):
        return
    try:
        command.run(session, ask)
    except PlanEditorError as error:
        ask.tell(str(error))


class Actions(QObject):
    """Every command of every menu."""

    def __init__(self, session: Session, ask: Ask, parent: QObject) -> None:
        super().__init__(parent)
        self._session = session
        self._ask = ask
        self._actions: dict[str, tuple[Command, QAction]] = {}

    def fill(self, bar: QMenuBar) -> dict[str, QMenu]:
        """Put the menus into a menu bar; return them by their titles."""
        # Alt and its first letter opens it
        made = {menu.title: bar.addMenu(f"&{menu.title}") for menu in menus()}
        for menu in menus():
            self._fill(made[menu.title], menu)
        return made

    def refresh(self) -> None:
        """Grey what cannot be done now, and say what undo would take back."""
        for command, action in self._actions.values():
            action.setEnabled(command.enabled(self._session))
            if command.title_now is not None:
                action.setText(_shown(command.title_now(self._session)))

    def dress(self, palette: Palette) -> None:
        """Draw the icons in the colours of a palette."""
        for command, action in self._actions.values():
            action.setIcon(icon(command.icon, palette))

    def action(self, name: str) -> QAction:
        """Return the action of a command."""
        return self._actions[name][1]

    def say_why_not(self, event: QKeyEvent) -> bool:
        """Say that what a key stands for cannot be done now; return whether it was said.

        A key of a greyed command reaches nobody otherwise, and nothing would happen.
        """
        pressed = QKeySequence(event.keyCombination())
        exact = QKeySequence.SequenceMatch.ExactMatch
        for command, action in self._actions.values():
            greyed = bool(command.keys) and not command.enabled(self._session)
            if greyed and action.shortcut().matches(pressed) is exact:
                self._ask.tell(self._why_not(command))
                return True
        return False

    def _why_not(self, command: Command) -> str:
        file = self._session.file
        if file is not None and file.read_only:
            return f"“{command.title}” is not possible now: the plan can only be read."
        return f"“{command.title}” is not possible now. {self._session.held}".rstrip()

    def _fill(self, made: QMenu, menu: Menu) -> None:
        for entry in menu.commands:
            if entry is None:
                made.addSeparator()
            elif isinstance(entry, Menu):
                self._fill(made.addMenu(entry.title), entry)
            else:
                made.addAction(self._made(entry))

    def _made(self, command: Command) -> QAction:
        action = QAction(_shown(command.title), self)
        if command.keys:
            action.setShortcut(QKeySequence(command.keys))
        action.setObjectName(command.name)
        action.triggered.connect(self._triggered)
        self._actions[command.name] = (command, action)
        return action

    def _triggered(self) -> None:
        command, _ = self._actions[self.sender().objectName()]
        run(command, self._session, self._ask)


def _shown(title: str) -> str:
    # an ampersand would underline the letter after it
    return title.replace("&", "&&")
