"""Who has a plan open: a file beside it, under a lock that ends when its holder dies."""

import json
import os
import sys
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from getpass import getuser
from pathlib import Path
from platform import node

from plan_editor.errors import NotAllowed, PlanInUse

if sys.platform == "win32":  # pragma: no cover  # seen on Windows only
    import msvcrt

    _FAR = 1 << 30  # a locked byte cannot be read there, so one far behind the text is locked

    def _seize(descriptor: int) -> bool:
        os.lseek(descriptor, _FAR, os.SEEK_SET)
        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True
else:
    import fcntl

    def _seize(descriptor: int) -> bool:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Holder:
    """Who holds a lock, and since when (ISO date and time, UTC)."""

    host: str
    user: str
    since: str

    def told(self) -> str:
        """Return it for a sentence: ``anne on vestry-pc since 2026-03-01 10:15 UTC``."""
        return f"{self.user} on {self.host} since {self.since[:16].replace('T', ' ')} UTC"


class Lock:
    """A file that this process holds locked until it is released or the process ends."""

    def __init__(self, path: Path, descriptor: int) -> None:
        self.path = path
        self._descriptor = descriptor

    def read(self) -> str:
        """Return what the last holder wrote."""
        os.lseek(self._descriptor, 0, os.SEEK_SET)
        return os.read(self._descriptor, 1 << 20).decode("utf-8", "replace")

    def write(self, text: str) -> None:
        """Write what others shall read."""
        os.lseek(self._descriptor, 0, os.SEEK_SET)
        os.ftruncate(self._descriptor, 0)
        os.write(self._descriptor, text.encode())

    def let_go(self) -> None:
        """Release the lock and leave the file."""
        os.close(self._descriptor)

    def release(self) -> None:
        """Release the lock and remove the file."""
        if sys.platform == "win32":  # pragma: no cover  # seen on Windows only
            self.let_go()
            self.path.unlink(missing_ok=True)
        else:
            self.path.unlink(missing_ok=True)
            self.let_go()


def seize(path: Path) -> Lock | None:
    """Return the lock of that file, or None where somebody else holds it.

    Raises:
        OSError: the file cannot be made.
    """
    while True:
        descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
        if not _seize(descriptor):
            os.close(descriptor)
            return None
        if _still_there(path, descriptor):
            return Lock(path, descriptor)
        os.close(descriptor)  # its holder removed it in this very moment: once more


def lock_plan(plan: Path, *, take_over: bool) -> Lock:
    """Return the lock of a plan.

    A lock that a program on this computer left when it died is free again. What another
    computer left may still be in use there, since not every network folder passes locks on: it
    is taken over by consent only.

    Raises:
        PlanInUse: somebody has the plan open, or had it on another computer.
        NotAllowed: the folder may not be written.
        OSError: the folder is not there, or full.
    """
    path = plan.with_name(f".{plan.name}.lock")
    try:
        lock = seize(path)
    except PermissionError as error:
        raise NotAllowed(
            f"{plan.parent} may not be written, so {plan.name} cannot be locked while it is"
            " open. It was not opened. Open it read-only, or check the folder's permissions."
        ) from error
    if lock is None:
        raise PlanInUse(_in_use(plan, _holder(path.read_text("utf-8", "replace"))))
    left = _holder(lock.read())
    if left is not None and left.host != node() and not take_over:
        lock.let_go()
        raise PlanInUse(_perhaps_in_use(plan, left), may_take_over=True)
    lock.write(json.dumps(asdict(_myself())))
    return lock


def _still_there(path: Path, descriptor: int) -> bool:
    try:
        return os.path.samestat(path.stat(), os.fstat(descriptor))
    except FileNotFoundError:
        return False


def _myself() -> Holder:
    now = datetime.now(UTC).isoformat(timespec="seconds")
    return Holder(host=node(), user=_user(), since=now)


def _user() -> str:
    try:
        return getuser()
    except (OSError, KeyError):  # the account has no name
        return "somebody"


def _holder(text: str) -> Holder | None:
    try:
        told = json.loads(text)
        return Holder(host=told["host"], user=told["user"], since=told["since"])
    except (ValueError, KeyError, TypeError):
        return None


def _in_use(plan: Path, holder: Holder | None) -> str:
    by = "somebody" if holder is None else holder.told()
    return (
        f"{plan.name} is open: {by}. It was not opened again."
        " Open it read-only, or close it there first."
    )


def _perhaps_in_use(plan: Path, holder: Holder) -> str:
    return (
        f"{plan.name} was opened by {holder.told()} and not closed. It was not opened again."
        " If it is no longer open there, take it over; else open it read-only."
    )
