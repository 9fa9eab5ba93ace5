"""Steps from one version of the file format to the next, one file each in ``upgrades/``."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from plan_editor.declared import declared
from plan_editor.storage import history, settings
from plan_editor.storage.connection import Connection, transaction


@dataclass(frozen=True, slots=True, kw_only=True)
class Upgrade:
    """One step of the file format.

    Args:
        to: the version that it leads to; the one before is where it starts.
        title: what it changes, in a few words.
        run: makes the change, within a transaction, in the tables and in the records of the
            log alike; the digests of the log are taken anew afterwards.
    """

    to: int
    title: str
    run: Callable[[Connection], None]


def upgrades() -> tuple[Upgrade, ...]:
    """Return every step, oldest first."""
    return declared("plan_editor.storage.upgrades", "UPGRADE", Upgrade)


def upgrade(con: Connection, steps: Sequence[Upgrade], to: int) -> None:
    """Bring an older file up to date, all steps or none.

    Raises:
        ValueError: no steps lead there from the file's version.
    """
    start = settings.read(con).format
    wanted = sorted((s for s in steps if start < s.to <= to), key=lambda s: s.to)
    if [s.to for s in wanted] != list(range(start + 1, to + 1)):
        raise ValueError(f"no way leads from version {start} of its format to version {to}")
    with transaction(con):
        for step in wanted:
            step.run(con)
            settings.write(con, format=step.to)
        history.seal(con)
