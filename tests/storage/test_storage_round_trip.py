"""What goes into a plan's file comes out of it: every kind, to the last bit."""

import shutil
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from uuid import uuid4

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    invariant,
    rule,
    run_state_machine_as_test,
)
from keeping import AT_SEA, graves, made
from strategies import edits, items_of, one_of_each

from plan_editor.edits.basic import Add, Remove
from plan_editor.errors import EditRefused
from plan_editor.plan.document import Document
from plan_editor.plan.kind import Kind, kinds
from plan_editor.plan.plan import Plan
from plan_editor.storage import creating, reading, records, tables
from plan_editor.storage.connection import Connection, in_memory
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify
from plan_editor.survey.grids.grid import Grid

KINDS = [pytest.param(kind, id=kind.name) for kind in kinds()]
FEWER = settings(max_examples=settings.default.max_examples // 5)
GRIDS = [pytest.param(Grid(), id="local"), pytest.param(AT_SEA, id="EPSG:27700")]


@pytest.fixture(scope="module")
def empty() -> Iterator[Connection]:
    con = in_memory()
    creating.fill(con, name="", grid=AT_SEA)
    yield con
    con.close()


@pytest.mark.parametrize("kind", KINDS)
@FEWER
@given(data=st.data())
def test_items_come_back_from_their_table_as_they_were(
    empty: Connection, kind: Kind, data: st.DataObject
) -> None:
    plan = one_of_each()
    drawn = data.draw(st.lists(items_of(kind, plan), max_size=4, unique_by=lambda i: i.id))
    far = data.draw(st.sampled_from([AT_SEA, Grid(east=0.1 + 0.2, north=-9_876_543.21)]))
    empty.execute("BEGIN")
    try:
        tables.insert(empty, kind, list(enumerate(drawn, 1)), far)
        found = reading.read_tables(empty, far)
    finally:
        empty.execute("ROLLBACK")
    assert found.items == tuple(drawn)
    assert not found.odd


@pytest.mark.parametrize("kind", KINDS)
@FEWER
@given(data=st.data())
def test_items_come_back_from_the_log_as_they_were(kind: Kind, data: st.DataObject) -> None:
    item = data.draw(items_of(kind, one_of_each()))
    assert records.item_of(records.record_of(item)) == item


@pytest.mark.parametrize("grid", GRIDS)
def test_a_plan_opens_as_it_was_saved(tmp_path: Path, grid: Grid) -> None:
    path = tmp_path / "plan #1 ?%41 ŵ.gpkg"
    with PlanFile.create(path, name="St Elfric ŵ", grid=grid) as file:
        document = Document(file.plan, journal=file, author="anne")
        document.apply(Add(tuple(one_of_each().items.values())))
        assert file.save() == ()
        saved = document.plan
    assert read_plan(path) == saved
    with PlanFile.open(path) as file:
        assert file.plan == saved
        assert (file.plan.name, file.plan.grid, file.plan.revision) == ("St Elfric ŵ", grid, 1)
        assert file.remarks == ()
        assert file.changed_elsewhere == ()


def test_items_come_back_in_the_order_in_which_they_came(tmp_path: Path) -> None:
    path = tmp_path / "plan.gpkg"
    mixed = tuple(one_of_each().items.values())
    with PlanFile.create(path, name="", grid=AT_SEA) as file:
        document = Document(file.plan, journal=file)
        document.apply(Add(mixed))
        document.undo()
        document.redo()
        file.save()
        order = list(document.plan.items)
    assert list(read_plan(path).items) == order == [i.id for i in mixed]


def test_a_plan_that_lost_the_last_of_a_kind_opens_as_it_was(tmp_path: Path) -> None:
    path = tmp_path / "plan.gpkg"
    with PlanFile.create(path, name="", grid=AT_SEA) as file:
        document = Document(file.plan, journal=file)
        one = graves(1)
        document.apply(Add(one))
        document.apply(Remove(ids=(one[0].id,)))
        file.save()
        assert read_plan(path) == document.plan


def test_the_log_comes_back_whole(tmp_path: Path) -> None:
    path = tmp_path / "plan.gpkg"
    with PlanFile.create(path, name="", grid=AT_SEA) as file:
        document = Document(file.plan, journal=file, author="anne")
        log = (
            document.apply(Add(tuple(one_of_each().items.values()))),
            document.undo(),
            document.redo(),
        )
        file.save()
    with PlanFile.open(path) as file:
        assert file.entries() == log


@pytest.fixture(scope="module")
def saved(tmp_path_factory: pytest.TempPathFactory) -> Path:
    items = one_of_each().items.values()
    return made(tmp_path_factory.mktemp("saved") / "plan.gpkg", items)


class SavedNowAndThen(RuleBasedStateMachine):
    """Any run of every edit, undo, redo and Save."""

    first: Path
    folder: Path

    def __init__(self) -> None:
        super().__init__()
        self.path = self.folder / f"{uuid4().hex}.gpkg"
        shutil.copyfile(self.first, self.path)
        self.open()

    def open(self) -> None:
        self.file = PlanFile.open(self.path)
        self.document = Document(self.file.plan, journal=self.file)

    @rule(data=st.data())
    def edit(self, data: st.DataObject) -> None:
        with suppress(EditRefused):
            self.document.apply(data.draw(edits(self.document.plan)))

    @rule()
    def undo(self) -> None:
        self.document.undo()

    @rule()
    def redo(self) -> None:
        self.document.redo()

    @rule()
    def save(self) -> None:
        self.file.save()
        assert not self.file.unsaved
        assert_same(read_plan(self.path), self.document.plan)

    @rule()
    def save_and_open_again(self) -> None:
        self.file.save()
        plan = self.document.plan
        self.file.close()
        self.open()
        assert_same(self.file.plan, plan)

    @invariant()
    def the_working_copy_has_the_plan(self) -> None:
        assert_same(read_plan(self.file.working_copy), self.document.plan)

    def teardown(self) -> None:
        self.file.save()
        self.file.close()
        found = verify(self.path).findings
        assert [f for f in found if "picture or paper" not in f] == []


def assert_same(one: Plan, other: Plan) -> None:
    assert one == other
    assert list(one.items) == list(other.items)


def test_any_run_of_edits_survives_saving(saved: Path, tmp_path: Path) -> None:
    class Machine(SavedNowAndThen):
        first, folder = saved, tmp_path

    run_state_machine_as_test(
        Machine,
        settings=settings(FEWER, stateful_step_count=12),
    )
