"""Every item at one moment."""

from dataclasses import replace

import pytest
from hypothesis import given
from strategies import kind_of, one_of_each, plain, plans

from plan_editor.plan.change import Change
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.grids.grid import Grid

NOTE, PATH = kind_of("note"), kind_of("path")


def test_a_plan_begins_with_nothing() -> None:
    assert (len(Plan().items), Plan().revision, Plan().grid) == (0, 0, Grid())
    assert list(Plan().of(NOTE)) == []
    assert Plan().count(NOTE) == 0


def test_it_finds_its_items_by_kind_in_the_order_in_which_they_came() -> None:
    notes = [plain(NOTE, n) for n in (3, 1, 2)]
    plan = plan_of([notes[0], plain(PATH, 9), *notes[1:]])
    assert list(plan.of(NOTE)) == notes
    assert plan.count(NOTE) == 3


def test_what_it_holds_cannot_be_written_to() -> None:
    plan = plan_of([plain(NOTE)])
    with pytest.raises(TypeError):
        plan.items["x"] = plain(NOTE)  # type: ignore[index]  # this is what is tried
    with pytest.raises(TypeError):
        plan.by_kind["note"] = {}  # type: ignore[index]  # this is what is tried


def test_a_change_makes_another_plan_and_leaves_this_one() -> None:
    one, two = plain(NOTE, 1), plain(PATH, 2)
    before = plan_of([one], name="St Elfric", grid=Grid(east=5.0))
    after = before.after([Change(None, two), Change(one, replace(one, number="7"))])
    assert dict(before.items) == {one.id: one}
    assert dict(after.items) == {one.id: replace(one, number="7"), two.id: two}
    assert (after.name, after.grid, after.revision) == ("St Elfric", Grid(east=5.0), 1)
    gone = after.after([Change(after.items[one.id], None)])
    assert list(gone.of(NOTE)) == []
    assert list(gone.of(PATH)) == [two]


def test_of_two_items_with_one_id_the_last_is_kept() -> None:
    one = plain(NOTE)
    again = replace(one, number="7")
    assert dict(plan_of([one, again]).items) == {one.id: again}
    assert list(plan_of([one, again]).of(NOTE)) == [again]


@given(plans())
def test_step_by_step_it_becomes_what_it_is_at_once(plan: Plan) -> None:
    grown = Plan(name=plan.name)
    for item in plan.items.values():
        grown = grown.after([Change(None, item)])
    assert dict(grown.items) == dict(plan.items)
    assert {k: dict(v) for k, v in grown.by_kind.items()} == {
        k: dict(v) for k, v in plan.by_kind.items()
    }
    assert grown.revision == len(plan.items)


def test_taking_everything_away_leaves_nothing() -> None:
    plan = one_of_each()
    empty = plan.after([Change(item, None) for item in plan.items.values()])
    assert not empty.items
    assert all(not of_kind for of_kind in empty.by_kind.values())
