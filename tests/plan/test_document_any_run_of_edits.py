"""Any run of every edit, undo and redo, over every kind, against a plain list of past plans."""

from collections.abc import Iterable
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule
from strategies import EDITS, one_of_each

from plan_editor.edits.basic import Add
from plan_editor.errors import EditRefused
from plan_editor.plan.change import Change
from plan_editor.plan.checks import fault_of
from plan_editor.plan.document import Document, Entry, Journal
from plan_editor.plan.edit import Edit
from plan_editor.plan.index import Index
from plan_editor.plan.item import BASE_PLAN, Item, ItemId
from plan_editor.plan.kind import Form, kinds
from plan_editor.plan.plan import Plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import LOCAL, Grid

FORM_OF = {
    "Point": {Form.POINT},
    "LineString": {Form.LINE},
    "Polygon": {Form.AREA, Form.RECTANGLE},
    "MultiPolygon": {Form.AREA, Form.RECTANGLE},
}

Held = dict[ItemId, Item[Any]]
Past = tuple[str, Held, Grid]
"""What undo would call it, and how the plan was."""


class Kept:
    """The log as a list."""

    def __init__(self) -> None:
        self.entries: list[Entry] = []

    def write(self, entry: Entry) -> None:
        self.entries.append(entry)


def follow(held: Held, changes: Iterable[Change]) -> None:
    for change in changes:
        if change.after is None:
            del held[change.id]
        else:
            held[change.id] = change.after


class AnyRunOfEdits(RuleBasedStateMachine):
    def __init__(self) -> None:
        super().__init__()
        self.kept = Kept()
        self.first = one_of_each()
        self.begin(self.first, self.kept)

    def begin(self, plan: Plan, journal: Journal) -> None:
        self.document = Document(
            plan, journal=journal, clock=lambda: datetime(1962, 5, 1, tzinfo=UTC)
        )
        self.past: list[Past] = [("", dict(plan.items), plan.grid)]
        self.future: list[Past] = []
        self.followed = dict(plan.items)
        self.document.changed.connect(lambda changes: follow(self.followed, changes))

    def edit(self, data: st.DataObject, sort: type) -> None:
        before = self.document.plan
        edit: Edit = data.draw(EDITS[sort](before))
        try:
            entry = self.document.apply(edit)
        except EditRefused:
            entry = None
        if entry is None:
            assert self.document.plan is before
        else:
            assert self.now() != self.past[-1][1:]
            self.past.append((edit.title, *self.now()))
            self.future.clear()

    def now(self) -> tuple[Held, Grid]:
        return dict(self.document.plan.items), self.document.plan.grid

    @rule()
    def undo(self) -> None:
        before, entry = self.document.plan, self.document.undo()
        if len(self.past) > 1:
            assert entry is not None
            self.future.append(self.past.pop())
        else:
            assert entry is None
            assert self.document.plan is before

    @rule()
    def redo(self) -> None:
        before, entry = self.document.plan, self.document.redo()
        if self.future:
            assert entry is not None
            self.past.append(self.future.pop())
        else:
            assert entry is None
            assert self.document.plan is before

    @invariant()
    def the_plan_is_the_one_remembered(self) -> None:
        assert self.now() == self.past[-1][1:]

    @invariant()
    def the_items_by_kind_are_the_items(self) -> None:
        by_kind = self.document.plan.by_kind
        held = {i: item for of_kind in by_kind.values() for i, item in of_kind.items()}
        assert held == dict(self.document.plan.items)
        assert all(
            item.kind.name == name for name in by_kind for item in by_kind[name].values()
        )

    @invariant()
    def undo_and_redo_are_offered_when_there_is_something(self) -> None:
        undo = self.past[-1][0] if len(self.past) > 1 else None
        redo = self.future[-1][0] if self.future else None
        assert (self.document.undo_title, self.document.redo_title) == (undo, redo)

    @invariant()
    def who_follows_the_changes_holds_the_same(self) -> None:
        assert self.followed == dict(self.document.plan.items)

    @invariant()
    def the_log_leads_to_the_plan(self) -> None:
        held = dict(self.first.items)
        grid = self.first.grid
        for number, entry in enumerate(self.kept.entries, 1):
            assert entry.number == number
            assert entry.grid_before == grid
            follow(held, entry.changes)
            grid = entry.grid
        assert (held, grid) == self.now()
        assert self.document.plan.revision == len(self.kept.entries)

    @invariant()
    def the_index_is_as_one_made_afresh(self) -> None:
        kept, fresh = self.document.index, Index(self.document.plan)
        items = self.document.plan.items
        assert len(kept.boxes) == len(fresh.boxes)
        assert all(kept.boxes.box(i) == fresh.boxes.box(i) for i in items if i in fresh.boxes)
        for number in {item.number for item in items.values()}:
            assert set(kept.numbered(number)) == set(fresh.numbered(number))

    @invariant()
    def no_item_refers_to_one_that_is_gone(self) -> None:
        items = self.document.plan.items
        for item in items.values():
            if item.basis.base_plan is not None:
                assert items[item.basis.base_plan].kind.name == BASE_PLAN
            for detail in item.kind.references():
                target = getattr(item.details, detail.name)
                assert target is None or items[target].kind.name in detail.about.refers_to

    @invariant()
    def no_number_is_borne_twice(self) -> None:
        for kind in {item.kind for item in self.document.plan.items.values()}:
            told = [i.number for i in self.document.plan.of(kind) if i.number]
            assert not kind.numbered or len({"".join(n.lower().split()) for n in told}) == len(
                told
            )

    @invariant()
    def every_shape_is_sound_and_of_its_kinds_form(self) -> None:
        for item in self.document.plan.items.values():
            if item.shape is None:
                assert item.rectangle is None
                assert Form.NONE in item.kind.forms
            else:
                assert item.shape.is_valid
                assert FORM_OF[item.shape.geom_type] & set(item.kind.forms)
            if item.rectangle is not None:
                assert item.shape == item.rectangle.outline()


def _rule_for(sort: type) -> Any:
    def one_edit(machine: AnyRunOfEdits, data: st.DataObject) -> None:
        machine.edit(data, sort)

    return rule(data=st.data())(one_edit)


for _sort in EDITS:
    setattr(AnyRunOfEdits, _sort.__name__, _rule_for(_sort))


class AnyRunOfEditsInAFile(AnyRunOfEdits):
    """The same with the plan's own file, which is saved, closed and opened again."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = TemporaryDirectory()
        path = Path(self.folder.name, "plan.gpkg")
        self.file = PlanFile.create(path, name="St Elfric", grid=Grid(crs=LOCAL))
        self.first = self.file.plan
        self.begin(self.first, self)
        self.add(one_of_each().items.values())

    def write(self, entry: Entry) -> None:
        self.file.write(entry)
        self.kept.write(entry)

    def add(self, items: Iterable[Item[Any]]) -> None:
        self.document.apply(Add(tuple(items)))
        self.past.append((self.document.undo_title or "", *self.now()))

    @rule()
    def save_and_open_again(self) -> None:
        self.file.save()
        self.file.close()
        self.file = PlanFile.open(self.file.path)
        assert self.file.plan == self.document.plan
        assert list(self.file.entries()) == self.kept.entries
        assert not self.file.changed_elsewhere
        self.begin(self.file.plan, self)

    def teardown(self) -> None:
        self.file.close()
        self.folder.cleanup()


TestAnyRunOfEdits = AnyRunOfEdits.TestCase
TestAnyRunOfEdits.settings = settings(
    max_examples=3 * settings.default.max_examples, stateful_step_count=30
)

TestAnyRunOfEditsInAFile = AnyRunOfEditsInAFile.TestCase
TestAnyRunOfEditsInAFile.settings = settings(
    max_examples=settings.default.max_examples // 5, stateful_step_count=20
)


def test_the_machine_begins_with_something_of_every_kind() -> None:
    by_kind = one_of_each().by_kind
    assert set(by_kind) == {kind.name for kind in kinds()}
    assert all(len(of_kind) == 2 for of_kind in by_kind.values())
    assert all(fault_of(item) == "" for item in one_of_each().items.values())
