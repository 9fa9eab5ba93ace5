"""Answers to what a window asks, given beforehand: the edge at which a person would sit."""

from collections import deque
from pathlib import Path

from plan_editor.desktop.ask import WindowAsk
from plan_editor.desktop.house import House
from plan_editor.desktop.window import PlanWindow


class Script:
    """What will be answered, in turn; what was asked and told."""

    def __init__(self) -> None:
        self.files: deque[Path | None] = deque()
        self.answers: deque[int | None] = deque()
        self.asked: list[str] = []
        self.told: list[str] = []

    def ask(self, window: PlanWindow, house: House) -> "Scripted":
        """Make what answers the questions of a window."""
        return Scripted(window, house, self)


class Scripted(WindowAsk):
    """As in the window, but dialogs are answered from a script."""

    def __init__(self, window: PlanWindow, house: House, script: Script) -> None:
        super().__init__(window, window, house)
        self._script = script

    def file_to_open(self, title: str, suffixes: tuple[str, ...]) -> Path | None:
        self._script.asked.append(title)
        return self._script.files.popleft()

    def file_to_write(self, title: str, suffix: str, suggested: str) -> Path | None:
        self._script.asked.append(title)
        return self._script.files.popleft()

    def folder(self, title: str) -> Path | None:
        self._script.asked.append(title)
        return self._script.files.popleft()

    def which(self, question: str, answers: tuple[str, ...]) -> int | None:
        self._script.asked.append(question)
        return self._script.answers.popleft()

    def one_of(self, question: str, choices: tuple[str, ...]) -> int | None:
        self._script.asked.append(question)
        return self._script.answers.popleft()

    def number(self, question: str, least: int, most: int) -> int | None:
        self._script.asked.append(question)
        return self._script.answers.popleft()

    def tell(self, message: str) -> None:
        self._script.told.append(message)
        super().tell(message)
