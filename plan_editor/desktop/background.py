"""Long work beside the window: one spawned process, and threads. Nothing else makes either."""

import multiprocessing
import threading
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from typing import Any

from PySide6.QtCore import QObject, Qt, Signal

from plan_editor.commands.worker import (
    Broke,
    Done,
    Outcome,
    Refused,
    Share,
    Task,
    outcome,
    serve,
)
from plan_editor.errors import PlanEditorError

GONE = (
    "The work stopped before it was done, and nothing was changed. Try it again; where it stops"
    " again, the machine may be short of memory."
)

THREADS = 4
"""So many work at a time; saving must not wait for a scan that is being prepared."""

BROKE = "That could not be done, and nothing was changed."


class WorkBroke(Exception):  # named for what happened
    """Our bug, in the other process or in a thread; its text is the traceback there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """One piece of long work.

    Args:
        about: what it is about; newer work about the same makes the answer of older work stale,
            and it is dropped.
        title: while it goes on: ``Making the mowing map``.
        function: of a module, so that another process finds it.
        arguments: small values: paths and names, never a plan.
        done: is told the answer, in the window's thread.
        failed: is told why it could not be done; the text of the error is for the user.
        told: is told the share that is done, from 0 to 1, in the window's thread; the function
            then takes ``progress`` beside its arguments. None where nobody asks.
        may_stop: whether the user may stop it; saving goes on to its end. Work in the second
            process may always be stopped.
    """

    about: str
    title: str
    function: Callable[..., Any]
    arguments: tuple[Any, ...] = ()
    done: Callable[[Any], None]
    failed: Callable[[PlanEditorError], None]
    told: Callable[[float], None] | None = None
    may_stop: bool = True


class Background(QObject):
    """Does long work and brings the answers back. ``changed`` when work begins or ends."""

    changed = Signal()
    _heard = Signal(object)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._numbers = 0
        self._newest: dict[str, int] = {}
        self._going: dict[int, Work] = {}
        self._waiting: deque[Task] = deque()
        self._busy: int | None = None
        self._process: SpawnProcess | None = None
        self._pipe: Connection | None = None
        self._open = True
        self._speaking = threading.Lock()
        self._room = threading.Semaphore(THREADS)
        self._heard.connect(self._hear, Qt.ConnectionType.QueuedConnection)

    @property
    def title(self) -> str:
        """What is going on; empty where nothing is."""
        return next((w.title for w in self._going.values() if w.title), "")

    def in_process(self, work: Work) -> None:
        """Do work that holds the interpreter, in the second process, one after another."""
        task = self._begin(work)
        self._waiting.append(task)
        self._send_next()

    def in_thread(self, work: Work) -> None:
        """Do work that lets go of the interpreter (numpy, decoding, waiting), in a thread."""
        task = self._begin(work)
        threading.Thread(target=self._do, args=(task,), daemon=True).start()

    @property
    def may_stop(self) -> bool:
        """Whether anything that is going on can be stopped."""
        return any(w.may_stop for w in self._going.values() if w.title)

    def goes_on(self, about: str) -> bool:
        """Whether there is work about something."""
        return any(w.about == about for w in self._going.values())

    def stop(self) -> None:
        """Stop what may be stopped; no answers come. Threads end by themselves, unheard."""
        self._going = {n: w for n, w in self._going.items() if not w.may_stop}
        self._waiting.clear()
        self._end_process()
        self.changed.emit()

    def end(self) -> None:
        """Stop everything, as the window closes; whatever still works is unheard."""
        with self._speaking:
            self._open = False
        self._going.clear()
        self.stop()

    def _begin(self, work: Work) -> Task:
        self._numbers += 1
        stale = self._newest.get(work.about)
        self._going.pop(stale or 0, None)
        self._waiting = deque(t for t in self._waiting if t.number != stale)
        self._newest[work.about] = self._numbers
        self._going[self._numbers] = work
        self.changed.emit()
        return Task(self._numbers, work.function, work.arguments, tells=work.told is not None)

    def _do(self, task: Task) -> None:
        with self._room:
            if task.number in self._going:  # else newer work has made it stale meanwhile
                self._emit(outcome(task, self._emit))

    def _send_next(self) -> None:
        if self._busy is not None or not self._waiting:
            return
        task = self._waiting.popleft()
        self._busy = task.number
        self._started().send(task)

    def _started(self) -> Connection:
        if self._pipe is not None:
            return self._pipe
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe()
        self._process = context.Process(target=serve, args=(theirs,), daemon=True)
        self._process.start()
        theirs.close()
        self._pipe = ours
        threading.Thread(target=self._listen, args=(ours,), daemon=True).start()
        return ours

    def _listen(self, pipe: Connection) -> None:
        try:
            while True:
                self._emit(pipe.recv())
        except (EOFError, OSError):
            self._emit(pipe)
        pipe.close()

    def _emit(self, heard: Outcome | Share | Connection) -> None:
        # the lock holds the object alive while another thread speaks to it
        with self._speaking:
            if self._open:
                self._heard.emit(heard)

    def _hear(self, heard: Outcome | Share | Connection) -> None:
        if isinstance(heard, (Done, Refused, Broke)):
            self._answer(heard)
        elif isinstance(heard, Share):
            self._tell(heard)
        elif heard is self._pipe and self._busy is not None:
            lost = self._busy
            self._end_process()
            self._answer(Refused(lost, PlanEditorError(GONE)))

    def _tell(self, share: Share) -> None:
        work = self._going.get(share.number)
        if work is not None and work.told is not None:
            work.told(share.done)

    def _answer(self, heard: Outcome) -> None:
        if heard.number == self._busy:
            self._busy = None
        work = self._going.pop(heard.number, None)
        self._send_next()
        self.changed.emit()
        if work is None:
            return
        match heard:
            case Done(_, value):
                work.done(value)
            case Refused(_, error):
                work.failed(error)
            case Broke(_, trace):
                work.failed(PlanEditorError(BROKE))
                raise WorkBroke(trace)

    def _end_process(self) -> None:
        # the listening thread finds the pipe at its end, and closes it
        self._busy = self._pipe = None
        process, self._process = self._process, None
        if process is not None:
            process.terminate()
            process.join()
