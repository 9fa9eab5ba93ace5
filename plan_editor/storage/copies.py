"""Copies of a plan: the previous version, dated ones, and how to get one back."""

import os
import shutil
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from plan_editor.errors import FileProblem, NotThere
from plan_editor.storage import loading, settings
from plan_editor.storage.connection import reading
from plan_editor.storage.lock import lock_plan
from plan_editor.storage.problems import told
from plan_editor.storage.saving import backup_of

KEPT = 10
"""So many dated copies are kept; the oldest goes when there is one more."""

_STAMP = "%Y-%m-%d %H%M%S"


@dataclass(frozen=True, slots=True, kw_only=True)
class Restored:
    """What a plan was restored from, and where the file that it replaced is kept, if any."""

    source: Path
    kept: Path | None


def keep(plan: Path, folder: str) -> tuple[str, ...]:
    """Put a dated copy of a plan into a folder, if one is named, and drop the oldest ones.

    Returns a sentence if that failed, else nothing. A failure is told and not raised: the
    plan itself is saved by then.
    """
    if not folder:
        return ()
    try:
        with told(plan, "The dated copy was not made; the plan itself is saved."):
            target = Path(folder) / f"{plan.stem} {datetime.now(UTC):{_STAMP}}{plan.suffix}"
            _copy(plan, target)
            for old in dated(plan, folder)[:-KEPT]:
                old.unlink()
    except FileProblem as problem:
        return (str(problem),)
    return ()


def dated(plan: Path, folder: str) -> tuple[Path, ...]:
    """Return the dated copies of a plan in a folder, oldest first."""
    found = Path(folder).glob("*") if folder else ()
    return tuple(sorted(p for p in found if _date_of(plan, p)))


def keep_older_format(plan: Path) -> None:
    """Keep a file of an older version beside its plan, before it is brought up to date.

    Raises:
        OSError: it cannot be written.
    """
    with reading(plan) as con:
        version = settings.read(con).format
    kept = plan.with_name(f"{plan.name}.format-{version}.bak")
    if not kept.exists():
        _copy(plan, kept)


def newest_whole(path: Path) -> Path | None:
    """Return the copy that ``restore`` would put in the place of a plan, or None."""
    path = Path(path).resolve()
    return _first_whole(path, _newest_first(path, _folder_of(path)))


def restore(path: Path, from_date: str | None = None, *, folder: str = "") -> Restored:
    """Put a copy in the place of a plan; the file that it replaces is kept.

    Args:
        path: the plan.
        from_date: ISO date; the last dated copy of that day or before. None: the newest copy
            that is whole and not the same as the file.
        folder: where the dated copies are, if the plan can no longer tell.

    Raises:
        NotThere: there is no such copy that is whole.
        PlanInUse: somebody has the plan open.
        FileProblem: it could not be written.
    """
    path = Path(path).resolve()
    with told(path, "Nothing was restored."):
        lock = lock_plan(path, take_over=False)
        try:
            source = _wanted(path, from_date, folder or _folder_of(path))
            kept = _set_aside(path)
            _copy(source, path)
        finally:
            lock.release()
    return Restored(source=source, kept=kept)


def _wanted(path: Path, from_date: str | None, folder: str) -> Path:
    candidates = _newest_first(path, folder)
    if from_date is not None:
        dates = [(_date_of(path, p)[: len(from_date)], p) for p in candidates]
        candidates = [p for d, p in dates if d and d <= from_date]
    found = _first_whole(path, candidates)
    if found is not None:
        return found
    of_date = f" of {from_date} or before" if from_date else ""
    raise NotThere(
        f"There is no other whole copy of {path.name}{of_date}, neither dated nor .bak."
        " Nothing was restored. Look for copies made by hand."
    )


def _newest_first(path: Path, folder: str) -> list[Path]:
    return [*reversed(dated(path, folder)), backup_of(path)]


def _first_whole(path: Path, candidates: Iterable[Path]) -> Path | None:
    # a copy of what the file was when it was whole is the best there is, if it no longer is
    now = _save_id(path) if _is_whole(path) else ""
    for candidate in candidates:
        if _is_whole(candidate) and (not now or _save_id(candidate) != now):
            return candidate
    return None


def _is_whole(path: Path) -> bool:
    try:
        loading.read_plan(path)
    except FileProblem:
        return False
    return True


def _folder_of(path: Path) -> str:
    """Return the folder of dated copies, as the plan or its previous version knows it."""
    for file in (path, backup_of(path)):
        with suppress(FileProblem), told(file, ""):
            if file.exists():
                with reading(file) as con:
                    return settings.read(con).copies_folder
    return ""


def _save_id(path: Path) -> str:
    with suppress(FileProblem, ValueError), told(path, ""), reading(path) as con:
        return settings.read(con).save_id
    return ""


def _set_aside(path: Path) -> Path | None:
    if not path.exists():
        return None
    kept = path.with_name(f"{path.stem} replaced {datetime.now(UTC):{_STAMP}}{path.suffix}")
    _copy(path, kept)
    return kept


def _copy(source: Path, target: Path) -> None:
    part = target.with_name(f"{target.name}.part")
    shutil.copyfile(source, part)
    with part.open("rb+") as file:
        os.fsync(file.fileno())
    part.replace(target)


def _date_of(plan: Path, copy: Path) -> str:
    middle = copy.name.removeprefix(f"{plan.stem} ").removesuffix(plan.suffix)
    if copy.name != f"{plan.stem} {middle}{plan.suffix}":
        return ""
    with suppress(ValueError):
        return datetime.strptime(middle, _STAMP).replace(tzinfo=UTC).isoformat()
    return ""
