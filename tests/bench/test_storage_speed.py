"""How long opening and editing a large plan take, beside the bare libraries in the same run."""

import gc
import random
import shutil
import sqlite3
import struct
from collections import defaultdict
from collections.abc import Callable, Sequence
from contextlib import closing
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

import numpy as np
import pytest
import shapely
from pytest_benchmark.fixture import BenchmarkFixture

from plan_editor.edits.basic import Add
from plan_editor.edits.places import Move
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave
from plan_editor.plan.document import Document, Entry
from plan_editor.plan.item import Basis, Item, Method, new_item
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

pytestmark = pytest.mark.bench

GRAVES = 50_000
ROUNDS = 7
EDITS = 120


def a_grave(n: int, turn: float) -> Item[Any]:
    place = Rectangle(
        east=2.5 * (n % 250), north=3.0 * (n // 250), width=1.22, length=2.74, bearing_deg=turn
    )
    basis = Basis(method=Method.TAPED, source=f"Field book {n // 5000}", sd_m=0.05)
    return new_item(grave.KIND, place, number=f"G {n}", basis=basis)


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A plan of 50,000 graves, each turned its own way."""
    turns = random.Random(1962)  # noqa: S311  # the same plan each time
    path = tmp_path_factory.mktemp("large") / "plan.gpkg"
    with PlanFile.create(
        path, name="", grid=Grid(crs="EPSG:27700", east=456e3, north=218e3)
    ) as f:
        items = tuple(a_grave(n, turns.uniform(0.0, 10.0)) for n in range(GRAVES))
        Document(f.plan, journal=f).apply(Add(items))
        f.save()
    return path


@pytest.fixture(autouse=True)
def a_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))


@pytest.fixture
def told(
    capsys: pytest.CaptureFixture[str],
) -> Callable[[str, list[float], list[float]], float]:
    """Return what says on the screen how long we took beside the bare libraries."""

    def told(title: str, ours: list[float], bare: list[float]) -> float:
        ratio = median(ours) / median(bare)
        times = f"{median(ours) * 1e3:.2f} ms, bare {median(bare) * 1e3:.2f} ms"
        with capsys.disabled():
            print(f"\n{title}: {times}, ratio {ratio:.2f}")  # noqa: T201  # it is the result
        return ratio

    return told


def seconds(work: Callable[[], Any]) -> float:
    start = perf_counter()
    work()
    return perf_counter() - start


def test_opening_50_000_graves(
    large: Path, told: Callable[..., float], benchmark: BenchmarkFixture
) -> None:
    def bare() -> int:
        with closing(sqlite3.connect(large)) as con:
            rows = con.execute("SELECT * FROM grave").fetchall()
        return len(shapely.from_wkb(np.array([row[1][40:] for row in rows], dtype=object)))

    opened: list[PlanFile] = []
    ours_took: list[float] = []
    bare_took: list[float] = []
    for _ in range(ROUNDS):
        gc.collect()
        bare_took.append(seconds(bare))
        gc.collect()
        ours_took.append(seconds(lambda: opened.append(PlanFile.open(large))))
        file = opened.pop()
        assert file.plan.count(grave.KIND) == bare() == GRAVES
        file.close()
        del file
    benchmark.extra_info["ratio"] = told("Opening 50,000 graves (goal 2)", ours_took, bare_took)
    benchmark.pedantic(lambda: PlanFile.open(large).close(), rounds=3)


class Bare:
    """The plainest calls of sqlite3 that keep the same two rows as safely: WAL, FULL."""

    def __init__(self, path: Path, *, indexed: bool) -> None:
        self.con = sqlite3.connect(path, isolation_level=None)
        self.con.execute("PRAGMA journal_mode = WAL")
        self.con.execute("PRAGMA synchronous = FULL")
        for at, name in enumerate(("ST_MinX", "ST_MaxX", "ST_MinY", "ST_MaxY")):
            self.con.create_function(name, 1, partial(_box, at), deterministic=True)
        self.con.create_function("ST_IsEmpty", 1, lambda b: b is None, deterministic=True)
        if not indexed:
            triggers = "SELECT name FROM sqlite_master WHERE type = 'trigger'"
            for (name,) in self.con.execute(triggers).fetchall():
                self.con.execute(f'DROP TRIGGER "{name}"')

    def write(self, row: tuple[Any, ...], line: tuple[Any, ...]) -> None:
        """Keep a row and a line of the log."""
        self.con.execute("BEGIN IMMEDIATE")
        self.con.execute("UPDATE grave SET geom = ? WHERE fid = ?", row)
        self.con.execute("INSERT INTO history VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", line)
        self.con.execute("COMMIT")


def _box(at: int, blob: bytes) -> float:
    return float(struct.unpack_from("<d", blob, 8 + 8 * at)[0])


Kept = tuple[tuple[Any, ...], tuple[Any, ...]]


def kept_by(path: Path, entries: Sequence[Entry]) -> list[Kept]:
    """Return the row and the line of the log that each of these edits comes to."""
    with PlanFile.open(path) as file:
        for entry in entries:
            file.write(entry)
        with closing(sqlite3.connect(file.working_copy)) as con:
            row = "SELECT geom, fid FROM grave WHERE id = ?"
            line = "SELECT * FROM history WHERE number = ?"
            return [
                (
                    con.execute(row, (entry.changes[0].id,)).fetchone(),
                    con.execute(line, (entry.number,)).fetchone(),
                )
                for entry in entries
            ]


def moves(path: Path) -> list[Entry]:
    """Return edits that each move one grave."""
    document = Document(read_plan(path))
    ids = list(document.plan.items)
    made = (
        document.apply(Move(ids=(ids[n * 397],), east=0.1, north=0.0)) for n in range(EDITS)
    )
    return [entry for entry in made if entry is not None]


def test_one_durable_edit(
    large: Path, tmp_path: Path, told: Callable[..., float], benchmark: BenchmarkFixture
) -> None:
    entries = moves(large)
    kept = kept_by(large, entries)
    ways = {"with R-tree, goal 1.5": True, "without R-tree": False}
    bare = {
        name: Bare(Path(shutil.copyfile(large, tmp_path / f"{indexed}.gpkg")), indexed=indexed)
        for name, indexed in ways.items()
    }
    took: dict[str, list[float]] = defaultdict(list)
    with PlanFile.open(large) as file:
        for entry, (row, line) in zip(entries, kept, strict=True):
            took["ours"].append(seconds(partial(file.write, entry)))
            for name, one in bare.items():
                took[name].append(seconds(partial(one.write, row, line)))
        assert len(file.entries()) == 1 + EDITS
    for name, one in bare.items():
        count = one.con.execute("SELECT count(*) FROM history").fetchone()[0]
        one.con.close()
        assert count == 1 + EDITS
        title = f"One durable edit (bare {name})"
        benchmark.extra_info[name] = told(title, took["ours"], took[name])
    benchmark.pedantic(lambda: moves(large), rounds=1)
