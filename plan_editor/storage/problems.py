"""What went wrong with a file: the one place where errors of the system become sentences."""

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from plan_editor.errors import (
    DamagedPlan,
    FileProblem,
    HostilePlan,
    NoRoom,
    NotAllowed,
    NotThere,
    PlanInUse,
)

_NO_ROOM = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
_NO_PATH = (errno.ENOENT, errno.ENOTDIR)
_WRITE_FAILED = (
    sqlite3.SQLITE_IOERR_WRITE,
    sqlite3.SQLITE_IOERR_FSYNC,
    sqlite3.SQLITE_IOERR_TRUNCATE,
    sqlite3.SQLITE_IOERR_SHMSIZE,
    sqlite3.SQLITE_IOERR_SHMOPEN,
)
_RESTORE = "Restore it from a copy, with “restore” or by hand."


@contextmanager
def told(path: Path, undone: str) -> Iterator[None]:
    """Turn what the system raises into a sentence about this file.

    Args:
        path: the file that the user knows.
        undone: a sentence that says what was not done: ``The plan was not saved.``

    Raises:
        FileProblem: something went wrong with the file, the disk or the folder.
    """
    try:
        yield
    except OSError as error:
        raise _of_system(error, path, undone) from error
    except UnicodeDecodeError as error:
        raise DamagedPlan(_damaged(path, undone)) from error
    except UnicodeEncodeError as error:
        raise NotAllowed(
            f"A text holds half a character, which no file can keep. {undone}"
            " Type that text again."
        ) from error
    except (sqlite3.ProgrammingError, sqlite3.InterfaceError):
        raise  # we used the library wrongly; nothing is wrong with the file
    except sqlite3.Error as error:
        raise _of_database(error, path, undone) from error


@contextmanager
def fitting(path: Path, undone: str) -> Iterator[None]:
    """Turn a log that cannot be read, or does not fit together, into a sentence.

    Raises:
        DamagedPlan: it is so.
    """
    try:
        yield
    except ValueError as error:
        raise DamagedPlan(_damaged(path, undone)) from error


def _of_system(error: OSError, path: Path, undone: str) -> FileProblem:
    if error.errno in _NO_ROOM:
        return NoRoom(_full(path, undone))
    if error.errno in _NO_PATH:
        missing = (error.filename or path) if path.parent.is_dir() else path.parent
        return NotThere(
            f"There is no file or folder {missing}. {undone}"
            " Check the name, or whether its disk is connected."
        )
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return NotAllowed(_forbidden(path, undone))
    why = (error.strerror or str(error)).lower()
    return NotAllowed(f"{path.name} could not be read or written ({why}). {undone} Try again.")


def _of_database(error: sqlite3.Error, path: Path, undone: str) -> FileProblem:
    extended: int = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR)
    match extended & 0xFF:
        case sqlite3.SQLITE_FULL:
            return NoRoom(_full(path, undone))
        case sqlite3.SQLITE_IOERR if extended in _WRITE_FAILED:
            return NoRoom(_full(path, undone))
        case sqlite3.SQLITE_READONLY | sqlite3.SQLITE_PERM | sqlite3.SQLITE_CANTOPEN:
            return NotAllowed(_forbidden(path, undone))
        case sqlite3.SQLITE_BUSY | sqlite3.SQLITE_LOCKED:
            return PlanInUse(
                f"Another program is writing to {path.name}. {undone} Close it there and try"
                " again."
            )
        case sqlite3.SQLITE_TOOBIG | sqlite3.SQLITE_AUTH:
            return HostilePlan(
                f"{path.name} holds something that no plan holds. {undone} Ask whoever sent it."
            )
        case _:
            return DamagedPlan(_damaged(path, undone))


def _full(path: Path, undone: str) -> str:
    return (
        f"There is no room left on the disk for {path.name}. {undone} Make room and try again."
    )


def _forbidden(path: Path, undone: str) -> str:
    return (
        f"{path} may not be read or written here. {undone}"
        " Check the permissions of the file and its folder."
    )


def _damaged(path: Path, undone: str) -> str:
    return f"{path.name} is damaged. {undone} {_RESTORE}"
