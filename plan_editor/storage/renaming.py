"""A detail that bears another name from a version of the file format on."""

import json
from typing import Any

from plan_editor.storage.connection import Connection
from plan_editor.storage.records import encode


def rename_detail(con: Connection, kind: str, old: str, new: str) -> None:
    """Rename a detail of a kind in its table, if there is one, and in the log's records."""
    columns = {row[1] for row in con.execute(f"PRAGMA table_info({kind})")}
    if old in columns:
        con.execute(f"ALTER TABLE {kind} RENAME COLUMN {old} TO {new}")
    found = con.execute(
        "SELECT number, changes FROM history WHERE instr(changes, ?) ORDER BY number",
        (f'"kind":"{kind}"',),
    ).fetchall()
    con.executemany(
        "UPDATE history SET changes = ? WHERE number = ?",
        ((_renamed(changes, kind, old, new), number) for number, changes in found),
    )


def _renamed(changes: str, kind: str, old: str, new: str) -> str:
    pairs: list[list[dict[str, Any] | None]] = json.loads(changes)
    for record in (side for pair in pairs for side in pair if side is not None):
        if record["kind"] == kind and old in record["columns"]:
            record["columns"][new] = record["columns"].pop(old)
    return encode(pairs)
