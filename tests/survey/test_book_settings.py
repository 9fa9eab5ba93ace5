"""What holds for a whole field book."""

import pytest

from plan_editor.errors import CannotUse
from plan_editor.survey.adjustment.observed import Station
from plan_editor.survey.books.book_settings import (
    EXAMPLES,
    BookSettings,
    looks_like_setting,
    with_setting,
)

PLAIN = BookSettings()


def told(*texts: str) -> BookSettings:
    settings = PLAIN
    for text in texts:
        found = with_setting(settings, text)
        assert found is not None, text
        settings = found
    return settings


def test_every_example_is_a_setting():
    assert told(*EXAMPLES) != PLAIN


def test_settings_are_read_with_or_without_signs_before_them():
    assert told("# unit feet").unit_m == 0.3048
    assert told("Unit: ft").unit_m == 0.3048
    assert told("unit = m").unit_m == 1.0
    assert told("date 2025-09").date == "2025-09"
    assert told("Measured by: the sexton").observer == "the sexton"
    assert told("Field book: North side").name == "North side"
    assert told("tape steel").tape.sd(30.0) == pytest.approx(0.019)
    assert told("tape sd 0.01").tape.sd(30.0) == 0.01
    assert (told("bearing sd 0.3").bearing_sd, told("angle sd 0.01").angle_sd) == (0.3, 0.01)
    assert told("bearings compass").compass
    assert not told("bearings compass", "bearings grid").compass


def test_marks_are_in_the_books_unit_and_their_standard_deviation_in_metres():
    found = told("unit feet", "mark A 1000 2000 0.02", "mark N gate 10 -5.5").marks
    assert found[0] == Station(name="A", east=304.8, north=609.6, sd=0.02)
    assert (found[1].name, found[1].north) == ("N gate", pytest.approx(-1.6764))


@pytest.mark.parametrize(
    "text",
    [
        "Field book of 2025",
        "Tape survey",
        "A hot day",
        "tape from the north side",
        "mark A",
        "",
    ],
)
def test_what_is_no_setting_is_none(text):
    assert with_setting(PLAIN, text) is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("unit chains", "“chains” is no unit here. There are metres, feet"),
        ("date 25.9.2025", "“25.9.2025” is no date"),
        ("date 2025-13-01", "“2025-13-01” is no date"),
        ("tape sd 20", "“20” is no standard deviation"),
        ("tape sd nan", "“nan” is not a number"),
        ("angle sd small", "“small” is not a number"),
        ("bearings magnetic", "“magnetic” says nothing of bearings"),
        ("mark A 1e 2", None),
        ("mark A 1.2.3 2", "“1.2.3” is not a number"),
        ("mark A 999999999 2", "mark A has a place that is none"),
        ("mark A 1 2 50", "mark A has a place that is none"),
    ],
)
def test_a_setting_that_makes_no_sense_says_what_would(text, said):
    if said is None:
        assert with_setting(PLAIN, text) is None
        return
    with pytest.raises(CannotUse, match=said.replace(".", r"\.")):
        with_setting(PLAIN, text)


def test_a_remark_that_may_have_been_meant_as_a_setting_is_known():
    assert looks_like_setting("# tape steal")
    assert looks_like_setting("unit: long feet")
    assert not looks_like_setting("# a hot day")
    assert not looks_like_setting("# date")
