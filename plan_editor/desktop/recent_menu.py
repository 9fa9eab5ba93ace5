"""The menu of the plans that were opened last."""

from pathlib import Path

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from plan_editor.desktop.house import House


class RecentMenu(QMenu):
    """Lists them anew each time that it opens."""

    def __init__(self, house: House, parent: QWidget) -> None:
        super().__init__("Recent", parent)
        self._house = house
        self.aboutToShow.connect(self._list)

    def _list(self) -> None:
        self.clear()
        for path in self._house.preferences.recent:
            action = self.addAction(Path(path).name)
            action.setToolTip(path)
            action.setData(path)
            action.triggered.connect(self._open)
        if self.isEmpty():
            self.addAction("No plan was opened yet").setEnabled(False)

    def _open(self) -> None:
        action = self.sender()
        if isinstance(action, QAction):
            self._house.open_plan(Path(action.data()))
