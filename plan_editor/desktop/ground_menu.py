"""The menu that opens at the pointer on the ground, made of the commands that ask for it."""

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, Qt
from PySide6.QtGui import QAction, QContextMenuEvent, QMouseEvent
from PySide6.QtWidgets import QApplication, QMenu, QWidget
from typing_extensions import override

from plan_editor.commands.command import beside_pointer
from plan_editor.desktop.actions import Actions
from plan_editor.desktop.canvas.pointing import boxes_of
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.drafting.tool import Act
from plan_editor.plan.item import ItemId
from plan_editor.session import Session

MOST_BENEATH = 6
"""So many of the things that lie under one another are named."""

_NONE = Qt.KeyboardModifier.NoModifier


class PressedMenu(QMenu):
    """A menu that takes a release for a choice only where it was pressed, or moved over.

    A finger that opened it by being held still lies over one of its lines, on a small screen,
    and is lifted there: that chooses nothing.
    """

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._meant = False
        self._opened = QPoint()

    def open_from(self, place: QPoint) -> None:
        """Open it at a place of the screen, where a finger or the pointer is."""
        self._meant, self._opened = False, place
        self.popup(place)

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._meant = True
        super().mousePressEvent(event)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        way = event.globalPosition().toPoint() - self._opened
        self._meant = self._meant or way.manhattanLength() > QApplication.startDragDistance()
        super().mouseMoveEvent(event)

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._meant:
            super().mouseReleaseEvent(event)
        else:
            event.accept()


class GroundMenu(QObject):
    """Opened by the right button, by the key for it, and by a finger held still."""

    def __init__(self, session: Session, canvas: Canvas, actions: Actions) -> None:
        super().__init__(canvas)
        self._session = session
        self._canvas = canvas
        self._actions = actions
        self.menu = PressedMenu(canvas)
        self.menu.setAccessibleName("What can be done here")
        canvas.installEventFilter(self)
        canvas.viewport().installEventFilter(self)

    def open_at(self, at: QPoint) -> None:
        """Open it for what lies at a place of the view."""
        self._canvas.act_at(Act.MOVE, QPointF(at), _NONE)
        self._open(at)

    def open_here(self) -> None:
        """Open it by key: for what is chosen, else for what lies under the pointer."""
        if self._session.chosen:
            self._fill(())
            self._show(self._middle_of_chosen())
        elif (place := self._canvas.pointed_at) is not None:
            self.open_at(self._canvas.mapFromScene(*place))
        else:
            self.open_at(self._canvas.viewport().rect().center())

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if not isinstance(event, QContextMenuEvent):
            return False
        if event.reason() is QContextMenuEvent.Reason.Keyboard:
            self.open_here()
        else:
            self.open_at(event.pos())
        return True

    def _open(self, at: QPoint) -> None:
        hits = self._canvas.under_pointer
        if not self._canvas.begun:
            self._choose(hits)
        self._fill(hits)
        self._show(at)

    def _show(self, at: QPoint) -> None:
        self.menu.open_from(self._canvas.viewport().mapToGlobal(at))

    def _middle_of_chosen(self) -> QPoint:
        """Return where on the view what is chosen lies, or the middle where it is not seen."""
        seen = self._canvas.viewport().rect()
        for box in boxes_of(self._session, self._session.chosen):
            at = self._canvas.mapFromScene((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
            if seen.contains(at):
                return at
        return seen.center()

    def _choose(self, hits: tuple[ItemId, ...]) -> None:
        if not set(hits) & set(self._session.chosen):
            self._session.choose(hits[:1])

    def _fill(self, hits: tuple[ItemId, ...]) -> None:
        self.menu.clear()
        self._actions.refresh()
        if name := self._called():
            self.menu.addSection(name)
        tens = 0
        for command in beside_pointer():
            action = self._actions.action(command.name)
            if not action.isEnabled():
                continue
            if tens and command.beside // 10 != tens:
                self.menu.addSeparator()
            tens = command.beside // 10
            self.menu.addAction(action)
        self._add_beneath(hits)

    def _called(self) -> str:
        chosen = self._session.chosen
        if len(chosen) == 1:
            return self._session.document.plan.items[chosen[0]].called()
        return f"{len(chosen)} chosen" if chosen else ""

    def _add_beneath(self, hits: tuple[ItemId, ...]) -> None:
        others = [i for i in hits if i not in self._session.chosen][:MOST_BENEATH]
        if not others or self._canvas.begun:
            return
        within = self.menu.addMenu("Choose beneath it")
        for found in others:
            name = self._session.document.plan.items[found].called()
            action = within.addAction(name.replace("&", "&&"))
            action.setData(found)
            action.triggered.connect(self._take)

    def _take(self) -> None:
        action = self.sender()
        if isinstance(action, QAction):
            self._session.choose((ItemId(action.data()),))
