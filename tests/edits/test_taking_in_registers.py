"""Registers taken in: nothing is doubled, nothing is lost, what stood there before is kept."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point

from plan_editor.edits.burial_register import TakeInRegister
from plan_editor.edits.corrections import CorrectEntry, Reason
from plan_editor.edits.entries_compared import compared
from plan_editor.edits.removals import MoveRemains
from plan_editor.edits.written_entries import WrittenEntry
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import bench, burial, correction, grave, removal
from plan_editor.kinds.burial import Belief, BurialDetails, BurialSort
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan, plan_of


def entry(row: int, number: str = "", lies_in: str = "", **told: Any) -> WrittenEntry:
    return WrittenEntry(row=row, number=number, lies_in=lies_in, details=tuple(told.items()))


def recorded(number: str = "", **told: Any) -> Item[BurialDetails]:
    return new_item(burial.KIND, number=number, details=BurialDetails(**told))


def space(number: str) -> Item[Any]:
    return new_item(grave.KIND, Rectangle(east=0, north=0, width=1, length=2), number=number)


def after(plan: Plan, edit: Edit) -> Plan:
    there = {**plan.items, **{c.id: c.after for c in edit.changes(plan) if c.after}}
    return plan_of(there.values(), name=plan.name)


def taken(plan: Plan, *entries: WrittenEntry) -> Plan:
    return after(plan, TakeInRegister(entries=entries, source="book.csv", date="2026-05-01"))


EMPTY = plan_of([])
MARY: dict[str, Any] = {
    "surname": "Holt",
    "forenames": "Mary",
    "buried": "1871-03-14",
    "age": "82",
}


def test_entry_that_is_new_is_added_as_it_is_written() -> None:
    plan = taken(EMPTY, entry(2, "14", **MARY))
    (item,) = plan.of(burial.KIND)
    assert item.number == "14"
    assert item.details == BurialDetails(**MARY)


def test_same_register_once_more_changes_nothing() -> None:
    rows = (entry(2, "14", **MARY), entry(3, surname="Oakes", buried="1871"))
    plan = taken(EMPTY, *rows)
    again = (entry(2, "14", **MARY), entry(3, surname="Oakes", buried="1871"))
    assert TakeInRegister(entries=again).changes(plan) == ()


def test_entry_that_says_something_else_keeps_the_old_reading_as_a_correction() -> None:
    plan = taken(EMPTY, entry(2, "14", **MARY))
    plan = taken(plan, entry(2, "14", **{**MARY, "age": "28", "abode": "Mill Lane"}))
    (item,) = plan.of(burial.KIND)
    assert (item.details.age, item.details.abode) == ("28", "Mill Lane")
    (kept,) = plan.of(correction.KIND)
    told = kept.details
    assert (told.burial, told.column, told.was, told.now) == (item.id, "Age", "82", "28")
    assert (told.date, told.why) == ("2026-05-01", "As book.csv has it.")


def test_empty_cell_takes_nothing_away() -> None:
    plan = taken(EMPTY, entry(2, "14", **MARY))
    assert taken(plan, entry(2, "14", surname="Holt")).items == plan.items


def test_sort_that_the_table_does_not_know_takes_nothing_away() -> None:
    there = recorded("7", surname="Wragby", buried="1871-03-14", sort=BurialSort.COFFIN)
    told = entry(2, "7", surname="Wragby", buried="1871-03-14", sort=BurialSort.UNKNOWN)
    assert taken(plan_of([there]), told).items[there.id] == there


def test_year_alone_does_not_take_the_place_of_a_day() -> None:
    plan = taken(EMPTY, entry(2, "14", **MARY))
    assert taken(plan, entry(2, "14", **{**MARY, "buried": "1871"})).items == plan.items
    more = taken(taken(EMPTY, entry(2, "9", buried="1871")), entry(2, "9", buried="1871-03"))
    assert [b.details.buried for b in more.of(burial.KIND)] == ["1871-03"]


def test_what_was_corrected_on_the_plan_stays() -> None:
    plan = taken(EMPTY, entry(2, "14", **MARY))
    (item,) = plan.of(burial.KIND)
    plan = after(plan, CorrectEntry(burial=item.id, columns=(("surname", "Hoult"),)))
    found = compared(plan, [entry(2, "14", **MARY)])
    assert found.updated == ()
    assert [(d.row, d.column) for d in found.doubtful] == [(2, "surname")]
    assert "“Holt” to “Hoult”" in found.doubtful[0].why


def test_entry_without_number_is_known_by_name_and_date() -> None:
    plan = plan_of([recorded("14", **MARY)])
    plan = taken(plan, entry(2, **{**MARY, "abode": "Mill Lane"}))
    assert [b.details.abode for b in plan.of(burial.KIND)] == ["Mill Lane"]


def test_number_is_filled_in_where_the_plan_had_none() -> None:
    plan = taken(plan_of([recorded(**MARY)]), entry(2, "14", **MARY))
    assert [b.number for b in plan.of(burial.KIND)] == ["14"]
    assert not plan.count(correction.KIND)


def test_same_name_and_date_under_another_number_is_new_and_doubtful() -> None:
    found = compared(plan_of([recorded("14", **MARY)]), [entry(2, "15", **MARY)])
    assert len(found.new) == 1
    assert [d.column for d in found.doubtful] == ["number"]


def test_book_tells_entries_of_one_number_apart() -> None:
    plan = plan_of([recorded("14", book="I", **MARY), recorded("14", book="II", surname="Ash")])
    plan = taken(plan, entry(2, "14", book="II", surname="Ash", age="3"))
    assert sorted(b.details.age for b in plan.of(burial.KIND)) == ["3", "82"]
    more = taken(plan, entry(2, "14", book="III", surname="Elm"))
    assert more.count(burial.KIND) == 3


@pytest.mark.parametrize(
    ("there", "rows", "why"),
    [
        ([], [entry(2, "14", **MARY), entry(3, "14", **MARY)], "row 2 is that entry"),
        ([], [entry(2, **MARY), entry(3, **MARY)], "row 2 is that entry"),
        ([recorded("1", **MARY)], [entry(2, "1"), entry(3, **MARY)], "row 2 is that entry"),
        (
            [recorded("14", **MARY)],
            [entry(3, "14", surname="Ash", buried="1902-01-02")],
            "another burial",
        ),
        ([recorded("14"), recorded("14")], [entry(3, "14")], "2 entries No. 14"),
        ([recorded(**MARY), recorded(**MARY)], [entry(3, **MARY)], "2 entries of that name"),
    ],
)
def test_row_that_may_be_another_entry_is_not_taken(
    there: list[Item[Any]], rows: list[WrittenEntry], why: str
) -> None:
    found = compared(plan_of(there), rows)
    assert [r.row for r in found.rejected] == [3]
    assert why in found.rejected[0].why


def test_grave_that_is_named_apart_is_looked_up() -> None:
    plan = plan_of([here := space("C 14"), space("")])
    plan = taken(plan, entry(2, "1", surname="Holt", lies_in="c14"))
    assert [b.details.grave for b in plan.of(burial.KIND)] == [here.id]
    assert taken(plan, entry(2, "1", surname="Holt", lies_in="C 14")).items == plan.items


def test_grave_that_is_not_there_or_is_another_is_doubtful() -> None:
    one, other, twice = space("C 14"), space("C 15"), space("D 1")
    also = replace(space("D 1"), kind=grave.KIND)
    plan = plan_of([one, other, twice, also, recorded("1", grave=one.id)])
    for number, why in (("C 99", "no grave"), ("D 1", "2 graves"), ("C 15", "Grave C 14")):
        found = compared(plan, [entry(2, "1", lies_in=number)])
        assert found.updated == ()
        assert [d.column for d in found.doubtful] == ["grave"]
        assert why in found.doubtful[0].why


def test_remarks_grow_and_are_never_taken_away() -> None:
    plan = plan_of([recorded("1", remarks="Drowned.\nSee the magazine.")])
    plan = taken(plan, entry(2, "1", remarks="Drowned. See the magazine."))
    plan = taken(plan, entry(2, "1", remarks="In the mill race."))
    (item,) = plan.of(burial.KIND)
    assert item.details.remarks == "Drowned.\nSee the magazine.\nIn the mill race."
    assert not plan.count(correction.KIND)


def test_correction_keeps_the_old_reading_with_date_person_and_reason() -> None:
    plan = plan_of([item := recorded("14", depth_m=1.5, **MARY)])
    reason = Reason(date="2026-05-01", by="Churchwarden", why="Read on the stone.")
    columns = (("number", "15"), ("sort", BurialSort.COFFIN), ("depth_m", 1.8))
    edit = CorrectEntry(burial=item.id, columns=columns, reason=reason, called="entry 14")
    plan = after(plan, edit)
    assert edit.title == "Correct entry 14"
    kept = {c.details.column: (c.details.was, c.details.now) for c in plan.of(correction.KIND)}
    assert kept == {"No. of the entry": ("14", "15"), "Depth of the lid": ("1.5", "1.8")}
    assert {c.details.by for c in plan.of(correction.KIND)} == {"Churchwarden"}


def test_correction_of_the_grave_is_told_in_words() -> None:
    one, other = space("C 14"), space("C 15")
    plan = plan_of([one, other, item := recorded("1", grave=one.id)])
    plan = after(plan, CorrectEntry(burial=item.id, columns=(("grave", other.id),)))
    (kept,) = plan.of(correction.KIND)
    assert (kept.details.was, kept.details.now) == ("Grave C 14", "Grave C 15")


def test_correction_that_says_nothing_new_or_makes_no_sense_is_refused() -> None:
    seat = new_item(bench.KIND, Point(0, 0))
    plan = plan_of([item := recorded("14", **MARY), seat])
    for edit, words in (
        (CorrectEntry(burial=item.id, columns=(("age", "82"),)), "says so already"),
        (CorrectEntry(burial=item.id, columns=(("hat", "82"),)), "no column “hat”"),
        (CorrectEntry(burial=seat.id, columns=(("age", "82"),)), "no entry of the burial"),
    ):
        with pytest.raises(EditRefused, match=words):
            edit.changes(plan)


def test_remains_moved_are_an_event_and_the_entry_stays() -> None:
    one, other = space("C 14"), space("C 15")
    plan = plan_of([one, other, item := recorded("1", grave=one.id, **MARY)])
    edit = MoveRemains(
        burial=item.id, moved_to=other.id, date="1931-06", faculty="12/1931", called="entry 1"
    )
    assert edit.title == "Record that the remains of entry 1 were moved"
    plan = after(plan, edit)
    (told,) = plan.of(burial.KIND)
    (event,) = plan.of(removal.KIND)
    assert (told.details.grave, told.details.belief) == (other.id, Belief.CERTAIN)
    assert (event.details.lay_in, event.details.moved_to) == (one.id, other.id)


def test_remains_that_left_lie_in_no_grave_here_and_no_table_puts_them_back() -> None:
    plan = plan_of([one := space("C 14"), item := recorded("1", grave=one.id)])
    gone = MoveRemains(burial=item.id, elsewhere="Brackwell cemetery", faculty="not known")
    plan = after(plan, gone)
    assert [b.details.grave for b in plan.of(burial.KIND)] == [None]
    found = compared(plan, [entry(2, "1", lies_in="C 14")])
    assert found.updated == ()
    assert "moved away" in found.doubtful[0].why
    assert len(gone.changes(plan)) == 1


def test_removal_without_leave_or_place_is_refused() -> None:
    seat = new_item(bench.KIND, Point(0, 0))
    plan = plan_of([one := space("C 14"), seat, item := recorded("1", grave=one.id)])
    for edit, words in (
        (MoveRemains(burial=item.id, elsewhere="Brackwell"), "faculty or licence"),
        (MoveRemains(burial=item.id, faculty="1"), "Where the remains"),
        (MoveRemains(burial=item.id, faculty="1", moved_to=seat.id), "neither grave"),
        (MoveRemains(burial=item.id, faculty="1", moved_to=one.id), "already"),
    ):
        with pytest.raises(EditRefused, match=words):
            edit.changes(plan)


def test_title_counts_the_entries() -> None:
    one = TakeInRegister(entries=(entry(2),), source="book.csv")
    assert one.title == "Take in 1 entry of the register book.csv"
    assert "2 entries" in TakeInRegister(entries=(entry(2), entry(3))).title


NAMES = st.sampled_from(["Holt", "Ash", "Elm", ""])
ROWS = st.lists(
    st.tuples(
        st.sampled_from(["", "1", "2", "3"]), NAMES, st.sampled_from(["", "1871", "1902"])
    ),
    max_size=6,
)


@given(ROWS, ROWS)
def test_whatever_is_taken_in_twice_changes_nothing_the_second_time(
    first: list[tuple[str, str, str]], second: list[tuple[str, str, str]]
) -> None:
    def entries(rows: list[tuple[str, str, str]]) -> tuple[WrittenEntry, ...]:
        told = enumerate(rows, 2)
        return tuple(entry(n, no, surname=s, buried=b) for n, (no, s, b) in told)

    plan = taken(EMPTY, *entries(first))
    plan = taken(plan, *entries(second))
    assert TakeInRegister(entries=entries(second)).changes(plan) == ()
