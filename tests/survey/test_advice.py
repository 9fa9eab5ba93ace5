"""Advice on what to tape next, tried by really taping it."""

import math
from collections.abc import Sequence
from dataclasses import replace

import pytest
from simulated_books import simulated

from plan_editor.survey.adjustment.advice import Advice, advise
from plan_editor.survey.adjustment.network import adjust
from plan_editor.survey.adjustment.observed import (
    Adjusted,
    Angle,
    Bearing,
    Hand,
    Observed,
    Offset,
    Standing,
    Station,
    Tape,
)

MARKS = {"A": 0j, "B": 20 + 0j, "C": 10 + 25j, "D": 45 + 12j}
STATIONS = tuple(Station(name=n, east=z.real, north=z.imag) for n, z in MARKS.items())


def tie(mark: str, point: str, place: complex, wrong: float = 0.0) -> Tape:
    length = abs(place - MARKS[mark]) + wrong
    return Tape(key=f"{mark} {point}", start=mark, end=point, metres=length, sd=0.02)


def right_of_ab(point: str) -> Hand:
    return Hand(point=point, start="A", end="B", right=True)


def advice_on(
    observed: Sequence[Observed],
    hands: Sequence[Hand] = (),
    *,
    stations: Sequence[Station] = STATIONS,
    reach: float = 30.0,
) -> tuple[Adjusted, tuple[Advice, ...]]:
    found = adjust(stations, observed, hands=hands)
    return found, advise(found, stations, observed, reach=reach)


def test_a_weak_point_is_told_the_tape_that_helps_most():
    observed = (tie("A", "P", 10 - 1j), tie("B", "P", 10 - 1j))
    found, (advice,) = advice_on(observed, (right_of_ab("P"),))
    # worked by hand: the error across is 0.02·√2/sin g with g = 11.4°, times √5.991
    assert advice.text == "Tape P from C (26.0 m): its error falls from 0.35 m to 0.05 m."
    assert (advice.why, advice.point, advice.start, advice.end) == ("weak", "P", "C", "P")
    assert advice.metres == pytest.approx(26.0)
    assert found.point("P").standing is Standing.WEAK


# the closed form against really adding the tape and adjusting, over whole simulated books
@pytest.mark.parametrize("seed", [1, 4, 9])
def test_the_promised_error_is_what_one_gets(seed):
    book = simulated(seed)
    found = adjust(book.stations, book.observed, hands=book.hands)
    told = [
        a
        for a in advise(found, book.stations, book.observed)
        if a.after is not None and a.metres
    ]
    assert len(told) > 2
    for advice in told:
        assert advice.metres is not None
        assert advice.sd is not None
        assert advice.gain == pytest.approx(advice.before - advice.after)
        assert advice.gain >= 0.0
        extra = Tape(
            key="extra",
            start=advice.start,
            end=advice.end,
            metres=advice.metres,
            sd=advice.sd,
        )
        again = adjust(book.stations, (*book.observed, extra), hands=book.hands)
        ellipse = again.point(advice.point).ellipse
        assert ellipse is not None
        assert ellipse.a == pytest.approx(advice.after, rel=1e-4)


@pytest.mark.parametrize("seed", [1, 4])
def test_no_other_tape_in_reach_would_do_better(seed):
    book = simulated(seed)
    found = adjust(book.stations, book.observed, hands=book.hands)
    advice = next(a for a in advise(found, book.stations, book.observed) if a.after is not None)
    assert advice.after is not None
    point = found.point(advice.point)
    assert point.east is not None
    assert point.north is not None
    taped = {(o.start, o.end) for o in book.observed if isinstance(o, Tape)}
    for other in found.points:
        if other.standing is not Standing.GOOD or other.east is None or other.north is None:
            continue
        length = math.hypot(other.east - point.east, other.north - point.north)
        if not 1.0 <= length <= 30.0 or taped & {
            (other.name, point.name),
            (point.name, other.name),
        }:
            continue
        extra = Tape(key="x", start=other.name, end=point.name, metres=length, sd=0.02)
        again = adjust(book.stations, (*book.observed, extra), hands=book.hands)
        ellipse = again.point(advice.point).ellipse
        assert ellipse is not None
        assert ellipse.a > advice.after - 0.01  # to the centimetre


def test_an_unchecked_point_is_told_how_to_check_it():
    place = 9 - 8j
    ties = (tie("A", "P", place), tie("B", "P", place))
    _, (advice,) = advice_on(ties, (right_of_ab("P"),), reach=35.0)
    assert advice.why == "unchecked"
    assert advice.text == (
        "Tape P from C (33.0 m): nothing checks it yet, and its error falls from 0.06 m to "
        "0.04 m."
    )


def test_a_point_out_of_reach_wants_another_mark():
    place = 9 - 8j
    _, (advice,) = advice_on(
        (tie("A", "P", place), tie("B", "P", place)), (right_of_ab("P"),), reach=12.0
    )
    assert advice.text == (
        "P is unchecked, and no mark or well-known point from which it is not taped yet lies "
        "within 12 m. Set a mark nearer to it."
    )
    assert advice.gain is None


def test_a_point_with_two_places_is_told_what_each_would_read():
    observed = (tie("A", "P", 10 - 9j), tie("B", "P", 10 - 9j))
    found, (advice,) = advice_on(observed, reach=60.0)
    # from C 34 m to the one and 16 m to the other; D tells nothing apart so well
    assert advice.text == (
        "Tape P from C: it may lie at two places, and the tape reads 34.0 m or 16.0 m. Or "
        "write on which side of its marks it lies."
    )
    settled = adjust(STATIONS, (*observed, tie("C", "P", 10 - 9j)))
    assert settled.point("P").north == pytest.approx(-9)
    assert found.point("P").standing is Standing.AMBIGUOUS
    _, (far,) = advice_on(observed, reach=14.0)
    assert far.text.startswith("P is ambiguous, and no mark")


def test_a_point_with_one_tie_is_told_from_where_else():
    observed = (tie("A", "P", 9 + 8j),)
    _, (advice,) = advice_on(observed)
    assert advice.start in "BCD"
    assert advice.text == (
        f"Tape P from {advice.start} as well: its tie to A leaves its place open."
    )
    _, (far,) = advice_on(observed, reach=5.0)
    assert far.text.startswith("P is undetermined, and no mark")


def test_ties_that_do_not_meet_and_points_that_hang_on_nothing_are_told():
    short = (
        Tape(key="1", start="A", end="P", metres=6.0, sd=0.02),
        Tape(key="2", start="B", end="P", metres=7.0, sd=0.02),
        Tape(key="3", start="Q", end="R", metres=7.0, sd=0.02),
    )
    _, advice = advice_on(short)
    texts = {a.point: a.text for a in advice}
    assert texts["P"].endswith("as well: its ties leave its place open.")
    assert texts["Q"] == (
        "Q hangs on nothing whose place is known. Tape it from two marks, and from a third to "
        "check."
    )


def test_a_blunder_that_stands_out_is_to_be_measured_again():
    place = 12 + 9j
    observed = [tie(mark, "P", place) for mark in "ABC"]
    observed += [replace(tie(mark, "P", place), key=f"again {mark}") for mark in "ABC"]
    observed[1] = tie("B", "P", place, wrong=0.30)
    found, (advice,) = advice_on(observed)
    assert found.measurements[1].suspect == 1
    assert advice.text == (
        "Measure the tape from B to P again: 12.34 m was written, and all the rest says "
        "12.04 m."
    )
    assert advice.keys == ("B P",)


def test_of_three_ties_one_more_tape_tells_which_is_wrong():
    place = 12 + 9j
    observed = [tie(mark, "P", place) for mark in "ABC"]
    observed[1] = tie("B", "P", place, wrong=0.30)
    _, (advice,) = advice_on(observed, reach=40.0)
    assert advice.text == (
        # 33.1 m it is; the blunder still pulls at P
        "One is wrong, and the book does not tell which: the tape from A to P, the tape from "
        "B to P or the tape from C to P. Tape P from D (33.3 m) to tell."
    )
    assert advice.keys == ("A P", "B P", "C P")
    # and it does tell
    found = adjust(STATIONS, (*observed, tie("D", "P", place)))
    assert [m.suspect for m in found.measurements] == [0, 1, 0, 0]
    _, (nothing,) = advice_on(observed, reach=5.0)
    assert nothing.text.endswith("Measure them again.")


def test_two_that_are_told_from_all_but_one_another_are_named_once():
    # A and B lie in one line with P, and both tapes are wrong; C, behind them, says it faintly
    marks = {"A": 0j, "B": -5 + 0j, "C": -9 + 0j, "D": 20 + 20j, "E": 20 - 20j}
    stations = tuple(Station(name=n, east=z.real, north=z.imag) for n, z in marks.items())
    wrong = {"A": 0.5, "B": -0.4}
    observed = tuple(
        Tape(
            key=m,
            start=m,
            end="P",
            metres=abs(20 - z) + wrong.get(m, 0.0),
            sd=0.1 if m == "C" else 0.02,
        )
        for m, z in marks.items()
    )
    found, advice = advice_on(observed, stations=stations)
    assert [m.suspect for m in found.measurements] == [1, 2, 0, 0, 0]
    assert [a.keys for a in advice] == [("A", "B")]


def test_a_tape_between_two_marks_can_be_the_blunder():
    observed = (Tape(key="AB", start="A", end="B", metres=20.5, sd=0.02),)
    _, (advice,) = advice_on(observed)
    assert advice.text == (
        "Measure the tape from A to B again: 20.50 m was written, and all the rest says "
        "20.00 m."
    )


def test_offsets_bearings_and_angles_are_called_by_their_names():
    def bearing(key: str, degrees: float) -> Bearing:
        return Bearing(key=key, start="A", end="B", degrees=degrees, sd_deg=0.02)

    def offset(end: str, along: float, aside: float) -> Offset:
        return Offset(key=end, start="A", end="B", point=end, along=along, aside=aside, sd=0.02)

    observed: list[Observed] = [
        offset("C", 10.0, -24.0),
        offset("D", 44.0, -12.0),
        bearing("b", 91.0),
        Angle(key="a", at="A", back="C", fore="B", degrees=69.0, sd_deg=0.02),
    ]
    _, (common, *advice) = advice_on(observed)
    assert common.text.startswith("4 of 4 suspected measurements have A in common.")
    assert {a.text for a in advice} == {
        "Measure the offset of C from the line from A to B again: -24.00 m was written, and "
        "all the rest says -25.00 m.",
        "Measure the distance of D along the line from A to B again: 44.00 m was written, and "
        "all the rest says 45.00 m.",
        "Measure the bearing from A to B again: 91.00° was written, and all the rest says "
        "90.00°.",
        "Measure the angle at A from C to B again: 69.00° was written, and all the rest says "
        "68.20°.",
    }


def test_a_book_without_a_tape_is_advised_with_the_usual_one():
    observed = (Offset(key="o", start="A", end="B", point="P", along=9.0, aside=6.0, sd=0.1),)
    _, (advice,) = advice_on(observed)
    assert advice.why == "weak"
    assert advice.sd is not None
    assert 0.0 < advice.sd < 0.1
    assert "it will need another after that" in advice.text


def test_tapes_from_uncertain_marks_help_less():
    stations = tuple(replace(s, sd=0.05) for s in STATIONS)
    observed = (tie("A", "P", 10 - 1j), tie("B", "P", 10 - 1j))
    _, sure = advice_on(observed, (right_of_ab("P"),))
    _, unsure = advice_on(observed, (right_of_ab("P"),), stations=stations)
    weak = next(a for a in unsure if a.point == "P")
    assert weak.after is not None
    assert sure[0].after is not None
    assert weak.after > sure[0].after


def test_a_mark_at_a_wrong_place_is_looked_at_first():
    points = {"P": 8 + 6j, "Q": 14 + 9j, "R": 22 + 12j, "S": 6 + 13j}
    observed = [tie(mark, name, z) for name, z in points.items() for mark in MARKS]
    wrong = replace(STATIONS[2], east=STATIONS[2].east + 0.7, north=STATIONS[2].north + 0.4)
    _, (first, *others) = advice_on(observed, stations=(*STATIONS[:2], wrong, STATIONS[3]))
    assert first.point == "C"
    assert "suspected measurements have C in common" in first.text
    assert set(first.keys) <= {"C P", "C Q", "C R", "C S"}
    assert {a.why for a in others} == {"suspect"}
