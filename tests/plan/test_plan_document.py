"""The plan being worked on."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

import pytest
from strategies import kind_of, plain

from plan_editor.edits.basic import Add, Remove, Renumber, SetStatus
from plan_editor.errors import EditRefused, NoRoom
from plan_editor.plan.change import Change
from plan_editor.plan.document import Document, Entry
from plan_editor.plan.item import Item, Status
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.grids.grid import Grid

NOTE = replace(plain(kind_of("note")), number="7")
ADD = Add((NOTE,))


class Kept:
    """The log as a list."""

    def __init__(self) -> None:
        self.entries: list[Entry] = []

    def write(self, entry: Entry) -> None:
        self.entries.append(entry)


class Full:
    """A disk without room."""

    def write(self, entry: Entry) -> None:
        raise NoRoom("The disk is full. Nothing was changed.")


@dataclass(frozen=True)
class Wish:
    """An edit that says what it is told to say."""

    made: tuple[Change, ...]
    title: str = "Wish"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        return self.made


def document(*items: Item[Any], **rest: Any) -> Document:
    return Document(plan_of(items), clock=lambda: datetime(1962, 5, 1, 9, tzinfo=UTC), **rest)


def test_one_edit_is_one_entry_one_undo_step_and_one_notice() -> None:
    kept = Kept()
    doc = document(journal=kept, author="A. Sexton")
    told: list[tuple[Change, ...]] = []
    doc.changed.connect(told.append)
    entry = doc.apply(ADD)
    assert entry == Entry(
        number=1,
        title="Add note 7",
        author="A. Sexton",
        when="1962-05-01T09:00:00+00:00",
        changes=(Change(None, NOTE),),
        grid_before=Grid(),
        grid=Grid(),
    )
    assert kept.entries == [entry]
    assert told == [entry.changes]
    assert (doc.undo_title, doc.redo_title) == ("Add note 7", None)
    assert doc.plan.revision == 1


def test_what_is_taken_back_says_what_it_takes_back() -> None:
    kept = Kept()
    doc = document(journal=kept)
    doc.apply(ADD)
    entry = doc.undo()
    assert entry is not None
    assert (entry.number, entry.takes_back, entry.title) == (2, 1, "Add note 7")
    assert entry.changes == (Change(NOTE, None),)
    again = doc.redo()
    assert again is not None
    assert (again.number, again.takes_back, again.changes) == (3, None, (Change(None, NOTE),))
    assert kept.entries[1:] == [entry, again]
    assert dict(doc.plan.items) == {NOTE.id: NOTE}


def test_a_new_edit_puts_an_end_to_what_could_be_redone() -> None:
    doc = document(NOTE)
    doc.apply(Renumber(id=NOTE.id, number="8"))
    doc.undo()
    assert doc.redo_title == "Number 1 thing as 8"
    doc.apply(Renumber(id=NOTE.id, number="9"))
    assert doc.redo_title is None
    assert doc.redo() is None


def test_where_there_is_nothing_to_take_back_nothing_happens() -> None:
    doc = document(NOTE)
    assert doc.undo() is None
    assert doc.redo() is None
    assert doc.plan.revision == 0


@pytest.mark.parametrize(
    "edit",
    [
        Wish(()),
        Wish((Change(NOTE, NOTE),)),
        Wish((Change(None, None),)),
        Renumber(id=NOTE.id, number="7"),
        SetStatus(ids=(NOTE.id,), status=Status.EXISTING),
    ],
)
def test_an_edit_that_changes_nothing_leaves_no_undo_step(edit: Any) -> None:
    kept = Kept()
    doc = document(NOTE, journal=kept)
    told: list[Any] = []
    doc.changed.connect(told.append)
    before = doc.plan
    assert doc.apply(edit) is None
    assert (doc.plan, doc.undo_title, kept.entries, told) == (before, None, [], [])


def test_an_edit_that_is_refused_changes_nothing() -> None:
    kept = Kept()
    doc = document(NOTE, journal=kept)
    before = doc.plan
    with pytest.raises(EditRefused, match="is on the plan already"):
        doc.apply(ADD)
    assert (doc.plan, doc.undo_title, kept.entries) == (before, None, [])


def test_what_could_not_be_kept_was_not_done() -> None:
    doc = document(journal=Full())
    before = doc.plan
    with pytest.raises(NoRoom):
        doc.apply(ADD)
    assert doc.plan is before
    assert (doc.undo_title, doc.redo_title) == (None, None)
    assert len(doc.index.boxes) == 0


def test_what_could_not_be_kept_was_not_taken_back_or_done_again() -> None:
    doc = document()
    doc.apply(ADD)
    doc._journal = Full()  # the disk fills up while the plan is open
    with pytest.raises(NoRoom):
        doc.undo()
    assert (doc.undo_title, doc.redo_title) == ("Add note 7", None)
    doc._journal = None
    doc.undo()
    doc._journal = Full()
    with pytest.raises(NoRoom):
        doc.redo()
    assert (doc.undo_title, doc.redo_title) == (None, "Add note 7")
    assert not doc.plan.items


def test_nobody_edits_while_an_edit_is_announced() -> None:
    doc = document()
    doc.changed.connect(lambda _: doc.undo())
    with pytest.raises(RuntimeError, match="being announced"):
        doc.apply(ADD)
    assert dict(doc.plan.items) == {NOTE.id: NOTE}


def test_after_a_listener_failed_the_next_edit_is_taken() -> None:
    doc = document()

    def fail(_: Any) -> None:
        raise KeyError("a listener's own fault")

    end = doc.changed.connect(fail)
    with pytest.raises(KeyError):
        doc.apply(ADD)
    end()
    assert doc.apply(Remove(ids=(NOTE.id,))) is not None
    assert not doc.plan.items


def test_the_index_follows() -> None:
    doc = document()
    doc.apply(ADD)
    assert doc.index.numbered("7") == (NOTE.id,)
    doc.undo()
    assert doc.index.numbered("7") == ()


def test_it_knows_the_time_by_itself() -> None:
    entry = Document(plan_of([])).apply(ADD)
    assert entry is not None
    when = datetime.fromisoformat(entry.when)
    assert abs((datetime.now(UTC) - when).total_seconds()) < 60


def test_what_was_done_for_good_and_all_before_it_is_not_taken_back() -> None:
    made = document()
    made.apply(ADD)
    entry = made.apply_for_good(Remove(ids=(NOTE.id,)))
    assert entry is not None
    assert (made.undo_title, made.redo_title) == (None, None)
    assert made.undo() is None
    assert NOTE.id not in made.plan.items


def test_what_changes_nothing_for_good_leaves_what_can_be_undone() -> None:
    made = document()
    made.apply(ADD)
    assert made.apply_for_good(Wish(())) is None
    assert made.undo_title is not None
