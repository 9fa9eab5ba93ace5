"""A long look through the plan, begun anew after every edit."""

from collections.abc import Callable
from threading import Event
from typing import Generic, TypeVar

from PySide6.QtWidgets import QWidget

from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.plan.change import Change
from plan_editor.plan.plan import Plan

Found = TypeVar("Found")

Stopped = Callable[[], bool]


class LongLook(Generic[Found]):
    """Looks in the background while a widget can be seen; an edit stops what is under way."""

    def __init__(
        self,
        widget: QWidget,
        desk: Desk,
        *,
        about: str,
        look: Callable[[Plan, Stopped], Found | None],
        done: Callable[[Found], None],
    ) -> None:
        """Begin when the widget is seen.

        Args:
            widget: that shows what is found.
            desk: with the plan.
            about: what the work is about.
            look: returns what is found, None where it was stopped; runs in a thread.
            done: is told what was found.
        """
        self._desk = desk
        self._about = about
        self._look = look
        self._done = done
        self._stop = Event()
        changed = desk.session.document.changed
        self._follow = Follow(widget, self._begin, changed)
        until_gone(widget, changed.connect(self._outdated), self._end)

    def now(self) -> None:
        """Look at once."""
        self._follow.now()

    def _begin(self) -> None:
        self._stop.set()
        self._stop = Event()
        self._desk.background.in_thread(
            Work(
                about=self._about,
                title="",
                function=self._look,
                arguments=(self._desk.session.document.plan, self._stop.is_set),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, found: Found | None) -> None:
        if found is not None:  # else it was stopped: an edit came, and the next look follows
            self._done(found)

    def _outdated(self, changes: tuple[Change, ...]) -> None:
        del changes
        self._end()  # whatever is still being looked at is the plan before

    def _end(self) -> None:
        self._stop.set()
