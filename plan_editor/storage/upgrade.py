"""Steps from one version of the file format to the next, one file each in ``upgrades/``."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from plan_editor.declared import declared
from plan_editor.storage import settings
from plan_editor.storage.connection import Connection, transaction


@dataclass(frozen=True, slots=True, kw_only=True)
class Upgrade:
    """One step of the file format.

    Args:
        to: the version that it leads to; the one before is where it starts.
        title: what it changes, in a few words.
        run: makes the change, within a transaction.
    """

    to: int
    title: str
    run: Callable[[Connection], None]


def upgrades() -> tuple[Upgrade, ...]:
    """Return every step, oldest first."""
    return declared("plan_editor.storage.upgrades", "UPGRADE", Upgrade)


def upgraded(con: Connection, steps: Sequence[Upgrade]) -> bool:
    """Bring an older file up to date, all steps or none; return whether any was due.

    Raises:
        ValueError: there is no step from the file's version.
    """
    start = settings.read(con).format
    wanted = [s for s in sorted(steps, key=lambda s: s.to) if s.to > start]
    if [s.to for s in wanted] != list(range(start + 1, start + 1 + len(wanted))):
        raise ValueError(f"no way from version {start} of the file format")
    with transaction(con):
        for step in wanted:
            step.run(con)
            settings.write(con, format=step.to)
    return bool(wanted)
