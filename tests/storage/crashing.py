"""A child process that edits and saves a plan until it is killed; it says what it has done.

Run as ``crashing.py PLAN MODE N``: *edits* makes edits until the parent kills it; *save* kills
itself at the N-th call of the system within a Save, or after it where there are not so many.
"""

import os
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from keeping import graves

from plan_editor.edits.basic import Add
from plan_editor.plan.document import Document
from plan_editor.storage.plan_file import PlanFile

CALLS = ("fsync", "link", "replace", "rename", "unlink", "open", "stat", "chmod")


def say(*words: object) -> None:
    """Tell the parent, at once."""
    os.write(1, (" ".join(map(str, words)) + "\n").encode())


def edit(file: PlanFile, document: Document, first: int) -> None:
    """Add one grave and say that it is kept."""
    document.apply(Add(graves(1, first=first)))
    say("kept", first)


def edits(path: Path, save_every: int) -> None:
    """Make edits, and save now and then, for ever."""
    file = PlanFile.open(path)
    document = Document(file.plan, journal=file)
    say("begun")
    for n in range(100, 1_000_000):
        edit(file, document, n)
        if save_every and n % save_every == 0:
            file.save()
            say("saved", n)


def save(path: Path, fatal: int) -> None:
    """Make edits and save; die at that call of the system within the Save."""
    file = PlanFile.open(path)
    document = Document(file.plan, journal=file)
    for n in range(100, 105):
        edit(file, document, n)
    counted = Counted(fatal)
    for name in CALLS:
        setattr(os, name, counted.call(getattr(os, name)))
    file.save()
    say("saved", counted.calls)
    os.kill(os.getpid(), signal.SIGKILL)


class Counted:
    """Counts calls and dies at one of them."""

    def __init__(self, fatal: int) -> None:
        self.calls = 0
        self.fatal = fatal

    def call(self, function: Callable[..., Any]) -> Callable[..., Any]:
        """Return the function, counted."""

        def counted(*args: Any, **rest: Any) -> Any:
            self.calls += 1
            if self.calls == self.fatal:
                say("dies before", function.__name__, *args)
                os.kill(os.getpid(), signal.SIGKILL)
            return function(*args, **rest)

        return counted


if __name__ == "__main__":
    plan, mode, number = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
    {"edits": edits, "save": save}[mode](plan, number)
