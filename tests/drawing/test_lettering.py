"""Widths of lettering, and which font writes what."""

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.drawing.lettering import Face, runs, shortened, unwritable, width, wrapped
from plan_editor.resources import resource


def test_a_figure_is_as_wide_as_the_font_says() -> None:
    font = TTFont(resource("fonts/SourceSans3-Regular.ttf"))
    per_em = font["head"].unitsPerEm
    told = sum(font["hmtx"][font.getBestCmap()[ord(c)]][0] for c in "C 14") / per_em
    assert width("C 14") == pytest.approx(told)
    # all figures of Source Sans are equally wide
    assert {width(d) for d in "0123456789"} == {0.497}


def test_welsh_and_polish_letters_are_in_the_first_font() -> None:
    assert [r.face for r in runs("Tŵr, Llŷn, Łódź")] == [Face.REGULAR]
    assert [r.face for r in runs("Tŵr", bold=True)] == [Face.SEMIBOLD]


def test_an_accent_of_its_own_is_joined_to_its_letter() -> None:
    assert runs("Tw\u0302r") == runs("Tŵr")


def test_a_character_of_another_font_is_a_run_of_its_own() -> None:
    found = runs("C 14 ✝ Ann")
    assert [r.face for r in found] == [Face.REGULAR, Face.FALLBACK, Face.REGULAR]
    assert "".join(r.text for r in found) == "C 14 ✝ Ann"


def test_a_character_in_no_font_is_listed_and_written_as_a_question_mark() -> None:
    assert unwritable(["St 汉", "and 字 and 汉"]) == ("字", "汉")
    assert "".join(r.text for r in runs("St 汉")) == "St ?"
    assert unwritable(["Tŵr ✝"]) == ()


def test_a_line_end_or_a_tab_is_written_as_a_space() -> None:
    assert runs("C\n14\t\u2028") == runs("C 14  ")


@given(st.text(max_size=80), st.floats(5.0, 60.0))
def test_wrapped_lines_fit_and_hold_every_word(text: str, room: float) -> None:
    lines = wrapped(text, 2.5, room)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(width(line) * 2.5 <= room + 1e-9 or len(line) == 1 for line in lines)


@given(st.text(max_size=60), st.floats(3.0, 60.0))
def test_a_shortened_text_fits(text: str, room: float) -> None:
    kept = shortened(text, 2.0, room)
    assert width(kept) * 2.0 <= room or kept == "…"
    assert kept == text or kept.endswith("…")


def test_a_word_too_long_for_a_line_is_broken() -> None:
    assert (
        len(wrapped("a Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch", 2.5, 20))
        > 2
    )
