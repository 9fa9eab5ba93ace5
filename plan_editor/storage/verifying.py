"""Whether a plan's file is what it was when it was saved: every finding in plain words."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from plan_editor.errors import DamagedPlan
from plan_editor.plan.change import Change
from plan_editor.plan.checks import fault_of, references
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.storage import (
    changed_elsewhere,
    history,
    loading,
    media,
    opening,
    reading,
    rtree,
    settings,
)
from plan_editor.storage.connection import Connection, DatabaseError
from plan_editor.storage.connection import reading as open_for_reading
from plan_editor.storage.layout import FID, GEOM
from plan_editor.storage.problems import told
from plan_editor.storage.tables import columns_of, layouts
from plan_editor.survey.grids.grid import Grid

_MOST = 20
"""So many single rows are named; of more only the number is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What was found in a plan's file.

    Args:
        path: the file.
        items, entries, media: how many things, log entries, and pictures or papers it holds.
        findings: sentences, each about something that is not as it should be.
    """

    path: Path
    items: int = 0
    entries: int = 0
    media: int = 0
    findings: tuple[str, ...] = ()

    @property
    def whole(self) -> bool:
        """Whether nothing was found."""
        return not self.findings


def verify(path: Path) -> Report:
    """Look through a plan's file, or a working copy, from end to end; nothing is written.

    Raises:
        FileProblem: it is not there, no plan, newer than this program, or not to be trusted;
            damage is not raised but reported.
    """
    path = Path(path).resolve()
    try:
        with told(path, "It was not looked through to the end."):
            opening.check_file(path)
            with open_for_reading(path) as con:
                opening.check_content(con, path)
                opening.check_whole(con, path)
                if settings.read(con).format == settings.FORMAT:
                    return _report(con, path)
            with loading.copied(path) as copy:
                loading.bring_up_to_date(copy)
                return _report(copy, path)
    except DamagedPlan as damage:
        return Report(path=path, findings=(str(damage),))
    except ValueError as error:
        return Report(path=path, findings=(f"{path.name} is damaged: {error}.",))


def _report(con: Connection, path: Path) -> Report:
    grid = settings.read(con).grid
    found = reading.read_with_newcomers(con, grid)
    findings = (
        *_database(con),
        *_log(con),
        *_grid(con, grid),
        *_tables(con, path, found),
        *_media(con),
        *_indexes(con),
        *_items(plan_of(found.items, grid=grid)),
    )
    return Report(
        path=path,
        items=len(found.items),
        entries=_count(con, history.TABLE),
        media=_count(con, media.TABLE),
        findings=findings,
    )


def _database(con: Connection) -> Iterator[str]:
    for (line,) in con.execute(f"PRAGMA integrity_check({_MOST})"):
        if line != "ok":
            yield f"The database is damaged: {line}."
    for table, fid, *_ in con.execute("PRAGMA foreign_key_check"):
        yield f"Row {fid} of table {table} points to a row that is gone."


def _log(con: Connection) -> Iterator[str]:
    before = history.START
    last = 0
    for link in history.links(con):
        number = link.plain[0]
        if number != last + 1:
            yield f"The history has no entry {last + 1}; the next one is {number}."
        if not link.agrees(before):
            yield f"Entry {number} of the history is not what it was when it was written."
        before, last = link.digest, number


def _grid(con: Connection, grid: Grid) -> Iterator[str]:
    logged = history.grid_of(con, history.tail_of(con).number)
    if logged is not None and logged != grid:
        yield (
            f"The plan is said to lie in {grid.told()}, but its history ends in"
            f" {logged.told()}."
        )


def _tables(con: Connection, path: Path, found: reading.Found) -> Iterator[str]:
    try:
        differences = changed_elsewhere.compared(con, found)
    except ValueError as error:
        yield f"The tables could not be compared with the history: {error}."
        return
    untouched = loading.untouched(path, settings.read(con).file_counter)
    by = "by damage to the file" if untouched else "by another program"
    for change in differences.changes[:_MOST]:
        yield f"{_changed(change)} {by}; the history does not tell of it."
    if (more := len(differences.changes) - _MOST) > 0:
        yield f"{more} more things were changed {by}."
    yield from (row.told() for row in differences.odd)
    yield from differences.notes


def _changed(change: Change) -> str:
    if change.after is None:
        return f"{change.before.called() if change.before else ''} was removed"
    return f"{change.after.called()} was {'added' if change.before is None else 'changed'}"


def _media(con: Connection) -> Iterator[str]:
    for row, name, digest in con.execute("SELECT id, name, sha256 FROM media").fetchall():
        if media.digest_of(con, row) != digest:
            yield f"The picture or paper “{name or digest[:8]}” is damaged."
    for title, digest in media.lacking(con):
        yield f"{title}: the picture or paper {digest[:8]}… that belongs to it is gone."


def _indexes(con: Connection) -> Iterator[str]:
    for layout in layouts():
        if layout.geometry and columns_of(con, layout.table):
            try:
                fits = _index_fits(con, layout.table)
            except DatabaseError:
                yield f"The spatial index of table {layout.table} is damaged."
            else:
                if not fits:
                    yield f"The spatial index of table {layout.table} does not fit its rows."


def _index_fits(con: Connection, table: str) -> bool:
    index = rtree.name(table, GEOM)
    if con.execute("SELECT rtreecheck(?)", (index,)).fetchone()[0] != "ok":
        return False
    astray = con.execute(
        f'SELECT count(*) FROM "{table}" t LEFT JOIN "{index}" r ON r.id = t."{FID}"'
        f' WHERE t."{GEOM}" IS NOT NULL AND NOT ifnull(r.minx <= ST_MinX(t."{GEOM}")'
        f' AND r.maxx >= ST_MaxX(t."{GEOM}") AND r.miny <= ST_MinY(t."{GEOM}")'
        f' AND r.maxy >= ST_MaxY(t."{GEOM}"), 0)'
    ).fetchone()[0]
    return not astray and _count(con, index) == _placed(con, table)


def _items(plan: Plan) -> Iterator[str]:
    for item in plan.items.values():
        if fault := fault_of(item):
            yield f"{item.called()} {fault}."
        for title, allowed, target in references(item):
            there = plan.items.get(target)
            if there is None or there.kind.name not in allowed:
                yield f"{item.called()} points, as “{title}”, at something that is gone."


def _count(con: Connection, table: str) -> int:
    return int(con.execute(f'SELECT count(*) FROM "{table}"').fetchone()[0])


def _placed(con: Connection, table: str) -> int:
    sql = f'SELECT count(*) FROM "{table}" WHERE "{GEOM}" IS NOT NULL'
    return int(con.execute(sql).fetchone()[0])
