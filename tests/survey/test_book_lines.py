"""Lines of a field book, as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plan_editor.survey.books.book_lines import COLUMNS, read_line
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import BookLine, Sort

FEET = BookSettings(unit_m=0.3048)


def line(settings: BookSettings | None = None, /, **texts: str) -> BookLine:
    found = read_line(7, named(texts), settings or BookSettings())
    assert isinstance(found, BookLine), found
    return found


def faults(settings: BookSettings | None = None, /, **texts: str) -> list[str]:
    found = read_line(7, named(texts), settings or BookSettings())
    assert isinstance(found, tuple), found
    return [str(fault) for fault in found]


def named(texts: dict[str, str]) -> dict[str, str]:
    return {name.rstrip("_"): text for name, text in texts.items()}


@pytest.mark.parametrize(
    ("said", "metres"),
    [
        # a foot is 0.3048 m: Weights and Measures Act 1985, schedule 1
        ("23' 4½\"", 23 * 0.3048 + 4.5 * 0.0254),
        ("23 ft 4 1/2 in", 23 * 0.3048 + 4.5 * 0.0254),
        ("7.24", 7.24),
        ("7,24", 7.24),
        ("724 cm", 7.24),
    ],
)
def test_a_tie_is_read_in_metres_or_in_feet_and_inches(said, metres):
    found = line(from_="M1", point="P1", distance=said)
    assert (found.sort, found.start, found.point) == (Sort.TIE, "M1", "P1")
    assert found.distance == pytest.approx(metres, abs=1e-6)


def test_a_bare_number_is_in_the_books_unit_and_one_with_its_unit_is_not():
    assert line(FEET, from_="M1", point="P", distance="10").distance == 3.048
    assert line(FEET, from_="M1", point="P", distance="10,5").distance == 3.2004
    assert line(FEET, from_="M1", point="P", distance="10 m").distance == 10.0
    assert line(FEET, from_="M1", point="P", distance="10", sd="0.02").sd == 0.02


def test_what_sort_of_line_it_is_follows_from_its_columns():
    assert line(from_="A", point="P", distance="1").sort is Sort.TIE
    assert line(from_="A", to="B", distance="1").sort is Sort.CHECK
    assert line(from_="A", to="B", point="P", distance="1", offset="2").sort is Sort.OFFSET
    assert line(from_="A", to="B", distance="1", bearing="75").sort is Sort.LEG
    assert line(from_="A", to="B", back="C", angle="75").sort is Sort.LEG
    assert line(type="T", from_="A", to="P", distance="1").point == "P"
    assert line(type="leg", from_="A", point="P", distance="1").end == "P"


def test_a_side_turns_an_offset_and_settles_a_tie():
    base = {"from_": "A", "to": "B", "point": "P", "distance": "5"}
    assert line(**base, offset="2").aside == 2.0
    assert line(**base, offset="2", side="left").aside == -2.0
    assert line(**base, offset="-2").aside == -2.0
    assert line(**base, offset="+2", side="R").aside == 2.0
    assert line(**{**base, "distance": "0"}, offset="0").distance == 0.0
    tie = line(from_="M1", to="M2", type="tie", point="P", distance="5", side="left")
    assert (tie.right, tie.end) == (False, "M2")


@pytest.mark.parametrize(
    ("said", "degrees"),
    [
        ("75.5", 75.5),
        ("123°45'30\"", 123.758333),
        ("123-45-30", 123.758333),
        ("N 35°20' E", 35.333333),
        ("S 67°38' E", 112.366667),
        ("NE", 45.0),
    ],
)
def test_bearings_are_read_as_surveyors_write_them(said, degrees):
    found = line(from_="A", to="B", distance="5", bearing=said)
    assert found.bearing == pytest.approx(degrees, abs=1e-6)


def test_a_bearing_written_finely_was_read_on_an_instrument():
    leg = {"from_": "A", "to": "B", "distance": "5"}
    assert line(**leg, bearing="75.5").angle_sd == 0.5
    assert line(**leg, bearing="75.55").angle_sd == 0.02
    assert line(**leg, bearing="N 35 20 E").angle_sd == 0.02
    assert line(**leg, angle="75", back="C").angle_sd == 0.02
    own = BookSettings(bearing_sd=0.25, angle_sd=0.1, compass=True)
    assert line(own, **leg, bearing="75.55").angle_sd == 0.25
    assert line(own, **leg, bearing="75.55").compass
    assert line(own, **leg, angle="75", back="C").angle_sd == 0.1
    assert line(**leg).angle_sd is None


def test_slope_rise_remarks_and_what_is_left_out_are_kept():
    found = line(from_="A", point="P", distance="5", slope="-5°30'", out="yes", remarks="wet")
    assert (found.slope_deg, found.left_out, found.remarks) == (-5.5, True, "wet")
    assert line(from_="A", point="P", distance="5", rise="-1' 6\"").rise == pytest.approx(
        -0.4572
    )
    assert line(from_="A", point="P", distance="5", slope="4").slope_deg == 4.0


TIE = {"from_": "M1", "point": "P1", "distance": "5"}
LEG = {"from_": "A", "to": "B", "distance": "5", "type": "leg"}
OFFSET = {"type": "offset", "from_": "A", "to": "B", "point": "P", "distance": "5"}


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ({**TIE, "distance": "0"}, "line 7, distance: 0 m is not over 0 and up to 500 m"),
        ({**TIE, "distance": "501"}, "distance: 501 m is not over 0"),
        ({**TIE, "distance": "99999"}, "99999 m is not over 0 and up to 500 m"),
        ({**TIE, "sd": "11"}, "line 7, sd: 11 m is not from 0.0001 to 10 m"),
        ({**TIE, "distance": "-5"}, "distance: “-5” is not a length"),
        ({**TIE, "distance": "abc"}, "distance: “abc” is not a length"),
        ({**TIE, "distance": "1,234"}, "distance: “1,234” can be read in two ways"),
        ({**TIE, "distance": "9" * 99}, "distance: “999999999999999999999999999999…” is too"),
        ({**TIE, "distance": ""}, "distance: a tie needs it"),
        ({"from_": "M1", "distance": "5", "type": "tie"}, "point: a tie needs it"),
        ({"distance": "5", "point": "P"}, "from: a tie needs it"),
        ({**TIE, "type": "tape"}, "type: “tape” is none of tie, offset, leg and check"),
        ({**TIE, "side": "north"}, "side: “north” is neither right nor left"),
        ({**TIE, "bearing": "75", "type": "tie"}, "bearing: a tie has none"),
        ({**TIE, "offset": "2", "type": "tie"}, "offset: a tie has none"),
        ({**TIE, "point": "m 1"}, "from: the same point is named twice"),
        ({**TIE, "point": "x" * 41}, "point: the name of a point has at most 40 letters"),
        ({**TIE, "sd": "20"}, "sd: 20 m is not from 0.0001 to 10 m"),
        ({**TIE, "rise": "1", "slope": "5"}, "rise: a line has a slope or a rise, not both"),
        ({**TIE, "rise": "5"}, "rise: a rise of 5 m is no less than the distance of 5 m"),
        ({**TIE, "rise": "101 m"}, "rise: 101 m is more than 100 m"),
        ({**TIE, "slope": "61"}, "slope: a tape is not held steeper than 60°"),
        ({**TIE, "slope": "steep"}, "slope: “steep” is not an angle"),
        ({**TIE, "out": "perhaps"}, "out: “perhaps” is neither yes nor no"),
        (OFFSET, "offset: an offset needs its distance from the base line"),
        ({**OFFSET, "offset": "-2", "side": "left"}, "side: a side and an offset below 0"),
        ({**OFFSET, "offset": "2", "to": ""}, "to: an offset needs it"),
        ({**LEG, "distance": "2001"}, "distance: 2001 m is not over 0 and up to 2000 m"),
        ({**LEG, "distance": ""}, "distance: a leg needs a distance, a bearing or an angle"),
        ({**LEG, "bearing": "N 95 E"}, "bearing: “N 95 E” is not a bearing"),
        ({**LEG, "angle": "NE"}, "angle: “NE” is not an angle"),
        ({**LEG, "back": "C"}, "angle: a back sight needs the angle"),
        ({**LEG, "distance": "", "bearing": "75", "rise": "1"}, "rise: there is no distance"),
        ({**LEG, "distance": "", "bearing": "75", "slope": "1"}, "slope: there is no distance"),
    ],
)
def test_what_makes_no_sense_is_said_with_line_and_column(texts, said):
    assert any(said in fault for fault in faults(**texts)), faults(**texts)


def test_everything_that_is_wrong_with_a_line_is_told():
    told = faults(from_="M1", point="P1", distance="x", sd="y", side="z")
    assert [fault.split(",")[1].split(":")[0] for fault in told] == [
        " side",
        " distance",
        " sd",
    ]


@given(st.dictionaries(st.sampled_from(COLUMNS), st.text(max_size=50)))
def test_whatever_is_written_is_a_line_or_told(texts):
    found = read_line(3, texts, BookSettings())
    if isinstance(found, tuple):
        assert all(str(f).startswith("line 3, ") and f.column in COLUMNS for f in found)
        assert found
