"""Write a file whole or not at all: beside its place first, then put there in one step."""

import contextlib
import errno
import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from plan_editor.errors import FileProblem, NoRoom, NotAllowed

_FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})


@contextmanager
def written_whole(path: Path) -> Iterator[Path]:
    """Give the path of a file to write; once written it takes the place of ``path``.

    Where anything goes wrong what was there before stays, and nothing is left behind.

    Raises:
        NoRoom: the disk is full.
        NotAllowed: the file or its folder may not be written, or is not there.
    """
    with _told(path):
        handle, name = tempfile.mkstemp(
            prefix=f".{path.name}.", suffix=".part", dir=path.parent
        )
        os.close(handle)
        beside = Path(name)
        try:
            yield beside
            _put(beside, path)
        finally:
            beside.unlink(missing_ok=True)


def _put(beside: Path, path: Path) -> None:
    with beside.open("rb") as written:
        os.fsync(written.fileno())
    with contextlib.suppress(OSError):  # a disk of another system may know no rights
        beside.chmod(0o666 & ~_mask())
    beside.replace(path)


def _mask() -> int:
    mask = os.umask(0o077)
    os.umask(mask)
    return mask


@contextmanager
def _told(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise _problem(path, error) from error


def _problem(path: Path, error: OSError) -> FileProblem:
    if error.errno in _FULL:
        return NoRoom(
            f"There is no room for {path.name} in {path.parent}. What was there before is as "
            "it was. Choose another folder, or make room."
        )
    return NotAllowed(
        f"{path.name} cannot be written in {path.parent}: {error.strerror or error}. What was "
        "there before is as it was. Choose another folder or name."
    )
