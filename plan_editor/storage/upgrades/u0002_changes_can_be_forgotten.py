"""Version 2: changes are committed to with salts, and an inspection may be of anything."""

from plan_editor.storage.connection import Connection
from plan_editor.storage.renaming import rename_detail
from plan_editor.storage.upgrade import Upgrade


def _run(con: Connection) -> None:
    con.execute("ALTER TABLE history ADD COLUMN salts TEXT NOT NULL DEFAULT '[]'")
    rename_detail(con, "inspection", "memorial", "target")


UPGRADE = Upgrade(to=2, title="changes can be forgotten; inspections of anything", run=_run)
