"""Coordinates as people and instruments write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.exchange.coordinates import degrees_of, is_dressed, metres_of

METRES = {
    "553112.48": 553112.48,
    "553,112.48": 553112.48,
    "1,553,112": 1553112.0,
    "553 112.48": 553112.48,
    "553\u00a0112,48": 553112.48,
    "553112,48": 553112.48,
    "E 553112.48": 553112.48,
    "553112.48 N": 553112.48,
    "553112.48 m": 553112.48,
    "−12.5": -12.5,
    "+3": 3.0,
}

NO_METRES = {
    "": "no number",
    "abc": "no number",
    "nan": "no number",
    "1e400": "lost its last figures",
    "5.53E+05": "lost its last figures; format the column as numbers",
    "553,112": "may be read in two ways",
    "12.5 ft": "is not in metres",
    "9' 4\"": "is not in metres",
    "9" * 400: "no number",
}

# 52°39′27.2531″ = 52 + 39/60 + 27.2531/3600, reckoned by hand
DEGREES = {
    "52.657571": (52.657571, ""),
    "-1.5": (-1.5, ""),
    "52°39'27.2531\"N": (52.65757031, "N"),
    "52 39 27.2531 N": (52.65757031, "N"),
    "N 52:39:27.2531": (52.65757031, "N"),
    "52º 39′ 27,2531″": (52.65757031, ""),
    "52°39.455N": (52.65758333, "N"),
    "1°43′04.5177″W": (-1.71792158, "W"),
    "-0°30'": (-0.5, ""),
    "27.25S": (-27.25, "S"),
    "52°": (52.0, ""),
}

NO_DEGREES = {
    "": "no angle",
    "52d": "no angle",
    "N52N": "no angle",
    "-1.5W": "both a sign and the letter W",
    "52 61 0": "60 minutes or seconds",
    "52 0 60": "60 minutes or seconds",
    "52.5 30": "a fraction before its last part",
    "52 39.5 20": "a fraction before its last part",
}


@pytest.mark.parametrize("text", METRES)
def test_metres_are_read(text):
    assert metres_of(text) == METRES[text]


@pytest.mark.parametrize("text", NO_METRES)
def test_what_is_no_length_in_metres_is_said(text):
    with pytest.raises(ValueError, match=NO_METRES[text]):
        metres_of(text)


@pytest.mark.parametrize("text", DEGREES)
def test_angles_are_read(text):
    angle, letter = degrees_of(text)
    assert (angle, letter) == (pytest.approx(DEGREES[text][0], abs=5e-9), DEGREES[text][1])


@pytest.mark.parametrize("text", NO_DEGREES)
def test_what_is_no_angle_is_said(text):
    with pytest.raises(ValueError, match=NO_DEGREES[text]):
        degrees_of(text)


def test_an_angle_shows_by_its_signs():
    assert [is_dressed(t) for t in ("52°39'N", "52 39 27.5", "52.5", "553 112.48", "N")] == [
        True,
        True,
        False,
        False,
        False,
    ]


@given(st.text(max_size=20))
def test_no_text_breaks_them(text):
    for read in (metres_of, degrees_of):
        try:
            read(text)
        except ValueError as fault:
            assert "“" in str(fault)  # noqa: PT017  # the sentence is what counts
