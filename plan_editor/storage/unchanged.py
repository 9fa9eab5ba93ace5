"""Whether a plan's file is still the one that was opened."""

from pathlib import Path

from plan_editor.errors import ChangedElsewhere
from plan_editor.storage import settings
from plan_editor.storage.connection import reading
from plan_editor.storage.saving import counter_of


def refuse_if_changed(path: Path, counter: int, save_id: str) -> None:
    """Let nobody write over what somebody else saved meanwhile.

    Args:
        path: the plan's file; one that is gone may be written.
        counter: SQLite's count of writes to it, when it was opened or saved here.
        save_id: of its last Save then.

    Raises:
        ChangedElsewhere: the file is no longer the one that was opened.
        sqlite3.Error, OSError, ValueError: it cannot be read.
    """
    if not path.exists() or _is_the_same(path, counter, save_id):
        return
    raise ChangedElsewhere(
        f"Somebody else has written to {path.name} since it was opened here. It was not saved;"
        " every edit is safe and nothing is lost. Save under another name, or over the other's"
        " work."
    )


def _is_the_same(path: Path, counter: int, save_id: str) -> bool:
    if counter_of(path) != counter:
        return False
    with reading(path) as con:
        return settings.read(con).save_id == save_id
