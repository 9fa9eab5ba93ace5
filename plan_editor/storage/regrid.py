"""A plan's file moved to another grid: its settings, what is said of its tables, every row."""

from plan_editor.plan.change import Change
from plan_editor.plan.document import Entry
from plan_editor.plan.item import ItemId
from plan_editor.storage import geopackage, settings
from plan_editor.storage.blobs import decoded, encoded
from plan_editor.storage.connection import Connection
from plan_editor.storage.layout import FID, GEOM, ID, Layout
from plan_editor.storage.tables import columns_of, layouts


def move(con: Connection, entry: Entry) -> None:
    """Say that the plan lies in another grid, and write anew what the changes leave alone.

    Rows hold coordinates of the grid's system, items metres about the plan's origin: an item
    that is the same in those metres has another row. A row that is no item stays as it is.

    Args:
        con: within a transaction, before the changes are written.
        entry: what is done; its changes are still to be written.

    Raises:
        CannotUse: the grid's coordinate system is unknown or not in metres.
    """
    srs_id = geopackage.add_system(con, entry.grid.crs)
    settings.write(
        con,
        crs=entry.grid.crs,
        origin_east=entry.grid.east,
        origin_north=entry.grid.north,
    )
    rewritten = {c.id for c in entry.changes if _is_rewritten(c)}
    for layout in layouts():
        if layout.geometry and columns_of(con, layout.table):
            geopackage.note_system(con, layout.table, srs_id)
            _shift(con, layout, entry, rewritten)


def _is_rewritten(change: Change) -> bool:
    """Whether writing the change puts its row in place anyway; see ``tables.write``."""
    if change.before is None or change.after is None:
        return True
    return change.before.shape != change.after.shape


def _shift(con: Connection, layout: Layout, entry: Entry, rewritten: set[ItemId]) -> None:
    rows = con.execute(
        f'SELECT "{FID}", "{ID}", "{GEOM}" FROM "{layout.table}"'
        f' WHERE "{ID}" NOTNULL AND "{GEOM}" NOTNULL'
    ).fetchall()
    kept = [(fid, blob) for fid, item, blob in rows if item not in rewritten]
    shapes = decoded([blob for _, blob in kept], entry.grid_before)
    blobs = encoded(shapes.tolist(), entry.grid, entry.grid.epsg or -1)
    con.executemany(
        f'UPDATE "{layout.table}" SET "{GEOM}" = ? WHERE "{FID}" = ?',
        ((blob, fid) for (fid, _), blob in zip(kept, blobs, strict=True) if blob is not None),
    )
