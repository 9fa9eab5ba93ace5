"""What dates say about a day, worked out by hand for each case."""

from dataclasses import replace
from typing import Any

import pytest
from strategies import one_of_each, plain

from plan_editor.ground.as_it_was import as_it_was
from plan_editor.kinds import (
    base_plan,
    bench,
    burial,
    cordon,
    grave,
    inspection,
    memorial,
    note,
    reservation,
    tree,
    zone,
)
from plan_editor.plan.checks import fault_of, references
from plan_editor.plan.detail import Value
from plan_editor.plan.item import Basis, Item, Method, Status
from plan_editor.plan.kind import Kind, kinds
from plan_editor.plan.plan import plan_of

THERE, GONE, UNKNOWN = "there", "not there", "not known"


def of(kind: Kind[Any], n: int = 0, basis: Basis | None = None, **details: Any) -> Item[Any]:
    item = plain(kind, n)
    return replace(item, details=replace(item.details, **details), basis=basis or Basis())


def said(item: Item[Any], day: str, *others: Item[Any]) -> str:
    found = as_it_was(plan_of([item, *others]), day)
    (one,) = (
        word
        for word, ids in (
            (THERE, found.there),
            (GONE, found.not_there),
            (UNKNOWN, found.not_known),
        )
        if item.id in ids
    )
    assert (item.id in found.plan.items) is (one != GONE)
    return one


@pytest.mark.parametrize(
    ("erected", "day", "word"),
    [
        ("1911-04-16", "1911-04-15", GONE),
        ("1911-04-16", "1911-04-16", THERE),
        ("1911-04-16", "2026-01-01", THERE),
        ("1911-04", "1911-03-31", GONE),
        ("1911-04", "1911-04-16", UNKNOWN),
        ("1911-04", "1911-04-30", UNKNOWN),
        ("1911-04", "1911-05-01", THERE),
        ("1911", "1910-12-31", GONE),
        ("1911", "1911-07-01", UNKNOWN),
        ("1911", "1911-12-31", THERE),
        ("", "1911-01-01", UNKNOWN),
    ],
)
def test_a_stone_is_there_from_when_it_was_erected(erected: str, day: str, word: str) -> None:
    assert said(of(memorial.KIND, erected=erected), day) == word


@pytest.mark.parametrize(
    ("since", "until", "day", "word"),
    [
        ("2001", "2010-05-31", "2010-05-31", THERE),
        ("2001", "2010-05-31", "2010-06-01", GONE),
        ("2001", "2010", "2009-12-31", THERE),
        ("2001", "2010", "2010-06-01", UNKNOWN),
        ("2001", "2010", "2011-01-01", GONE),
        ("", "2010", "2011-01-01", GONE),
        ("", "2010", "1990-01-01", UNKNOWN),
        ("2001", "", "2026-01-01", THERE),
    ],
)
def test_a_zone_is_there_until_its_end(since: str, until: str, day: str, word: str) -> None:
    assert said(of(zone.KIND, since=since, until=until), day) == word


@pytest.mark.parametrize(
    ("dug", "day", "word"),
    [
        ("1950", "1949-01-01", UNKNOWN),
        ("1950", "1951-01-01", THERE),
        ("", "1951-01-01", UNKNOWN),
    ],
)
def test_a_grave_that_was_dug_or_re_opened_may_have_been_there_before(
    dug: str, day: str, word: str
) -> None:
    assert said(of(grave.KIND, dug=dug), day) == word


def test_what_was_measured_or_drawn_on_an_old_plan_was_there_then() -> None:
    old = of(base_plan.KIND, 5, date="1962")
    traced = of(tree.KIND, basis=Basis(method=Method.TRACED, base_plan=old.id, date="2025"))
    assert said(traced, "1961-12-31", old) == UNKNOWN
    assert said(traced, "1963-01-01", old) == THERE
    undated = of(base_plan.KIND, 5)
    assert (
        said(traced, "2026-01-01", undated) == UNKNOWN
    )  # traced in 2025, drawn nobody knows when
    taped = of(tree.KIND, basis=Basis(method=Method.TAPED, date="1987-05"))
    assert said(taped, "1987-05-01") == UNKNOWN
    assert said(taped, "1987-06-01") == THERE
    computed = of(tree.KIND, basis=Basis(method=Method.COMPUTED, date="1987"))
    assert said(computed, "2000-01-01") == UNKNOWN


def test_what_a_dated_record_speaks_of_was_there_then() -> None:
    space = of(grave.KIND, 1)
    entry = of(burial.KIND, 2, grave=space.id, buried="1899-10")
    assert said(space, "1899-12-01", entry) == THERE
    assert said(space, "1899-09-30", entry) == UNKNOWN
    stone = of(memorial.KIND, 3, grave=space.id, erected="1901")
    assert said(space, "1902-01-01", stone) == THERE
    planned = replace(stone, status=Status.PROPOSED)
    assert said(space, "1902-01-01", planned) == UNKNOWN


def test_a_record_is_left_out_before_its_day_and_counted_nowhere_on_the_ground() -> None:
    stone = of(memorial.KIND, 1, erected="1901")
    look = of(inspection.KIND, 2, target=stone.id, date="2020-05-01")
    found = as_it_was(plan_of([stone, look]), "2019-01-01")
    assert found.not_there == (look.id,)
    later = as_it_was(plan_of([stone, look]), "2021-01-01")
    assert set(later.plan.items) == {stone.id, look.id}
    assert (later.there, later.not_known) == ((stone.id,), ())


def test_dates_that_contradict_one_another_leave_it_unknown() -> None:
    stone = of(memorial.KIND, 1, erected="1950")
    look = of(inspection.KIND, 2, target=stone.id, date="1940")
    assert said(stone, "1945-01-01", look) == UNKNOWN


def test_what_is_proposed_was_there_on_no_day_and_what_is_to_be_removed_was() -> None:
    seat = of(bench.KIND, placed="1990")
    assert said(replace(seat, status=Status.PROPOSED), "2026-01-01") == GONE
    assert said(replace(seat, status=Status.TO_BE_REMOVED), "2026-01-01") == THERE


def test_what_stands_on_paper_only_is_always_shown_and_never_counted() -> None:
    paper = [of(note.KIND, 1), of(base_plan.KIND, 2, date="2020")]
    found = as_it_was(plan_of(paper), "1900-01-01")
    assert set(found.plan.items) == {i.id for i in paper}
    assert (found.there, found.not_there, found.not_known) == ((), (), ())


State = grave.State


@pytest.mark.parametrize(
    ("state", "dug", "day", "then"),
    [
        (State.OCCUPIED, "1950", "1951-01-01", State.OCCUPIED),
        (State.OCCUPIED, "1950", "1949-01-01", State.UNKNOWN),
        (State.FREE, "", "1951-01-01", State.UNKNOWN),
    ],
)
def test_a_grave_not_known_to_have_been_used_is_of_unknown_state(
    state: State, dug: str, day: str, then: State
) -> None:
    space = of(grave.KIND, state=state, dug=dug)
    assert as_it_was(plan_of([space]), day).plan.items[space.id].details.state is then


def test_a_space_that_was_there_and_is_free_was_free_but_one_used_later_is_unknown() -> None:
    basis = Basis(method=Method.GNSS, date="1990")
    free = of(grave.KIND, 1, basis, state=State.FREE)
    later = of(grave.KIND, 2, basis, state=State.OCCUPIED)
    used = of(grave.KIND, 3, basis, state=State.OCCUPIED)
    entries = (
        of(burial.KIND, 4, grave=later.id, buried="2010"),
        of(burial.KIND, 5, grave=used.id, buried="1993-04-01"),
        of(burial.KIND, 6, grave=used.id),
        of(burial.KIND, 7, buried="1993"),
    )
    found = as_it_was(plan_of([free, later, used, *entries]), "1995-01-01").plan.items
    states = [found[i.id].details.state for i in (free, later, used)]
    assert states == [State.FREE, State.UNKNOWN, State.OCCUPIED]


def test_a_space_is_kept_back_from_the_day_of_its_faculty_on() -> None:
    there = Basis(method=Method.GNSS, date="1990")
    space = of(grave.KIND, 1, there, state=State.RESERVED)
    closed = of(grave.KIND, 2, there, state=State.CLOSED)
    kept = of(reservation.KIND, 3, grave=space.id, asked="2009", granted="2010-06")
    free = of(grave.KIND, 4, there, state=State.FREE)
    given_up = of(reservation.KIND, 5, grave=free.id, granted="1991")
    nowhere = of(reservation.KIND, 6, granted="1991")
    plan = plan_of([space, closed, kept, free, given_up, nowhere])
    for day, then in (("2010-06-29", State.UNKNOWN), ("2010-07-01", State.RESERVED)):
        found = as_it_was(plan, day).plan.items
        assert found[space.id].details.state is then
        assert found[closed.id].details.state is State.UNKNOWN
        assert found[free.id].details.state is State.FREE


def test_nothing_refers_to_what_is_gone() -> None:
    stone = of(memorial.KIND, 1, erected="2000")
    fence = of(cordon.KIND, 2, target=stone.id)
    found = as_it_was(plan_of([stone, fence]), "1990-01-01").plan.items
    assert found[fence.id].details.target is None


@pytest.mark.parametrize("day", ["1538-01-01", "1911-04-16", "1962-05-31", "2100-01-01"])
def test_of_every_kind_what_is_left_is_a_whole_plan(day: str) -> None:
    found = as_it_was(one_of_each(), day).plan.items
    for item in found.values():
        assert fault_of(item) == ""
        assert all(target in found for _, _, target in references(item))


def test_every_kind_names_dates_of_its_own() -> None:
    for kind in kinds():
        dates = {d.name for d in kind.entries() if d.value is Value.DATE}
        assert {kind.since, kind.until, kind.seen} - {""} <= dates, kind.name
