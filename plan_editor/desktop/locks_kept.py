"""Which kinds are locked, remembered for each plan on this machine."""

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.house import House
from plan_editor.session import Session


class LocksKept(QObject):
    """Locks what was locked when the plan was last open here, and remembers what is now."""

    def __init__(self, session: Session, house: House, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._house = house
        self._plan = session.file.path if session.file is not None else None
        if self._plan is not None:
            session.lock(house.preferences.locked_in(self._plan))
        until_gone(parent, session.locked_changed.connect(self._remember))

    def _remember(self, locked: frozenset[str]) -> None:
        if self._plan is not None:
            kept = self._house.preferences.having_locked(self._plan, locked)
            self._house.remember(kept)
