"""Whether a file may be trusted: a plan, whole, known, that does nothing by itself."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from plan_editor.errors import DamagedPlan, HostilePlan, NewerPlan, NotAPlan, NotThere
from plan_editor.storage import geopackage, history, media, rtree, settings
from plan_editor.storage.connection import Connection
from plan_editor.storage.tables import layouts

_MAGIC = b"SQLite format 3\x00"
_OURS = (settings.TABLE, history.TABLE, media.TABLE)
_VERSION = re.compile("[0-9]{1,9}")
_OPEN_ANOTHER = "It was not opened. Choose a plan made by this program."
_ASK = "It was not opened, since it could do harm. Ask whoever sent it for a clean copy."
RESTORE = "It was not opened. Restore it from its .bak or a dated copy, with “restore”."
"""What to do about a damaged file."""


def check_file(path: Path) -> None:
    """Look at a file from outside, before any database program touches it.

    Raises:
        NotThere, NotAPlan, NewerPlan, DamagedPlan: it cannot be a plan of this version.
        OSError: it cannot be read.
    """
    if not path.exists():
        raise NotThere(
            f"There is no file {path}. Check its name, or whether its disk is connected."
        )
    if not path.is_file():
        raise NotAPlan(f"{path.name} is a folder or a device, not a file. {_OPEN_ANOTHER}")
    size = path.stat().st_size
    with path.open("rb") as file:
        head = file.read(100)
    if not head:
        raise NotAPlan(f"{path.name} is empty: it has no bytes at all. {RESTORE}")
    if not head.startswith(_MAGIC):
        raise NotAPlan(f"{path.name} is another sort of file. {_OPEN_ANOTHER}")
    if len(head) < 100:
        raise DamagedPlan(f"{path.name} is cut off. {RESTORE}")
    _check_head(path, head, size)


def check_content(con: Connection, path: Path) -> None:
    """Look into a file: tables, version, and that nothing in it acts by itself.

    Args:
        con: open on the file or on a copy of it.
        path: the file that the user knows.

    Raises:
        NotAPlan, NewerPlan, DamagedPlan, HostilePlan: it is not to be opened.
        sqlite3.Error, UnicodeDecodeError: it is damaged.
    """
    schema = _schema(con)
    there = {part.name for part in schema if part.type == "table"}
    if not there.issuperset((*geopackage.CORE, *_OURS)):
        raise NotAPlan(
            f"{path.name} is a GeoPackage, but not a plan of a churchyard. {_OPEN_ANOTHER}"
        )
    version = con.execute("SELECT value FROM plan WHERE key = 'format'").fetchone()
    if version is None or not _VERSION.fullmatch(str(version[0])):
        raise DamagedPlan(f"{path.name} does not say its version. {RESTORE}")
    if int(version[0]) > settings.FORMAT:
        raise NewerPlan(
            f"{path.name} was made by a later version of this program. It was not opened."
            " Install the latest version and open it again."
        )
    _check_harmless(con, path, schema)


def check_whole(con: Connection, path: Path) -> None:
    """Let the database look through all its pages.

    Raises:
        DamagedPlan: they do not fit together.
        sqlite3.Error, UnicodeDecodeError: the same.
    """
    verdict = con.execute("PRAGMA quick_check(1)").fetchone()[0]
    if verdict != "ok":
        raise DamagedPlan(f"{path.name} is damaged inside. {RESTORE}")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    type: str
    name: str
    table: str
    sql: str


def _check_head(path: Path, head: bytes, size: int) -> None:
    if _number(head, 68) != geopackage.APPLICATION_ID:
        raise NotAPlan(f"{path.name} is a database of another program. {_OPEN_ANOTHER}")
    if _number(head, 60) >= 20000:
        raise NewerPlan(
            f"{path.name} follows a later version of its standard. It was not opened."
            " Install the latest version of this program and open it again."
        )
    page = int.from_bytes(head[16:18])
    expected = _number(head, 28) * (65536 if page == 1 else page)
    if _number(head, 24) == _number(head, 92) and size < expected:
        raise DamagedPlan(
            f"{path.name} is cut off: {size} of {expected} bytes are there. {RESTORE}"
        )


def _number(head: bytes, at: int) -> int:
    return int.from_bytes(head[at : at + 4])


def _schema(con: Connection) -> list[_Part]:
    found = con.execute("SELECT type, name, tbl_name, sql FROM sqlite_master").fetchall()
    return [_Part(type=t, name=n, table=o, sql=s or "") for t, n, o, s in found]


def _check_harmless(con: Connection, path: Path, schema: Iterable[_Part]) -> None:
    columns = dict(
        con.execute("SELECT table_name, column_name FROM gpkg_geometry_columns").fetchall()
    )
    for part in schema:
        if part.type == "view":
            raise HostilePlan(f"{path.name} holds a view “{part.name}”. {_ASK}")
        if part.type == "trigger" and not _is_known(con, part, columns):
            raise HostilePlan(
                f"{path.name} holds a command that runs by itself, “{part.name}”. {_ASK}"
            )
        if _is_virtual(part) and not any(
            rtree.is_index(t, c, part.sql) for t, c in columns.items()
        ):
            raise HostilePlan(
                f"{path.name} holds a table “{part.name}” of a strange sort. {_ASK}"
            )
    for layout in layouts():
        hidden = con.execute(
            "SELECT 1 FROM pragma_table_xinfo(?) WHERE hidden > 0", (layout.table,)
        ).fetchone()
        if hidden:
            raise HostilePlan(
                f"{path.name} holds a table “{layout.table}” that computes by itself. {_ASK}"
            )


def _is_virtual(part: _Part) -> bool:
    return part.type == "table" and rtree.plain(part.sql[:80]).startswith("createvirtualtable")


def _is_known(con: Connection, part: _Part, columns: dict[str, str]) -> bool:
    column = columns.get(part.table)
    if column is None:
        return rtree.plain(part.sql) in rtree.known_counters(part.table)
    if part.sql in rtree.exactly(part.table, column):
        return True
    keys = con.execute(
        "SELECT name FROM pragma_table_info(?) WHERE pk = 1", (part.table,)
    ).fetchall()
    known = rtree.known_triggers(part.table, column, [k for (k,) in keys])
    return rtree.plain(part.sql) in known
