"""Base plans, photographs and papers, kept as they came, each with its digest."""

from collections.abc import Iterator
from hashlib import sha256

from plan_editor.errors import DamagedPlan, NotAllowed
from plan_editor.plan.kind import kinds
from plan_editor.storage import geopackage
from plan_editor.storage.connection import Connection, transaction
from plan_editor.storage.layout import FID, layout_of

TABLE = "media"
SQL = """CREATE TABLE media (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, data BLOB NOT NULL, content_type TEXT NOT NULL,
  name TEXT NOT NULL DEFAULT '', sha256 TEXT NOT NULL UNIQUE)"""

PIECE = 1_000_000
"""Bytes read or written at a time, so that a large scan does not stand in memory twice."""

MOST = 1_000_000_000
"""SQLite keeps no more bytes than this in one row."""

DIGEST = "digest"
"""A detail of this name holds the digest of bytes that belong to the item."""


def add(con: Connection, content: bytes, *, content_type: str, name: str) -> str:
    """Keep bytes and return their digest; the same bytes are kept once.

    Raises:
        NotAllowed: there are too many of them.
    """
    if len(content) > MOST:
        raise NotAllowed(
            f"{name} is larger than 1 GB and cannot be kept in a plan. Nothing was changed."
            " Reduce it first."
        )
    digest = sha256(content).hexdigest()
    with transaction(con):
        if row_of(con, digest) is None:
            made = con.execute(
                "INSERT INTO media (data, content_type, name, sha256)"
                " VALUES (zeroblob(?), ?, ?, ?)",
                (len(content), content_type, name, digest),
            )
            _write(con, made.lastrowid or 0, content)
    return digest


def row_of(con: Connection, digest: str) -> int | None:
    """Return the row that holds the bytes with that digest, or None."""
    found = con.execute("SELECT id FROM media WHERE sha256 = ?", (digest,)).fetchone()
    return None if found is None else int(found[0])


def pieces(con: Connection, row: int) -> Iterator[bytes]:
    """Return the bytes of a row, piece by piece."""
    with con.blobopen(TABLE, "data", row, readonly=True) as blob:
        while piece := blob.read(PIECE):
            yield piece


def content(con: Connection, digest: str) -> bytes:
    """Return the bytes with that digest.

    Raises:
        DamagedPlan: they are not there, or not what they were.
    """
    row = row_of(con, digest)
    found = b"" if row is None else b"".join(pieces(con, row))
    if row is None or sha256(found).hexdigest() != digest:
        raise DamagedPlan(
            "A picture or paper of the plan is damaged or gone. It was not read."
            " Add it again from its original, or restore the plan from a copy."
        )
    return found


def digest_of(con: Connection, row: int) -> str:
    """Return the digest of the bytes that a row holds now."""
    summed = sha256()
    for piece in pieces(con, row):
        summed.update(piece)
    return summed.hexdigest()


def ensure_mappings(con: Connection) -> None:
    """Make the tables that say which media belong to which items, where they are lacking."""
    there = {r[0] for r in con.execute("SELECT mapping_table_name FROM gpkgext_relations")}
    for table in _with_media():
        if _mapping(table) not in there:
            geopackage.add_mapping(con, _mapping(table), table, TABLE)


def note_mappings(con: Connection) -> None:
    """Write which media belong to which items, for other programs."""
    for table in _with_media():
        con.execute(f'DELETE FROM "{_mapping(table)}"')
        con.execute(
            f'INSERT INTO "{_mapping(table)}" SELECT b."{FID}", m.id FROM "{table}" b'
            f' JOIN media m ON m.sha256 = b."{DIGEST}" ORDER BY 1, 2'
        )


def lacking(con: Connection) -> Iterator[tuple[str, str]]:
    """Return what items refer to and is not there: a title for the row, and the digest."""
    for table in _with_media():
        yield from (
            (f"Row {fid} of table {table}", digest)
            for fid, digest in con.execute(
                f'SELECT "{FID}", "{DIGEST}" FROM "{table}" WHERE "{DIGEST}" != \'\''
                f' AND "{DIGEST}" NOT IN (SELECT sha256 FROM media)'
            )
        )


def _with_media() -> list[str]:
    return [k.name for k in kinds() if DIGEST in layout_of(k).names]


def _mapping(table: str) -> str:
    return f"{table}_{TABLE}"


def _write(con: Connection, row: int, content: bytes) -> None:
    with con.blobopen(TABLE, "data", row) as blob:
        for start in range(0, len(content), PIECE):
            blob.write(content[start : start + PIECE])
