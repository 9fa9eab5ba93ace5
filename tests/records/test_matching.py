"""Entries are matched with graves: by number, by stone, by family, and with their reasons."""

from dataclasses import replace
from typing import Any

import pytest

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import ashes_plot, burial, grave, memorial
from plan_editor.kinds.burial import Belief, BurialDetails, BurialSort
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.matching import GraveProposal, best, proposals, sure

PLACE = Rectangle(east=0, north=0, width=1.2, length=2.4)


def _grave(n: int, **told: Any) -> Item[GraveDetails]:
    place = replace(PLACE, east=10.0 * n)
    return new_item(grave.KIND, place, details=GraveDetails(**told), number=f"C {n}")


def _stone(on: Item, inscription: str) -> Item[MemorialDetails]:
    details = MemorialDetails(grave=on.id, inscription=inscription)
    return new_item(memorial.KIND, replace(PLACE, length=0.15), details=details)


def _entry(**told: Any) -> Item[BurialDetails]:
    return new_item(burial.KIND, details=BurialDetails(**told))


GRAVES = tuple(_grave(n) for n in range(30))
STONES = (
    _stone(GRAVES[3], "In memory of John Ibbotson, died 1911 aged 62"),
    _stone(GRAVES[4], "In memory of George Jagger 1850 – 1911"),
    _stone(GRAVES[5], "In memory of Hannah Ibbotson, died 1950 aged 30"),
    _stone(GRAVES[6], "Arthur Varley, killed in Flanders 1917 aged 21"),
)


def _found(entry: Item, *more: Item) -> tuple[GraveProposal, ...]:
    return proposals(plan_of((*GRAVES, *STONES, *more, entry)))


def _said(found: GraveProposal) -> str:
    return "; ".join(found.reasons)


def test_name_year_and_age_on_a_stone_are_enough() -> None:
    entry = _entry(surname="Ibbotson", forenames="Jno", buried="1911-03", age="62")
    first, *_ = _found(entry)
    assert first.grave == GRAVES[3].id
    assert first.score > 0.95
    assert "the surname Ibbotson there" in _said(first)
    assert "on the stone: John, 1911, aged 62" in _said(first)


def test_a_misspelt_surname_and_initials_still_find_the_stone() -> None:
    entry = _entry(surname="Ibbatson", forenames="J.", buried="1911", age="63")
    first, *_ = _found(entry)
    assert first.grave == GRAVES[3].id
    assert "a surname like Ibbatson there" in _said(first)


def test_a_maiden_name_is_bridged_by_forename_year_and_age() -> None:
    entry = _entry(surname="Lumb", forenames="Hannah", died="1950", age="30")
    first, *_ = _found(entry)
    assert first.grave == GRAVES[5].id
    assert "another surname there" in _said(first)


def test_a_number_alone_is_likely_but_not_beyond_doubt() -> None:
    first, *others = _found(_entry(surname="Lumb", place_written="row C no 20"))
    assert first.grave == GRAVES[20].id
    assert 0.5 < first.score < 0.95
    assert "the register writes “row C no 20”" in _said(first)
    assert all(o.score < 0.1 for o in others)


def test_a_stone_outweighs_a_number_with_two_figures_changed_round() -> None:
    graves = (*GRAVES, _grave(30), _grave(31), _grave(13))
    stone = _stone(graves[31], "In memory of Joseph Clegg, died 1922 aged 40")
    entry = _entry(
        surname="Clegg", forenames="Joseph", buried="1922", age="40", place_written="C 13"
    )
    first, *_ = proposals(plan_of((*graves, stone, *STONES, entry)))
    assert first.grave == graves[31].id
    assert "“C 13” may be a slip for C 31" in _said(first)


def test_who_is_buried_elsewhere_is_not_laid_under_the_stone_that_names_him() -> None:
    entry = _entry(surname="Varley", forenames="Arthur", died="1917", age="22")
    assert all(p.score < 0.75 for p in _found(entry))


def test_family_that_lies_there_already_speaks_for_a_grave() -> None:
    wife = _entry(surname="Quarmby", buried="1931", grave=GRAVES[9].id)
    first, *_ = _found(_entry(surname="Quarmby", place_written="C 9"), wife)
    alone, *_ = _found(_entry(surname="Quarmby", place_written="C 9"))
    assert first.grave == GRAVES[9].id
    assert first.score > alone.score


def test_a_full_grave_a_free_one_and_other_years_beside_it_speak_against() -> None:
    close = replace(PLACE, east=401.5)
    one = replace(_grave(40, coffins=1, state=State.FREE), number="D 1")
    beside = new_item(grave.KIND, close, number="D 2")
    lying = _entry(surname="Lumb", sort=BurialSort.COFFIN, grave=one.id, buried="1850")
    late = _entry(surname="Lumb", buried="1851", grave=beside.id)
    entry = _entry(surname="Lumb", sort=BurialSort.COFFIN, buried="1990", place_written="D 1")
    first, *_ = _found(entry, one, beside, lying, late)
    assert first.grave == one.id
    assert "the plan has it as free; it has its coffins already" in _said(first)
    assert "graves beside it are of other years" in _said(first)


def test_neighbours_of_the_same_years_and_name_speak_for_a_grave() -> None:
    close = replace(PLACE, east=401.5)
    one = replace(_grave(40), number="D 1")
    beside = new_item(grave.KIND, close, number="D 2")
    late = _entry(surname="Lumb", buried="1985", grave=beside.id)
    entry = _entry(surname="Lumb", buried="1990", place_written="D 1")
    first, *_ = _found(entry, one, beside, late)
    assert first.grave == one.id
    assert "the same surname beside it" in _said(first)
    assert "graves beside it are of those years" in _said(first)
    middling = replace(entry, details=replace(entry.details, buried="2010"))
    other, *_ = _found(middling, one, beside, late)
    assert "years" not in _said(other)
    nameless = replace(entry, details=replace(entry.details, surname=""))
    assert "surname" not in _said(_found(nameless, one, beside, late)[0])


def test_ashes_lie_in_a_plot_for_ashes_and_coffins_do_not() -> None:
    plot = new_item(ashes_plot.KIND, replace(PLACE, east=-50, length=0.6), number="G 1")
    ashes = _entry(surname="Lumb", sort=BurialSort.ASHES, place_written="G 1")
    coffin = _entry(surname="Lumb", sort=BurialSort.COFFIN, place_written="G 1")
    (first, *_) = _found(ashes, plot)
    assert first.grave == plot.id
    assert all(p.score < 0.2 for p in _found(coffin, plot))
    in_grave = _entry(surname="Lumb", sort=BurialSort.ASHES, place_written="C 9")
    assert _found(in_grave, plot)[0].grave == GRAVES[9].id


@pytest.mark.parametrize(
    "told", [{}, {"surname": "Nobody"}, {"place_written": "Z 99"}, {"forenames": "John"}]
)
def test_where_nothing_speaks_for_a_grave_none_is_proposed(told: dict[str, str]) -> None:
    assert _found(_entry(**told)) == ()


def test_an_entry_without_a_surname_is_found_by_its_number() -> None:
    first, *_ = _found(_entry(forenames="John", place_written="C 3", buried="1911"))
    assert first.grave == GRAVES[3].id


def test_entries_that_have_a_grave_and_plans_without_graves_have_no_proposals() -> None:
    assert _found(_entry(surname="Ibbotson", grave=GRAVES[3].id)) == ()
    assert proposals(plan_of((_entry(surname="Ibbotson"),))) == ()


def test_where_it_is_stopped_nothing_more_is_looked_at() -> None:
    plan = plan_of((*GRAVES, *STONES, _entry(surname="Lumb", place_written="C 4")))
    assert proposals(plan, lambda: True) == ()
    assert len(proposals(plan)) > 0


def test_one_proposal_of_each_entry_is_the_best_and_the_sure_ones_have_the_score() -> None:
    john = _entry(surname="Ibbotson", forenames="John", buried="1911", age="62")
    lumb = _entry(surname="Lumb", buried="1885", place_written="C 12")
    found = _found(john, lumb)
    scores = [p.score for p in found]
    assert scores == sorted(scores, reverse=True)
    assert [p.entry for p in best(found)] == [john.id, lumb.id]
    assert [p.entry for p in sure(found)] == [john.id]
    assert sure(found, 1.1) == ()
    of_one = [p.score for p in found if p.entry == lumb.id]
    assert sum(of_one) <= 1.0
    assert found[0].belief is Belief.PROBABLE
    assert replace(found[0], score=0.4).belief is Belief.DOUBTFUL


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ({"forenames": "Gearge", "buried": "1911"}, "on the stone: Gearge, 1911"),
        ({"forenames": "George", "buried": "1912"}, "on the stone: George, a year off 1911"),
        ({"forenames": "Q. George", "buried": "1911"}, "on the stone: one forename, 1911"),
        (
            {"forenames": "George", "buried": "1911", "place_written": "C 29"},
            "the register writes “C 29”, not C 4; the surname Jagger there",
        ),
        (
            {"forenames": "Tom", "buried": "1970", "place_written": "C 4"},
            "the stone does not seem to name them",
        ),
    ],
)
def test_what_agrees_and_what_does_not_is_said(told: dict[str, str], says: str) -> None:
    loose = new_item(memorial.KIND, PLACE, details=MemorialDetails(inscription="A Jagger"))
    found = _found(_entry(surname="Jagger", **told), loose)
    assert any(says in _said(p) for p in found if p.grave == GRAVES[4].id)


def test_a_double_surname_is_found_where_both_words_stand() -> None:
    stone = _stone(GRAVES[7], "Mary Hirst Kaye, died 1901")
    first, *_ = _found(_entry(surname="Hurst-Kaye", forenames="Mary", died="1901"), stone)
    assert first.grave == GRAVES[7].id
    assert "a surname like Hurst-Kaye there" in _said(first)
