"""Where things are and what they are called."""

from dataclasses import replace

from shapely import Point
from strategies import kind_of, plain

from plan_editor.plan.change import Change
from plan_editor.plan.index import Index
from plan_editor.plan.plan import plan_of

NOTE, BURIAL = kind_of("note"), kind_of("burial")


def test_a_number_is_found_however_it_is_written() -> None:
    note = replace(plain(NOTE), number="C 14")
    index = Index(plan_of([note, plain(BURIAL, 2)]))
    assert index.numbered("c14") == index.numbered(" C 1 4") == (note.id,)
    assert index.numbered("C 15") == ()
    assert index.numbered("") == ()


def test_it_follows_what_changes() -> None:
    note = replace(plain(NOTE), number="1")
    index = Index(plan_of([]))
    index.follow([Change(None, note)])
    assert index.boxes.within((-1, -1, 1, 1)) == (note.id,)
    moved = replace(note.at(Point(50, 0)), number="2")
    index.follow([Change(note, moved)])
    assert index.boxes.within((-1, -1, 1, 1)) == ()
    assert index.boxes.within((49, -1, 51, 1)) == (note.id,)
    assert (index.numbered("1"), index.numbered("2")) == ((), (note.id,))
    index.follow([Change(moved, None)])
    assert len(index.boxes) == 0
    assert index.numbered("2") == ()


def test_what_loses_its_place_leaves_the_table_of_places() -> None:
    base = plain(kind_of("base_plan"))
    index = Index(plan_of([base]))
    index.follow([Change(base, replace(base, shape=None))])
    assert len(index.boxes) == 0


def test_one_number_may_be_borne_by_things_of_several_kinds() -> None:
    note, burial = replace(plain(NOTE, 1), number="7"), replace(plain(BURIAL, 2), number="7")
    index = Index(plan_of([note, burial]))
    assert index.numbered("7") == (note.id, burial.id)
    index.follow([Change(note, None)])
    assert index.numbered("7") == (burial.id,)
