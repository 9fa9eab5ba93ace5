"""Buttons side by side; those that find no room are to be had from a menu at the end."""

from collections.abc import Sequence

from PySide6.QtCore import QSize
from PySide6.QtGui import QAction, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QMenu, QSizePolicy, QToolButton, QWidget
from typing_extensions import override

from plan_editor.desktop.parts import emptied, row
from plan_editor.desktop.theme import STEP

MORE = "More"


class FoldingRow(QWidget):
    """Buttons from the left, in the order of their importance.

    The row claims no width: it takes what it is given. A button that is down is never folded
    away without a word: *More* is down then and bears its title.
    """

    def __init__(self, called: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._buttons: tuple[QToolButton, ...] = ()
        self._folded: tuple[QToolButton, ...] = ()
        self.more = QToolButton(self)
        self.menu = QMenu(self.more)
        self._row = row(self, space=STEP)
        self._called = called
        self._dress()

    @property
    def folded(self) -> tuple[QToolButton, ...]:
        """The buttons that found no room."""
        return self._folded

    def show_buttons(self, buttons: Sequence[QToolButton]) -> None:
        """Show these buttons in place of those before."""
        self._row.removeWidget(self.more)
        emptied(self._row)
        self._buttons = tuple(buttons)
        for made in self._buttons:
            self._row.addWidget(made)
        self._row.addWidget(self.more)
        self._row.addStretch(1)
        self.fold()

    def fold(self) -> None:
        """Fold away what finds no room now; called again where a button has changed."""
        self._folded = self._without_room()
        for made in self._buttons:
            made.setVisible(made not in self._folded)
        down = next((b for b in self._folded if b.isChecked()), None)
        self.more.setText(MORE if down is None else f"{MORE}: {down.accessibleName()}")
        self.more.setChecked(down is not None)
        self.more.setVisible(bool(self._folded))

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(self.more.sizeHint().width(), self.sizeHint().height())

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fold()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.fold()  # only now the style has said how wide a button is

    def _dress(self) -> None:
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.more.setText(MORE)
        self.more.setCheckable(True)
        self.more.setAccessibleName(self._called)
        self.more.setToolTip(self._called)
        self.more.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.more.setMenu(self.menu)
        self.more.hide()
        self.menu.setAccessibleName(self._called)
        self.menu.aboutToShow.connect(self._list)
        self.menu.triggered.connect(self._chosen)

    def _without_room(self) -> tuple[QToolButton, ...]:
        wide = [made.sizeHint().width() + STEP for made in self._buttons]
        if sum(wide) <= self.width() + STEP:
            return ()
        left = self.width() - self.more.sizeHint().width()
        for number, width in enumerate(wide):
            left -= width
            if left < 0:
                return self._buttons[number:]
        return ()

    def _list(self) -> None:
        self.menu.clear()
        for number, made in enumerate(self._folded):
            key = made.property("keys") or ""
            title = made.accessibleName()
            action = QAction(made.icon(), f"{title}\t{key}" if key else title, self.menu)
            action.setCheckable(made.isCheckable())
            action.setChecked(made.isChecked())
            action.setEnabled(made.isEnabled())
            action.setData(number)
            self.menu.addAction(action)

    def _chosen(self, action: QAction) -> None:
        self._folded[action.data()].click()
        self.fold()
