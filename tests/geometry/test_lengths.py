"""Lengths as people type and read them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.geometry.lengths import as_feet_and_inches, as_metres, metres

# the foot is 0.3048 m, the inch 0.0254 m (Weights and Measures Act 1985, schedule 1)
TYPED = {
    "2.74": 2.74,
    "2,74": 2.74,
    " 2.74 m ": 2.74,
    "2.74M": 2.74,
    "274 cm": 2.74,
    "2740mm": 2.74,
    "1234,5 m": 1234.5,
    "3 metres": 3.0,
    ".5": 0.5,
    "0": 0.0,
    "9'": 2.7432,
    "9 ft": 2.7432,
    "9' 4\"": 2.8448,
    "9'4": 2.8448,
    "9'-4\"": 2.8448,
    "9' 4½\"": 2.8575,
    "9′ 4½″": 2.8575,
    "9’ 4 1/2”": 2.8575,
    "9' 4 1/2''": 2.8575,
    "9 ft 4 1/2 in": 2.8575,
    "9 feet 4.5 inches": 2.8575,
    "9'½\"": 2.7559,
    '4"': 0.1016,
    "1/4 in": 0.00635,
    '¾"': 0.01905,
    "6,5 ft": 1.9812,
}


@pytest.mark.parametrize(("text", "length"), TYPED.items())
def test_a_typed_length_is_read(text, length):
    assert metres(text) == pytest.approx(length, abs=1e-12)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "m",
        "-3",
        "1e3",
        "12 km",
        "2.",
        "nine",
        "4½",
        "9' 4\" 3",
        "'",
        '"',
        "9'\"",
        "9' 12\"",
        "23' 14½\"",
        "2 74",
        "9" * 400,
    ],
)
def test_what_is_no_length_is_refused_with_what_can_be_written(text):
    with pytest.raises(ValueError, match=r"is not a length\. Write a length like"):
        metres(text)


@pytest.mark.parametrize("text", ["1,234", "1,234 m", "2,740 mm", "1,234,567"])
def test_a_comma_that_may_stand_for_thousands_is_not_guessed_at(text):
    with pytest.raises(ValueError, match="in two ways"):
        metres(text)


@pytest.mark.parametrize("text", ['3/2"', "1/0 in", "9' 2/2\""])
def test_a_fraction_of_an_inch_is_less_than_one(text):
    with pytest.raises(ValueError, match="not a part of an inch"):
        metres(text)


@pytest.mark.parametrize(
    ("length", "quarters", "halves"),
    [
        (2.7432, "9' 0\"", "9' 0\""),
        (2.8575, "9' 4½\"", "9' 4½\""),
        (1.0, "3' 3¼\"", "3' 3½\""),
        (0.3047, "1' 0\"", "1' 0\""),
        (0.0, '0"', '0"'),
        (0.0127, '½"', '½"'),
        (-1.0, "-3' 3¼\"", "-3' 3½\""),
        (-0.001, '0"', '0"'),
    ],
)
def test_feet_and_inches_are_written_to_the_nearest_part(length, quarters, halves):
    assert as_feet_and_inches(length) == quarters
    assert as_feet_and_inches(length, parts=2) == halves


def test_metres_are_written_to_the_centimetre_unless_more_is_wanted():
    assert as_metres(2.7449) == "2.74 m"
    assert as_metres(2.7449, places=3) == "2.745 m"
    assert as_metres(-0.001) == "0.00 m"


lengths = st.floats(0.0, 5000.0)


@given(lengths)
def test_feet_and_inches_come_back_to_an_eighth_of_an_inch(length):
    assert metres(as_feet_and_inches(length)) == pytest.approx(length, abs=0.0254 / 8 + 1e-9)
    assert metres(as_feet_and_inches(length, 2)) == pytest.approx(length, abs=0.0254 / 4 + 1e-9)


@given(lengths, st.sampled_from([1, 2]))
def test_metres_come_back_to_the_places_written(length, places):
    text = as_metres(length, places)
    assert metres(text) == pytest.approx(length, abs=0.5 * 10**-places + 1e-9)
    # three decimals after a comma could be thousands, fewer are decimals
    assert metres(text.replace(".", ",")) == metres(text)
