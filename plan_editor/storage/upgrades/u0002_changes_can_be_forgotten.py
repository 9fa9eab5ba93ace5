"""Version 2: changes are committed to with salts, and an inspection may be of anything."""

import json
from typing import Any

from plan_editor.storage.connection import Connection
from plan_editor.storage.records import encode
from plan_editor.storage.upgrade import Upgrade

_KIND, _OLD, _NEW = "inspection", "memorial", "target"


def _run(con: Connection) -> None:
    con.execute("ALTER TABLE history ADD COLUMN salts TEXT NOT NULL DEFAULT '[]'")
    columns = {row[1] for row in con.execute(f"PRAGMA table_info({_KIND})")}
    if _OLD in columns:
        con.execute(f"ALTER TABLE {_KIND} RENAME COLUMN {_OLD} TO {_NEW}")
    found = con.execute(
        "SELECT number, changes FROM history WHERE instr(changes, ?) ORDER BY number",
        (f'"kind":"{_KIND}"',),
    ).fetchall()
    con.executemany(
        "UPDATE history SET changes = ? WHERE number = ?",
        ((_renamed(changes), number) for number, changes in found),
    )


def _renamed(changes: str) -> str:
    pairs: list[list[dict[str, Any] | None]] = json.loads(changes)
    for record in (side for pair in pairs for side in pair if side is not None):
        if record["kind"] == _KIND and _OLD in record["columns"]:
            record["columns"][_NEW] = record["columns"].pop(_OLD)
    return encode(pairs)


UPGRADE = Upgrade(to=2, title="changes can be forgotten; inspections of anything", run=_run)
