"""Version 3: a cordon may be put up round anything that is unsafe."""

from plan_editor.storage.connection import Connection
from plan_editor.storage.renaming import rename_detail
from plan_editor.storage.upgrade import Upgrade


def _run(con: Connection) -> None:
    rename_detail(con, "cordon", "memorial", "target")


UPGRADE = Upgrade(to=3, title="cordons round anything", run=_run)
