"""A plan written under another name, which nobody else may have open meanwhile."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from plan_editor.storage.lock import Lock, lock_plan
from plan_editor.storage.open_copy import OpenCopy
from plan_editor.storage.saving import Saved


@contextmanager
def put_under(copy: OpenCopy, path: Path) -> Iterator[tuple[Lock, Saved]]:
    """Write a plan under another name and give its lock there, to be kept.

    The lock is released where what is done with it fails.

    Raises:
        PlanInUse: somebody has a plan of that name open.
        sqlite3.Error, OSError: it could not be written; a file of that name is as it was.
    """
    lock = lock_plan(path, take_over=False)
    try:
        yield lock, copy.publish(path)
    except BaseException:
        lock.release()
        raise


def write_copy(copy: OpenCopy, path: Path) -> None:
    """Write a copy of a plan on which nobody goes on working.

    Raises:
        PlanInUse: somebody has a plan of that name open.
        sqlite3.Error, OSError: it could not be written; a file of that name is as it was.
    """
    lock = lock_plan(path, take_over=False)
    try:
        copy.publish(path)
    finally:
        lock.release()
