"""A plan's file moved to another grid: whole, in place for others, old or new at a crash."""

import os
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from math import cos, radians, sin
from pathlib import Path
from typing import Any

import pyogrio
import pytest
import shapely
from keeping import graves
from shapely import Point
from strategies import one_of_each

from plan_editor.edits.basic import Add
from plan_editor.edits.frame import MoveToGrid
from plan_editor.edits.framing import KnownMark
from plan_editor.errors import DamagedPlan, NoRoom
from plan_editor.kinds import mark
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.kind import kinds
from plan_editor.storage.leftovers import leftovers
from plan_editor.storage.loading import read_plan
from plan_editor.storage.log import read_history
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify
from plan_editor.survey.grids.grid import Grid

LOCAL = Grid()
NATIONAL = Grid(crs="EPSG:27700", east=553_100.0, north=421_000.0)
TURN_DEG = -7.25
SCALE = 0.999889
AT = (553_112.0, 421_034.0)

MARKS = tuple(
    new_item(mark.KIND, Point(e, n), number=f"M {i}")
    for i, (e, n) in enumerate([(0, 0), (62, 3), (60, 41)], 1)
)


EVERY = tuple(i for i in one_of_each().items.values() if not hasattr(i.details, "digest"))
"""Two of every kind; base plans and papers among the invented ones have no bytes."""


def there(east: float, north: float) -> tuple[float, float]:
    """Return where a place of the local plan truly lies, worked out by hand."""
    t = radians(TURN_DEG)
    return (
        AT[0] + SCALE * (east * cos(t) + north * sin(t)),
        AT[1] + SCALE * (north * cos(t) - east * sin(t)),
    )


def move(*marks: Item[Any]) -> MoveToGrid:
    known = []
    for item in marks or MARKS:
        assert isinstance(item.shape, Point)
        east, north = there(item.shape.x, item.shape.y)
        known.append(KnownMark(mark=item.id, east=round(east, 3), north=round(north, 3)))
    return MoveToGrid(crs="EPSG:27700", marks=tuple(known))


def begun(path: Path, *items: Item[Any]) -> tuple[PlanFile, Document]:
    file = PlanFile.create(path, name="St Elfric", grid=LOCAL)
    document = Document(file.plan, journal=file, author="test")
    document.apply(Add((*MARKS, *items)))
    return file, document


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "plan.gpkg"


def test_a_moved_plan_is_read_back_as_it_is_and_is_whole(path: Path) -> None:
    file, document = begun(path, *EVERY)
    with file:
        document.apply(move())
        file.save()
    assert read_plan(path) == document.plan
    assert document.plan.grid == NATIONAL
    assert verify(path).findings == ()
    with PlanFile.open(path) as again:
        assert again.plan == document.plan
        assert again.changed_elsewhere == ()


def test_undo_and_redo_lead_to_the_same_file(path: Path) -> None:
    file, document = begun(path, *EVERY)
    with file:
        document.apply(move())
        document.undo()
        file.save()
        assert read_plan(path) == document.plan
        assert document.plan.grid == LOCAL
        assert verify(path).findings == ()
        document.redo()
        document.apply(Add(graves(3)))
        file.save()
    assert read_plan(path) == document.plan
    assert verify(path).findings == ()


def test_gdal_finds_everything_in_the_national_grid_where_it_truly_lies(path: Path) -> None:
    file, document = begun(path, *graves(5))
    with file:
        before = document.plan
        document.apply(move())
        file.save()
    for table in ("mark", "grave"):
        told, _, shapes, columns = pyogrio.raw.read(path, layer=table, columns=["id"])
        assert told["crs"] == "EPSG:27700"
        assert len(columns[0]) == len(before.by_kind[table])
        for wkb, found in zip(shapes, columns[0], strict=True):
            was = before.items[found].shape
            assert was is not None
            wanted = shapely.transform(was, lambda c: [there(*p) for p in c])
            assert shapely.from_wkb(wkb).equals_exact(wanted, 0.0015)
    box = pyogrio.read_info(path, layer="grave", force_total_bounds=True)["total_bounds"]
    assert 553_100 < box[0] < box[2] < 553_140
    assert 421_020 < box[1] < box[3] < 421_060


def test_every_table_says_the_new_system(path: Path) -> None:
    file, document = begun(path)
    with file:
        document.apply(move())
        file.save()
    with closing(sqlite3.connect(path)) as con:
        for table in ("gpkg_geometry_columns", "gpkg_contents"):
            found = con.execute(
                f"SELECT DISTINCT srs_id FROM {table} WHERE srs_id NOTNULL"
            ).fetchall()
            assert found == [(27700,)]
        count = con.execute("SELECT count(*) FROM gpkg_geometry_columns").fetchone()[0]
    assert count == sum(1 for k in kinds() if k.drawn)


def test_what_keeps_its_metres_has_its_row_written_anew(path: Path) -> None:
    # a shift by whole hundreds moves the origin only: no item changes, every row does
    file, document = begun(path, *graves(2))
    with file:
        marks = tuple(
            KnownMark(mark=i.id, east=i.shape.x + 700, north=i.shape.y + 300)
            for i in MARKS
            if isinstance(i.shape, Point)
        )
        entry = document.apply(MoveToGrid(crs="local", marks=marks))
        assert entry is not None
        assert entry.changes == ()
        file.save()
    assert read_plan(path) == document.plan
    assert verify(path).findings == ()
    box = pyogrio.read_info(path, layer="mark", force_total_bounds=True)["total_bounds"]
    assert box == pytest.approx((700, 300, 762, 341))


def test_each_entry_of_the_log_names_its_grid(path: Path) -> None:
    file, document = begun(path)
    with file:
        document.apply(move())
        document.apply(Add(graves(1)))
        document.undo()
        document.undo()
        entries = file.entries()
        file.save()
    told = [(e.grid_before, e.grid) for e in entries]
    assert told == [
        (LOCAL, LOCAL),
        (LOCAL, NATIONAL),
        (NATIONAL, NATIONAL),
        (NATIONAL, NATIONAL),
        (NATIONAL, LOCAL),
    ]
    lines = read_history(path)
    assert [line.grid for line in lines] == [after for _, after in told]
    assert [line.moves_grid for line in lines] == [False, True, False, False, True]


def test_what_another_program_changed_is_told_in_the_new_grid(path: Path) -> None:
    file, document = begun(path, *graves(2))
    with file:
        document.apply(move())
        file.save()
    with closing(sqlite3.connect(path)) as con:
        for name in ("ST_MinX", "ST_MaxX", "ST_MinY", "ST_MaxY", "ST_IsEmpty"):
            con.create_function(name, 1, lambda blob: 0 if blob else None)
        con.execute("UPDATE mark SET description = 'by the gate' WHERE number = 'M 2'")
        con.commit()
    with PlanFile.open(path) as again:
        (change,) = again.changed_elsewhere
        assert change.after is not None
        assert change.after.details.description == "by the gate"
        assert change.after.shape == document.plan.items[MARKS[1].id].shape


def test_a_settings_row_that_the_history_does_not_tell_of_is_found(path: Path) -> None:
    file, _ = begun(path)
    with file:
        file.save()
    with closing(sqlite3.connect(path)) as con:
        con.execute("UPDATE plan SET value = '12.0' WHERE key = 'origin_east'")
        con.commit()
    findings = verify(path).findings
    assert (
        "The plan is said to lie in a local grid, its origin at E 12, N 0, but its history ends"
        " in a local grid, its origin at E 0, N 0." in findings
    )


def test_a_log_that_names_no_grid_is_told_in_a_sentence(path: Path) -> None:
    file, _ = begun(path)
    with file:
        file.save()
    with closing(sqlite3.connect(path)) as con:
        con.execute("""UPDATE history SET grid = '["local", 0]'""")
        con.commit()
    with pytest.raises(DamagedPlan, match="its history names a grid that cannot be read"):
        read_history(path)
    assert "its history names a grid that cannot be read" in " ".join(verify(path).findings)


def test_where_there_is_no_room_nothing_is_changed(path: Path) -> None:
    file, document = begun(path, *graves(400))
    with file:
        before = document.plan
        con = file._copy._con
        pages = con.execute("PRAGMA page_count").fetchone()[0]
        con.execute(f"PRAGMA max_page_count = {pages + 3}")
        with pytest.raises(NoRoom, match="nothing was changed"):
            document.apply(move())
        con.execute("PRAGMA max_page_count = 1000000")
        assert document.plan is before
        assert file._copy.kept.grid == LOCAL
        assert read_plan(file.working_copy) == before
        assert verify(file.working_copy).findings == ()
        document.apply(move())
        file.save()
    assert read_plan(path) == document.plan
    assert verify(path).findings == ()


KILLED = """
import os, signal, sys
from pathlib import Path
from plan_editor.plan.document import Document
from plan_editor.storage import open_copy, regrid
from plan_editor.storage.plan_file import PlanFile
from test_storage_regrid import move

path, step = Path(sys.argv[1]), int(sys.argv[2])
calls = 0

def counted(function):
    def call(*args, **rest):
        global calls
        calls += 1
        if calls == step:
            os.kill(os.getpid(), signal.SIGKILL)
        return function(*args, **rest)
    return call

file = PlanFile.open(path)
document = Document(file.plan, journal=file)
for module, name in (
    (regrid.geopackage, "note_system"),
    (regrid, "encoded"),
    (open_copy.tables, "write"),
    (open_copy.history, "append"),
):
    setattr(module, name, counted(getattr(module, name)))
document.apply(move(*document.plan.by_kind["mark"].values()))
print("kept", calls, flush=True)
os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.parametrize("step", [1, 6, 30, -2, -1, 0])
def test_killed_in_the_middle_the_plan_is_the_old_or_the_new_one(
    path: Path, step: int, calls: int
) -> None:
    file, document = begun(path, *graves(5))
    with file:
        file.save()
    # 0 dies after the edit, -1 before the last call, which writes the log
    fatal = calls + 1 + step if step < 0 else step
    said = killed(path, fatal)
    assert said.startswith("kept") == (step == 0)
    old = read_plan(path)
    assert old == document.plan
    found = leftovers()
    if step == 0:
        assert verify(found[0].working_copy).findings == ()
    with PlanFile.recover(found[0]) if found else PlanFile.open(path) as again:
        assert again.plan.grid == (NATIONAL if step == 0 else LOCAL)
        assert again.changed_elsewhere == ()
        assert (again.plan == old) == (step != 0)
        again.save()
    assert verify(path).findings == ()


@pytest.fixture(scope="module")
def calls(tmp_path_factory: pytest.TempPathFactory) -> int:
    """Return how many calls the edit makes that are counted."""
    path = tmp_path_factory.mktemp("calls") / "plan.gpkg"
    file, _ = begun(path, *graves(5))
    with file:
        file.save()
    return int(killed(path, 0).split()[1])


def killed(path: Path, fatal: int) -> str:
    """Return what a child said that moved the plan and was killed at a call, or after all."""
    here = Path(__file__)
    folders = (here.parent, here.parent.parent, here.parents[2])
    done = subprocess.run(
        [sys.executable, "-c", KILLED, str(path), str(fatal)],
        stdout=subprocess.PIPE,
        text=True,
        check=False,
        timeout=60,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(map(str, folders))},
    )
    assert done.returncode == -signal.SIGKILL
    return done.stdout
