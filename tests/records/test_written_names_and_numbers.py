"""Names, ages and numbers of graves as registers and stones write them.

What is expected is common practice of parish clerks, written here by hand.
"""

import pytest

from plan_editor.records.stones import people
from plan_editor.records.written import age_in_years, key_of, keys_in, name_words, slips


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("Wm. Thos.", ("william", "thomas")),
        ("Éliane O'Neil", ("eliane", "oneil")),
        ("Smith-Jones", ("smith", "jones")),
        ("", ()),
    ],
)
def test_names_are_brought_to_one_form(written: str, words: tuple[str, ...]) -> None:
    assert name_words(written) == words


@pytest.mark.parametrize(
    ("written", "years"),
    [("82", 82), ("82 yrs", 82), ("3 weeks", 0), ("infant", 0), ("", None), ("unknown", None)],
)
def test_ages_are_whole_years(written: str, years: int | None) -> None:
    assert age_in_years(written) == years


@pytest.mark.parametrize(
    "written",
    ["C 14", "C14", "C.14", "c014", "row C no 14", "Row C, No. 14", "14 in row C", "grave C/14",
     "C 14 by the yew"],
)  # fmt: skip
def test_a_number_is_read_however_it_is_written(written: str) -> None:
    assert key_of("C 14") in keys_in(written)


@pytest.mark.parametrize(
    "written", ["by the yew, 14 ft from the wall", "C 15", "", "near the porch"]
)
def test_what_is_no_such_number_is_not_read_as_one(written: str) -> None:
    assert key_of("C 14") not in keys_in(written)


def test_a_lone_figure_counts_only_where_nothing_else_is_written() -> None:
    assert key_of("14") in keys_in("No. 14")
    assert key_of("14") not in keys_in("by the yew, 14")


@pytest.mark.parametrize(
    ("written", "number", "slipped"),
    [
        ("C 14", "C 41", True),
        ("C 14", "C 15", True),
        ("B 14", "C 14", True),
        ("C 14", "C 25", False),
        ("C 14", "C 114", False),
        ("C 123", "C 312", False),
    ],
)
def test_a_slip_is_one_sign_off_or_two_changed_round(
    written: str, number: str, *, slipped: bool
) -> None:
    assert bool(slips(key_of(written)) & slips(key_of(number))) is slipped


def test_the_people_of_an_inscription_are_told_apart() -> None:
    first, wife, son = people(
        "In loving memory of John Ibbotson who died 4 March 1911 aged 62\n"
        "also Hannah, his wife, died 1920 in her 71st year;\n"
        "Arthur, killed in Flanders 1917, aged 21"
    )
    assert first.words == {"john", "ibbotson", "march"}
    assert (first.years, first.ages, first.elsewhere) == ({1911}, {62}, False)
    assert (wife.years, wife.ages) == ({1920}, {70})
    assert son.elsewhere


def test_an_inscription_without_names_names_nobody() -> None:
    assert people("In loving memory") == ()
    assert people("") == ()
