from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Point
from strategies import EDITS, edits, one_of_each, plain

from plan_editor.edits.basic import Add, Describe, Remove, Renumber, SetBasis, SetStatus
from plan_editor.edits.frame import MoveToGrid
from plan_editor.edits.framing import KnownMark
from plan_editor.edits.places import Move, Turn
from plan_editor.edits.reverting import TakeBack
from plan_editor.errors import EditRefused
from plan_editor.kinds import grave, mark, memorial, tree
from plan_editor.kinds.grave import State
from plan_editor.plan.document import Document, Entry
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, ItemId, Status
from plan_editor.plan.plan import plan_of

GRAVE = replace(plain(grave.KIND), number="C 14")
STONE = replace(plain(memorial.KIND, 1), number="9")
OAK = plain(tree.KIND, 2)
DAY = "3 May 2026"


def document() -> Document:
    return Document(
        plan_of([GRAVE, STONE, OAK]), clock=lambda: datetime(2026, 5, 3, tzinfo=UTC)
    )


def done(work: Document, edit: Edit) -> Entry:
    entry = work.apply(edit)
    assert entry is not None
    return entry


def back(entry: Entry, **rest: Any) -> TakeBack:
    return TakeBack(entry=entry, day=DAY, **rest)


def move(item: Item[Any], east: float = 1.0) -> Move:
    return Move(ids=(item.id,), east=east, north=0.0, called="grave C 14")


@given(data=st.data())
def test_taking_back_the_last_entry_is_undo(data: st.DataObject) -> None:
    work = Document(one_of_each())
    edit = data.draw(edits(work.plan))
    assume(not isinstance(edit, MoveToGrid))
    try:
        entry = work.apply(edit)
    except EditRefused:
        entry = None
    assume(entry is not None)
    assert entry is not None
    made = work.plan
    work.undo()
    undone = work.plan
    work.redo()
    assert work.plan.items == made.items
    work.apply(back(entry))
    assert work.plan.items == undone.items
    work.undo()
    assert work.plan.items == made.items


@given(data=st.data())
def test_taking_back_an_older_entry_that_touched_other_things_leaves_what_the_later_one_made(
    data: st.DataObject,
) -> None:
    work = Document(one_of_each())
    sorts = [Move, Turn, Describe, SetStatus, SetBasis]
    first = data.draw(EDITS[data.draw(st.sampled_from(sorts))](work.plan))
    later = data.draw(EDITS[data.draw(st.sampled_from(sorts))](work.plan))
    alone = Document(one_of_each())
    try:
        entry, after = work.apply(first), work.apply(later)
        alone.apply(later)
    except EditRefused:
        entry = after = None
    assume(entry is not None and after is not None)
    assert entry is not None
    assert after is not None
    assume({c.id for c in entry.changes}.isdisjoint(c.id for c in after.changes))
    work.apply(back(entry))
    assert work.plan.items == alone.plan.items


def test_it_is_one_undo_step_and_says_what_and_of_when() -> None:
    work = document()
    entry = done(work, move(GRAVE))
    done(work, move(STONE))
    taken = done(work, back(entry))
    assert work.undo_title == "Take back “Move grave C 14” of 3 May 2026"
    assert taken.takes_back == entry.number
    assert work.plan.items[GRAVE.id] == GRAVE
    work.undo()
    assert work.plan.items[GRAVE.id] != GRAVE
    again = work.redo()
    assert again is not None
    assert again.takes_back == entry.number


def test_only_the_fields_that_the_entry_changed_are_taken_back() -> None:
    work = document()
    entry = done(work, move(GRAVE))
    done(work, Describe(ids=(GRAVE.id,), details=(("state", State.FREE),)))
    done(work, Renumber(id=GRAVE.id, number="C 15"))
    done(work, back(entry))
    now = work.plan.items[GRAVE.id]
    assert (now.shape, now.rectangle) == (GRAVE.shape, GRAVE.rectangle)
    assert (now.details.state, now.number) == (State.FREE, "C 15")


def test_what_was_set_back_by_hand_meanwhile_is_no_hindrance() -> None:
    work = document()
    entry = done(
        work,
        Describe(ids=(GRAVE.id,), details=(("state", State.FREE), ("remarks", "wet"))),
    )
    done(work, Describe(ids=(GRAVE.id,), details=(("state", State.UNKNOWN),)))
    done(work, back(entry))
    assert work.plan.items[GRAVE.id] == GRAVE


def later_move(work: Document) -> None:
    work.apply(move(GRAVE, 2.0))


def later_removal(work: Document) -> None:
    work.apply(Remove(ids=(GRAVE.id,)))


@pytest.mark.parametrize(
    ("first", "later", "said"),
    [
        (move(GRAVE), later_move, "Grave C 14 was changed since by that. Nothing was changed."),
        (move(GRAVE), later_removal, "Grave C 14 was removed since by that. Nothing"),
    ],
)
def test_what_stands_in_the_way_is_named(
    first: Edit, later: Callable[[Document], None], said: str
) -> None:
    work = document()
    entry = done(work, first)
    later(work)
    before = work.plan
    with pytest.raises(EditRefused, match=said):
        work.apply(back(entry, since=((GRAVE.id, "by that"),)))
    assert work.plan is before


def test_a_thing_that_was_added_and_changed_since_is_not_removed() -> None:
    work = document()
    new = plain(tree.KIND, 9)
    entry = done(work, Add((new,)))
    done(work, SetStatus(ids=(new.id,), status=Status.PROPOSED))
    with pytest.raises(EditRefused, match="Tree was changed since"):
        work.apply(back(entry))


def test_a_thing_that_was_removed_comes_back_and_one_that_was_added_goes() -> None:
    work = document()
    gone = done(work, Remove(ids=(OAK.id,)))
    new = plain(tree.KIND, 9)
    come = done(work, Add((new,)))
    work.apply(back(gone))
    work.apply(back(come))
    assert dict(work.plan.items) == dict(document().plan.items)


def test_a_thing_that_was_removed_brought_back_and_changed_stays() -> None:
    work = document()
    gone = done(work, Remove(ids=(OAK.id,)))
    work.undo()
    done(work, SetStatus(ids=(OAK.id,), status=Status.PROPOSED))
    with pytest.raises(EditRefused, match="Tree was brought back since"):
        work.apply(back(gone))


def test_a_number_that_is_borne_by_another_now_is_not_given_back() -> None:
    work = document()
    gone = done(work, Remove(ids=(GRAVE.id,)))
    done(work, Add((replace(plain(grave.KIND, 7), number="c14"),)))
    with pytest.raises(EditRefused, match="already a grave numbered C 14"):
        work.apply(back(gone))


def test_taking_back_twice_changes_nothing() -> None:
    work = document()
    entry = done(work, move(GRAVE))
    work.apply(back(entry))
    assert work.apply(back(entry)) is None


def test_of_many_things_in_the_way_three_are_named_and_the_rest_counted() -> None:
    trees = tuple(plain(tree.KIND, n) for n in range(20, 25))
    work = document()
    entry = done(work, Add(trees))
    done(work, SetStatus(ids=tuple(t.id for t in trees), status=Status.PROPOSED))
    with pytest.raises(EditRefused) as refused:
        work.apply(back(entry))
    assert str(refused.value).count("Tree was changed since") == 3
    assert "and 2 more stand in the way" in str(refused.value)


# grids


def marks(work: Document) -> tuple[KnownMark, ...]:
    """Add two marks, and say where they lie a kilometre away, turned by a right angle."""
    known = []
    for n, (east, north) in enumerate(((0.0, 0.0), (30.0, 0.0))):
        item = replace(
            plain(mark.KIND, 50 + n).at(Point(east, north)), number=f"M{n}", id=ItemId(f"m{n}")
        )
        work.apply(Add((item,)))
        known.append(KnownMark(mark=item.id, east=1000.0 + north, north=1000.0 - east))
    return tuple(known)


def test_an_entry_that_moved_the_grid_is_not_taken_back() -> None:
    work = document()
    entry = done(work, MoveToGrid(crs="local", marks=marks(work)))
    with pytest.raises(EditRefused, match="moved to another grid by that"):
        work.apply(back(entry))


def test_places_from_before_a_move_of_the_grid_are_not_taken_back_but_words_are() -> None:
    work = document()
    moved = done(work, move(GRAVE))
    removed = done(work, Remove(ids=(OAK.id,)))
    told = done(work, Describe(ids=(GRAVE.id,), details=(("state", State.FREE),)))
    done(work, MoveToGrid(crs="local", marks=marks(work)))
    for entry in (moved, removed):
        with pytest.raises(EditRefused, match="moved to another grid since"):
            work.apply(back(entry))
    here = work.plan.items[GRAVE.id]
    done(work, back(told))
    now = work.plan.items[GRAVE.id]
    assert now.details.state is State.UNKNOWN
    assert (now.shape, now.rectangle) == (here.shape, here.rectangle)
