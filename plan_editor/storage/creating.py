"""A new plan's file."""

from contextlib import closing
from pathlib import Path

from plan_editor.errors import NotAllowed
from plan_editor.storage import geopackage, history, media, saving, settings, tables
from plan_editor.storage.connection import Connection, in_memory, transaction
from plan_editor.survey.grids.grid import Grid


def create(path: Path, *, name: str, grid: Grid) -> None:
    """Write the file of an empty plan.

    Raises:
        NotAllowed: there is a file of that name.
        CannotUse: the grid's coordinate system is unknown or not in metres.
        sqlite3.Error, OSError: it cannot be written.
    """
    if path.exists():
        raise NotAllowed(
            f"There is a file {path.name} already. No plan was made. Choose another name."
        )
    with closing(in_memory()) as con:
        fill(con, name=name, grid=grid)
        saving.publish(con, path)


def fill(con: Connection, *, name: str, grid: Grid) -> None:
    """Make an empty database the file of an empty plan.

    Raises:
        CannotUse: the grid's coordinate system is unknown or not in metres.
    """
    with transaction(con):
        srs_id = geopackage.create(con, grid.crs)
        for sql in (settings.SQL, history.SQL, media.SQL):
            con.execute(sql)
        geopackage.add_attributes(con, settings.TABLE, "The plan", "Name, grid, last Save.")
        geopackage.add_attributes(con, history.TABLE, "History", "Every edit, and by whom.")
        geopackage.add_attributes(con, media.TABLE, "Media", "Base plans and photographs.")
        tables.ensure(con, srs_id)
        media.ensure_mappings(con)
        settings.write(
            con,
            format=settings.FORMAT,
            name=name,
            crs=grid.crs,
            origin_east=grid.east,
            origin_north=grid.north,
        )
