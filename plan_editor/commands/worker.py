"""What the second process does: one piece of work after another, until its pipe is closed.

ezdxf and reportlab hold the interpreter while they work; in the window's own process they would
starve the painter.
"""

import os
import signal
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection
from typing import Any

from plan_editor.errors import PlanEditorError

MORE_PATIENT = 5
"""By how much the second process stands back behind the window's own, as ``nice`` counts."""


@dataclass(frozen=True, slots=True)
class Task:
    """A function of some module, and its arguments; both are sent to the other process.

    Args:
        number: told with all that comes of it.
        function: what does it.
        arguments: that it is given.
        tells: whether it takes ``progress`` too, to be told the share that is done.
    """

    number: int
    function: Callable[..., Any]
    arguments: tuple[Any, ...]
    tells: bool = False


@dataclass(frozen=True, slots=True)
class Share:
    """So much of it is done, from 0 to 1."""

    number: int
    done: float


@dataclass(frozen=True, slots=True)
class Done:
    """What came of it."""

    number: int
    value: Any


@dataclass(frozen=True, slots=True)
class Refused:
    """It could not be done; the error's text is for the user."""

    number: int
    error: PlanEditorError


@dataclass(frozen=True, slots=True)
class Broke:
    """Our bug: the traceback, for the log."""

    number: int
    trace: str


Outcome = Done | Refused | Broke


def serve(pipe: Connection) -> None:
    """Do what comes through the pipe, and send back what came of it, until it is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the window decides when to stop
    if hasattr(os, "nice"):
        os.nice(MORE_PATIENT)
    while True:
        try:
            task: Task = pipe.recv()
        except EOFError:
            return
        pipe.send(outcome(task, pipe.send))


def outcome(task: Task, tell: Callable[[Share], None]) -> Outcome:
    """Do one piece of work; where it tells how far it is, hand that on."""

    def progress(done: float) -> None:
        tell(Share(task.number, done))

    more = {"progress": progress} if task.tells else {}
    try:
        return Done(task.number, task.function(*task.arguments, **more))
    except PlanEditorError as refused:
        return Refused(task.number, refused)
    except Exception:  # noqa: BLE001  # the edge of the process: it is told across, and told on
        return Broke(task.number, traceback.format_exc())
