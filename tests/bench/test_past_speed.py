"""How long another day takes out of a log of 10,000 entries, beside bare reading of rows."""

import random
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from time import perf_counter
from typing import Any

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from plan_editor.commands.history import Log, found, longer
from plan_editor.edits.basic import Add
from plan_editor.edits.places import Move
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave
from plan_editor.plan.comparing import compared
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import Plan
from plan_editor.storage.connection import writing
from plan_editor.storage.loading import read_plan
from plan_editor.storage.log import read_entries_of, read_entry
from plan_editor.storage.past import as_known
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

pytestmark = pytest.mark.bench

GRAVES = 1_000
ENTRIES = 10_000
ROUNDS = 5


@pytest.fixture(scope="module")
def logged(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A plan of 1,000 graves, of which one was moved 9,999 times over."""
    path = tmp_path_factory.mktemp("logged") / "plan.gpkg"
    chance = random.Random(1962)  # noqa: S311  # the same plan each time
    with PlanFile.create(path, name="", grid=Grid()) as file:
        file._copy._con.execute(
            "PRAGMA synchronous = OFF"
        )  # how safely it is kept is not asked
        work = Document(file.plan, journal=file, author="Warden")
        places = (
            Rectangle(east=2.5 * n, north=0, width=1.22, length=2.74) for n in range(GRAVES)
        )
        items = [new_item(grave.KIND, place, number=f"G {n}") for n, place in enumerate(places)]
        work.apply(Add(tuple(items)))
        for _ in range(ENTRIES - 1):
            work.apply(Move(ids=(chance.choice(items).id,), east=0.001, north=0.0))
        file.save()
    return path


def place(n: int) -> Rectangle:
    return Rectangle(east=2.5 * n, north=0, width=1.22, length=2.74)


def best(work: Callable[[], Any]) -> float:
    def once() -> float:
        begun = perf_counter()
        work()
        return perf_counter() - begun

    return min(once() for _ in range(ROUNDS))


def bare(path: Path) -> list[Any]:
    with closing(writing(path)) as con:
        return con.execute("SELECT number, changes FROM history ORDER BY number").fetchall()


def test_another_day_beside_bare_reading_of_the_rows(
    logged: Path, benchmark: BenchmarkFixture, capsys: pytest.CaptureFixture[str]
) -> None:
    now = read_plan(logged)
    read = best(lambda: bare(logged))
    log = longer(logged, Log())
    item = next(iter(now.items))
    works: dict[str, Callable[[], Any]] = {
        "as known, half way": lambda: as_known(logged, now, ENTRIES // 2),
        "as known, the second entry": lambda: as_known(logged, now, 2),
        "as known, the last but one": lambda: as_known(logged, now, ENTRIES - 1),
        "the list of all entries": lambda: longer(logged, Log()),
        "the list after one more entry": lambda: longer(logged, log),
        "finding words in the list": lambda: found(log, "move 2026"),
        "one entry": lambda: read_entry(logged, ENTRIES // 2),
        "the history of one thing": lambda: read_entries_of(logged, item),
        "comparing half way with now": lambda: compared(half(logged, now), now),
    }
    took = {name: best(work) for name, work in works.items()}
    benchmark.extra_info.update({name: one / read for name, one in took.items()})
    lines = (f"  {n}: {one * 1e3:.1f} ms, {one / read:.2f} times" for n, one in took.items())
    with capsys.disabled():
        print(  # noqa: T201  # it is the result
            f"\nbare reading of {ENTRIES} rows: {read * 1e3:.1f} ms", *lines, sep="\n"
        )
    benchmark(works["as known, half way"])


def half(path: Path, now: Plan) -> Plan:
    return as_known(path, now, ENTRIES // 2)
