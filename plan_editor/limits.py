"""Foreign files are read in a process of their own, with a limit on time and memory.

A file made to do harm, or merely a broken one, may keep its reader busy for ever or fill the
memory of the machine. Then the process is stopped, and the program goes on as it was.
"""

import multiprocessing
import sys
from collections.abc import Callable
from math import ceil
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any, TypeVar

from plan_editor.errors import CannotRead, PlanEditorError

A = TypeVar("A")
R = TypeVar("R")

_GRACE = 5  # seconds

_STAY = "Nothing was changed. Ask its maker for a smaller or simpler copy."
_SLOW = f"The file could not be read in the time that is allowed for it. {_STAY}"
_LARGE = f"The file needs more memory to be read than is allowed for it. {_STAY}"
_DIED = f"The file made its reader stop, so nothing of it could be used. {_STAY}"


def in_child(function: Callable[[A], R], argument: A, *, seconds: float, memory: int) -> R:
    """Return what the function gives for the argument, worked out in a process of its own.

    Only the time is limited where the system is not Linux.

    Args:
        function: of a module, so that the other process finds it.
        argument: goes to the other process, as the answer comes back, as a pickle.
        seconds: what it may take, the start of the process included.
        memory: bytes that it may take beyond what it needs to start.

    Raises:
        CannotRead: it took too long or too much, or died.
        PlanEditorError: what the function raised.
    """
    processes = multiprocessing.get_context("spawn")
    ours, theirs = processes.Pipe(duplex=False)
    child = processes.Process(
        target=_work, args=(theirs, function, argument, seconds, memory), daemon=True
    )
    with ours:
        _start(child)
        theirs.close()
        try:
            found = _answer(ours, seconds)
        finally:
            child.kill()
            child.join()
            child.close()
    if isinstance(found, PlanEditorError):
        raise found
    answer: R = found
    return answer


def _start(child: BaseProcess) -> None:
    # the program's own worker is one that ends with the program, and such may not start others
    # unless it says that it is none
    here = multiprocessing.current_process()
    ends_with_its_parent = here.daemon
    here.daemon = False
    try:
        child.start()
    finally:
        here.daemon = ends_with_its_parent


def _answer(ours: Connection, seconds: float) -> Any:
    if not ours.poll(seconds):
        raise CannotRead(_SLOW)
    try:
        return ours.recv()
    except EOFError as error:
        raise CannotRead(_DIED) from error


def _work(
    theirs: Connection, function: Callable[[A], R], argument: A, seconds: float, memory: int
) -> None:
    # whatever else is raised ends this process with its traceback, and the other end says so;
    # where memory runs short it may do so in places from which nothing can be raised
    sys.unraisablehook = _say_nothing
    with theirs:
        try:
            _limit(seconds, memory)
            theirs.send(function(argument))
        except MemoryError:
            theirs.send(CannotRead(_LARGE))
        except PlanEditorError as error:
            theirs.send(error)


def _say_nothing(what: object) -> None:
    del what


def _limit(seconds: float, memory: int) -> None:
    if sys.platform == "linux":
        import resource  # noqa: PLC0415  # the system has it only here

        pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
        _lower(resource.RLIMIT_AS, pages * resource.getpagesize() + memory)
        # for the day when whoever waits for the answer is no longer there to end it
        _lower(resource.RLIMIT_CPU, ceil(seconds) + _GRACE)


def _lower(which: int, wanted: int) -> None:
    import resource  # noqa: PLC0415  # the system has it only here

    _, already = resource.getrlimit(which)
    most = wanted if already == resource.RLIM_INFINITY else min(wanted, already)
    resource.setrlimit(which, (most, most))
