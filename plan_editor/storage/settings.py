"""What the file keeps about the plan as a whole: its name, its grid, its last Save."""

from dataclasses import dataclass
from typing import Any

from plan_editor.storage.connection import Connection
from plan_editor.survey.grids.grid import LOCAL, Grid

TABLE = "plan"
SQL = (
    "CREATE TABLE plan (id INTEGER PRIMARY KEY NOT NULL, key TEXT NOT NULL UNIQUE, value TEXT)"
)

FORMAT = 3
"""The version of the file format; a greater one is from a later version of the program."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What is kept about the plan as a whole.

    Args:
        format: version of the file format.
        name: what the ground is called.
        crs, origin_east, origin_north: the grid.
        save_id: changes with every Save, so that somebody else's is noticed.
        saved_at: ISO date and time, UTC, of the last Save.
        saved_revision: number of the last log entry that was saved.
        file_counter: SQLite's own count of writes after the last Save; a greater one means that
            another program wrote to the file.
        copies_folder: where dated copies go at every Save; empty for nowhere.
    """

    format: int = FORMAT
    name: str = ""
    crs: str = LOCAL
    origin_east: float = 0.0
    origin_north: float = 0.0
    save_id: str = ""
    saved_at: str = ""
    saved_revision: int = 0
    file_counter: int = 0
    copies_folder: str = ""

    @property
    def grid(self) -> Grid:
        """The plan's grid."""
        return Grid(crs=self.crs, east=self.origin_east, north=self.origin_north)


def read(con: Connection) -> Settings:
    """Return the settings; what the file lacks has its default.

    Raises:
        ValueError: a number is written as no number.
    """
    kept = dict(con.execute("SELECT key, value FROM plan").fetchall())
    lacking = Settings()
    found: dict[str, Any] = {
        name: type(getattr(lacking, name))(kept[name])
        for name in Settings.__slots__
        if kept.get(name) is not None
    }
    return Settings(**found)


def write(con: Connection, **values: str | float) -> None:
    """Write these settings over those that are there; a number is kept to its last bit."""
    con.executemany(
        "INSERT INTO plan (key, value) VALUES (?, ?)"
        " ON CONFLICT (key) DO UPDATE SET value = excluded.value",
        ((key, str(value)) for key, value in values.items()),
    )
