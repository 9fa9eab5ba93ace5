"""One adjustment of everything measured: published examples, exact triangles, open points."""

import itertools
import math
import random
from dataclasses import replace

import pytest
from simulated_books import simulated

from plan_editor.errors import CannotUse
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
from plan_editor.survey.books.reducing import level


def mark(name: str, east: float, north: float, sd: float = 0.0) -> Station:
    return Station(name=name, east=east, north=north, sd=sd)


def tape(start: str, end: str, metres: float, sd: float = 0.02) -> Tape:
    return Tape(key=f"{start}-{end}", start=start, end=end, metres=metres, sd=sd)


def hand(point: str, start: str, end: str, *, right: bool) -> Hand:
    return Hand(point=point, start=start, end=end, right=right)


def place(adjusted: Adjusted, name: str) -> tuple[float, float]:
    found = adjusted.point(name)
    assert found.east is not None
    assert found.north is not None
    return found.east, found.north


# triangles whose sides and heights are whole numbers (Heron's): exact mathematics
@pytest.mark.parametrize(
    ("base", "ties", "corner"),
    [(14, (13, 15), (5, 12)), (4, (3, 5), (0, 3)), (21, (10, 17), (6, 8))],
)
def test_two_ties_give_the_corner_of_a_triangle_of_whole_numbers(base, ties, corner):
    found = adjust(
        (mark("A", 0, 0), mark("B", base, 0)),
        (tape("A", "P", ties[0]), tape("B", "P", ties[1])),
        hands=(hand("P", "A", "B", right=False),),
    )
    assert place(found, "P") == pytest.approx(corner, abs=1e-9)
    assert found.point("P").standing is Standing.UNCHECKED
    assert found.dof == 0
    assert found.s0 is None


# J. Mahun, jerrymahun.com, open access: solutions to self-study COGO 3 (a)-(d), in feet; its
# distances from point 1 are printed, those from point 2 follow from its printed coordinates
@pytest.mark.parametrize(
    ("from_1", "from_2", "right", "printed"),
    [
        (573.754, 506.675, True, (1450.051, 836.445)),
        (690.811, 624.765, False, (2435.613, 463.846)),
    ],
)
def test_published_intersections_come_out(from_1, from_2, right, printed):
    found = adjust(
        (mark("1", 2000.000, 1000.000), mark("2", 1811.082, 480.951)),
        (tape("1", "P", from_1), tape("2", "P", from_2)),
        hands=(hand("P", "1", "2", right=right),),
    )
    assert place(found, "P") == pytest.approx(printed, abs=0.002)


# the same, chapter E: from J on azimuth 329-46-45, 738.15 ft from K; printed 878.915 from J
def test_a_published_bearing_and_distance_meet():
    azimuth = 329 + 46 / 60 + 45 / 3600
    found = adjust(
        (
            mark("J", 3511.69, 1419.51),
            mark("K", 2341.36, 2056.64),
            mark("L", 3341.36, 2656.64),
        ),
        (
            Bearing(key="b", start="J", end="T", degrees=azimuth, sd_deg=0.001),
            tape("K", "T", 738.15),
        ),
        # the ray meets the circle again farther on, to the left of a line from K to L
        hands=(hand("T", "K", "L", right=True),),
    )
    east, north = place(found, "T")
    assert math.hypot(east - 3511.69, north - 1419.51) == pytest.approx(878.915, abs=0.002)


# C. Ghilani, Adjustment Computations, example 14.2, in feet: the inputs were seen, the answer
# is scipy.optimize.least_squares's; differenced squares would give 6862.623, 3728.406
GHILANI_STATIONS = (
    mark("A", 865.40, 4527.15),
    mark("B", 2432.55, 2047.25),
    mark("C", 2865.22, 27.15),
)
GHILANI_TAPES = (
    tape("A", "P", 6049.00, 1.0),
    tape("B", "P", 4736.83, 1.0),
    tape("C", "P", 5446.49, 1.0),
)


def test_three_distances_give_the_least_squares_answer():
    found = adjust(GHILANI_STATIONS, GHILANI_TAPES, hands=(hand("P", "A", "C", right=False),))
    assert place(found, "P") == pytest.approx((6861.3168, 3727.8186), abs=0.0005)
    assert [m.residual for m in found.measurements] == pytest.approx(
        [-0.0374, 0.0768, -0.0474], abs=0.0001
    )
    assert found.s0 == pytest.approx(0.0977, abs=0.0001)
    p = found.point("P")
    assert p.sd_east is not None
    assert p.sd_north is not None
    # the errors as printed by scipy are scaled by S0
    assert p.sd_east * found.s0 == pytest.approx(0.0775, abs=0.0001)
    assert p.sd_north * found.s0 == pytest.approx(0.1542, abs=0.0001)


@pytest.mark.parametrize("angle", [90.0, 60.0, 30.0, 15.0])
def test_two_ties_fix_as_well_as_their_angle_lets_them(angle):
    # propagation of error: sqrt(sx² + sy²) = s·√2 / sin g
    a, b = math.radians(10.0), math.radians(10.0 + angle)
    found = adjust(
        (
            mark("A", 9 * math.sin(a), 9 * math.cos(a)),
            mark("B", 7 * math.sin(b), 7 * math.cos(b)),
        ),
        (tape("A", "P", 9.0, 0.015), tape("B", "P", 7.0, 0.015)),
        hands=(hand("P", "A", "B", right=True),),
    )
    p = found.point("P")
    assert place(found, "P") == pytest.approx((0.0, 0.0), abs=1e-9)
    assert p.sd_east is not None
    assert p.sd_north is not None
    size = math.hypot(p.sd_east, p.sd_north)
    assert size == pytest.approx(0.015 * math.sqrt(2) / math.sin(math.radians(angle)), rel=1e-5)


def test_an_offset_lies_in_the_direction_of_three_four_five():
    # the line runs 3 east to 4 north: right of it is 0.8 east and -0.6 north
    found = adjust(
        (mark("A", 100, 200), mark("B", 130, 240)),
        (
            Offset(key="o", start="A", end="B", point="R", along=10, aside=5, sd=0.02),
            Offset(key="o", start="A", end="B", point="L", along=60, aside=-5, sd=0.02),
        ),
    )
    assert place(found, "R") == pytest.approx((100 + 6 + 4, 200 + 8 - 3), abs=1e-9)
    assert place(found, "L") == pytest.approx((100 + 36 - 4, 200 + 48 + 3), abs=1e-9)
    assert [m.what for m in found.measurements] == ["along", "aside"] * 2


def test_taped_metres_are_ground_metres_both_ways():
    # k = 0.9996: 30 m on the ground are 29.988 m on the grid
    found = adjust(
        (mark("A", 0, 0), mark("B", 0, 100)),
        (
            Bearing(key="b", start="A", end="P", degrees=90.0, sd_deg=0.001),
            tape("A", "P", 30.0),
            tape("A", "B", 100.0),
        ),
        scale_factor=0.9996,
    )
    assert place(found, "P") == pytest.approx((29.988, 0.0), abs=1e-9)
    # 100 m on the grid are 100.04 m on the ground
    assert found.measurements[2].residual == pytest.approx(0.0400, abs=0.0001)
    assert found.measurements[2].redundancy == 1.0


def test_a_tape_down_a_slope_is_reduced_before_it_is_adjusted():
    # hand figure: 20 m on a slope of 10° are 0.30 m too long
    found = adjust(
        (mark("A", 0, 0), mark("B", 0, 19.70)), (tape("A", "B", level(20.0, 10.0, None)),)
    )
    assert 20.0 - level(20.0, 10.0, None) == pytest.approx(0.304, abs=0.001)
    assert found.measurements[0].residual == pytest.approx(0.004, abs=0.001)
    assert found.measurements[0].suspect == 0


def test_a_point_with_two_ties_has_two_places_and_is_not_guessed():
    found = adjust(
        (mark("A", 0, 0), mark("B", 14, 0)), (tape("A", "P", 13), tape("B", "P", 15))
    )
    p = found.point("P")
    assert p.standing is Standing.AMBIGUOUS
    assert p.east is None
    assert p.choices == (pytest.approx((5, -12)), pytest.approx((5, 12)))
    assert not any(m.used for m in found.measurements)


@pytest.mark.parametrize(("right", "north"), [(False, 12.0), (True, -12.0)])
def test_a_hand_settles_it(right, north):
    found = adjust(
        (mark("A", 0, 0), mark("B", 14, 0)),
        (tape("A", "P", 13), tape("B", "P", 15)),
        hands=(hand("P", "A", "B", right=right),),
    )
    assert place(found, "P") == pytest.approx((5.0, north))


def test_a_third_tie_from_off_the_line_settles_it():
    found = adjust(
        (mark("A", 0, 0), mark("B", 14, 0), mark("C", 5, 20)),
        (tape("A", "P", 13), tape("B", "P", 15), tape("C", "P", 32.01)),
    )
    assert place(found, "P") == pytest.approx((5.0, -12.0), abs=0.02)
    assert found.point("P").standing is Standing.GOOD


def test_a_third_tie_from_nearly_the_same_line_does_not_settle_it():
    # seen from P and from its mirror image, C differs by 0.17 m: 8 standard deviations
    found = adjust(
        (mark("A", 0, 0), mark("B", 14, 0), mark("C", 7, 0.1)),
        (tape("A", "P", 13), tape("B", "P", 15), tape("C", "P", math.hypot(2, 11.9))),
    )
    assert found.point("P").standing is Standing.AMBIGUOUS


@pytest.mark.parametrize("sds", [*range(-40, 0, 4), *range(12)])
def test_a_blundered_third_tie_does_not_settle_it_wrongly(sds):
    # seen from the mirror image C differs by 0.43 m, 21 standard deviations
    truth = math.hypot(2, 11.75)
    found = adjust(
        (mark("A", 0, 0), mark("B", 14, 0), mark("C", 7, 0.25)),
        (tape("A", "P", 13), tape("B", "P", 15), tape("C", "P", truth + 0.02 * sds)),
    )
    p = found.point("P")
    assert p.north is None or p.north > 11.0
    assert p.north is not None or abs(sds) > 4


def test_what_hangs_on_a_point_settles_it_too():
    # P and Q each have two ties to marks on one line; the tape between them fits two of four
    # pairs of places, Q's offset from another line settles both
    stations = (mark("A", 0, 0), mark("B", 14, 0), mark("C", 40, 0), mark("D", 40, 20))
    ties = (
        tape("A", "P", 13),
        tape("B", "P", 15),
        tape("B", "Q", 10),
        tape("C", "Q", math.hypot(20, 8)),
        tape("P", "Q", math.hypot(15, 4)),
    )
    open_yet = adjust(stations, ties)
    assert open_yet.point("P").standing is Standing.AMBIGUOUS
    assert open_yet.point("Q").standing is Standing.AMBIGUOUS
    assert not any(m.used for m in open_yet.measurements)
    further = tape("D", "Q", math.hypot(20, 12))
    found = adjust(stations, (*ties, further))
    assert place(found, "P") == pytest.approx((5, 12), abs=1e-6)
    assert place(found, "Q") == pytest.approx((20, 8), abs=1e-6)


def test_one_of_four_worlds_is_left_where_a_tape_between_two_open_points_tells():
    # P over A–B, Q over C–D, far off at a right angle: only one pair of places fits the tape
    stations = (mark("A", 0, 0), mark("B", 14, 0), mark("C", 30, 10), mark("D", 30, 24))
    found = adjust(
        stations,
        (
            tape("A", "P", 13),
            tape("B", "P", 15),
            tape("C", "Q", 13),
            tape("D", "Q", 15),
            tape("P", "Q", math.hypot(18 - 5, 15 - 12)),
        ),
    )
    assert place(found, "P") == pytest.approx((5, 12), abs=1e-6)
    assert place(found, "Q") == pytest.approx((18, 15), abs=1e-6)


def test_a_point_with_one_tie_stays_out_with_all_that_hangs_on_it():
    found = adjust(
        (mark("A", 0, 0), mark("B", 14, 0)),
        (
            tape("A", "P", 13),
            tape("B", "P", 15),
            tape("A", "Q", 5),
            tape("Q", "R", 5),
            tape("X", "Y", 5),
        ),
        hands=(hand("P", "A", "B", right=False),),
    )
    standings = {p.name: p.standing for p in found.points}
    assert standings["P"] is Standing.UNCHECKED
    assert {standings[n] for n in "QRXY"} == {Standing.UNDETERMINED}
    assert [m.used for m in found.measurements] == [True, True, False, False, False]


def test_two_ties_that_do_not_meet_determine_nothing():
    found = adjust(
        (mark("A", 0, 0), mark("B", 14, 0), mark("C", 0, 9)),
        (
            tape("A", "P", 6),
            tape("B", "P", 7),
            tape("A", "Q", 30),
            tape("B", "Q", 7),
            tape("A", "R", 7),
            tape("B", "R", 30),
            tape("A", "S", 9),
            tape("A", "S", 8),
        ),
    )
    assert {found.point(n).standing for n in "PQRS"} == {Standing.UNDETERMINED}


def test_a_point_between_two_marks_is_fixed_by_a_third_across():
    found = adjust(
        (mark("A", 0, 0), mark("B", 14, 0), mark("C", 7, 9)),
        (tape("A", "P", 6.995), tape("B", "P", 6.995), tape("C", "P", 9)),
    )
    assert place(found, "P") == pytest.approx((7, 0), abs=0.01)


def test_a_flat_crossing_makes_a_weak_point():
    found = adjust(
        (mark("A", 0, 0), mark("B", 20, 0)),
        (tape("A", "P", math.hypot(10, 1)), tape("B", "P", math.hypot(10, 1))),
        hands=(hand("P", "A", "B", right=True),),
    )
    p = found.point("P")
    assert p.standing is Standing.WEAK
    assert p.ellipse is not None
    # s·√2 / sin g is 0.14 m across the line; times √5.991
    assert p.ellipse.a == pytest.approx(0.347, abs=0.005)
    assert p.ellipse.bearing_deg % 180 == pytest.approx(0.0, abs=0.01)


def test_a_traverse_hangs_together_through_unknown_points():
    legs = [("A", "1", 30.0, 40.0), ("1", "2", 110.0, 25.0), ("2", "B", 190.0, 20.0)]
    observed: list[Observed] = []
    east, north = 0.0, 0.0
    for start, end, bearing, length in legs:
        observed.append(tape(start, end, length))
        observed.append(Bearing(key=start, start=start, end=end, degrees=bearing, sd_deg=0.05))
        east += length * math.sin(math.radians(bearing))
        north += length * math.cos(math.radians(bearing))
    found = adjust((mark("A", 0, 0), mark("B", east, north)), observed)
    assert place(found, "1") == pytest.approx((20.0, 34.6410), abs=1e-4)
    assert found.dof == 2
    assert all(m.used for m in found.measurements)


def test_bearings_of_a_compass_find_what_they_are_off_by():
    # the compass points 7.5° east of grid north, so all it reads is 7.5° too little
    stations = (mark("A", 0, 0), mark("B", 50, 10))
    truth = {"A": 0j, "1": 10 + 20j, "2": 30 + 25j, "B": 50 + 10j}
    observed: list[Observed] = []
    for start, end in itertools.pairwise(truth):
        way = truth[end] - truth[start]
        bearing = math.degrees(math.atan2(way.real, way.imag)) - 7.5
        observed.append(tape(start, end, abs(way)))
        observed.append(
            Bearing(
                key=start, start=start, end=end, degrees=bearing, sd_deg=0.5, swing="compass"
            )
        )
    found = adjust(stations, observed)
    assert place(found, "1") == pytest.approx((10, 20), abs=1e-6)
    assert place(found, "2") == pytest.approx((30, 25), abs=1e-6)
    assert found.swings == (("compass", pytest.approx(7.5, abs=1e-6)),)
    assert found.dof == 1
    # one that begins between placed points needs no piece
    with_sight = (
        *observed,
        Bearing(
            key="s",
            start="A",
            end="B",
            degrees=math.degrees(math.atan2(50, 10)) - 7.5,
            sd_deg=0.5,
            swing="compass",
        ),
    )
    assert place(adjust(stations, with_sight), "2") == pytest.approx((30, 25), abs=1e-6)


def test_a_base_line_between_unknown_ends_is_laid_by_its_points():
    # two points of the line are tied to marks, both ends and a third hang on them
    stations = (mark("A", 0, 0), mark("B", 14, 0), mark("C", 7, 30))
    truth = {"P": 5 + 12j, "Q": 12 + 9j}
    start, way = 0 + 10j, (0.96 - 0.28j)
    base = [
        Offset(
            key=name,
            start="S",
            end="E",
            point=name,
            along=((z - start) / way).real,
            aside=-((z - start) / way).imag,
            sd=0.02,
        )
        for name, z in {**truth, "T": 20 + 12j}.items()
    ]
    ties = [
        tape(s.name, name, abs(z - complex(s.east, s.north)))
        for name, z in truth.items()
        for s in stations
    ]
    found = adjust(stations, (*base, *ties, tape("S", "E", 25)))
    assert place(found, "S") == pytest.approx((0, 10), abs=1e-6)
    assert place(found, "E") == pytest.approx((24, 3), abs=1e-6)
    assert place(found, "T") == pytest.approx((20, 12), abs=1e-6)
    # without its length nothing says where the line ends, and all along it stays out
    without_length = adjust(stations, (*base, *ties))
    assert {without_length.point(n).standing for n in "SET"} == {Standing.UNDETERMINED}
    assert place(without_length, "P") == pytest.approx((5, 12), abs=1e-6)


def test_a_traverse_by_angles_alone_is_laid_by_its_ends():
    truth = {"A": 0j, "1": 10 + 20j, "2": 30 + 25j, "B": 50 + 10j}
    names = list(truth)
    observed: list[Observed] = [
        tape(a, b, abs(truth[b] - truth[a])) for a, b in itertools.pairwise(names)
    ]
    for back, at, fore in zip(names, names[1:], names[2:], strict=False):
        observed.append(angle(truth, at, back, fore))
    found = adjust((mark("A", 0, 0), mark("B", 50, 10)), observed)
    assert place(found, "1") == pytest.approx((10, 20), abs=1e-6)
    assert place(found, "2") == pytest.approx((30, 25), abs=1e-6)


def test_angles_fix_a_point_from_two_marks_and_from_the_point_itself():
    truth = {"A": 0j, "B": 20 + 0j, "C": 10 + 30j, "P": 12 + 9j}
    stations = (mark("A", 0, 0), mark("B", 20, 0), mark("C", 10, 30), mark("D", 20, 12))
    forward = adjust(stations, (angle(truth, "A", "C", "P"), angle(truth, "B", "P", "C")))
    assert place(forward, "P") == pytest.approx((12, 9), abs=1e-6)
    back = adjust(
        stations,
        (angle(truth, "P", "A", "C"), tape("B", "P", math.hypot(8, 9))),
        hands=(hand("P", "A", "D", right=False),),
    )
    assert place(back, "P") == pytest.approx((12, 9), abs=1e-6)


def angle(truth: dict[str, complex], at: str, back: str, fore: str) -> Angle:
    ways = truth[back] - truth[at], truth[fore] - truth[at]
    turn = [math.degrees(math.atan2(z.real, z.imag)) for z in ways]
    return Angle(
        key=at, at=at, back=back, fore=fore, degrees=(turn[1] - turn[0]) % 360, sd_deg=0.01
    )


def test_stations_with_an_error_of_their_own_are_moved_by_ties():
    exact = adjust((mark("A", 0, 0), mark("B", 10, 0)), (tape("A", "B", 10.1, 0.01),))
    assert exact.measurements[0].residual == pytest.approx(-0.1)
    # the error of 0.1 is shared as the variances: 0.03², 0.01², 0.01²
    moved = adjust(
        (mark("A", 0, 0, 0.03), mark("B", 10, 0, 0.01)), (tape("A", "B", 10.1, 0.01),)
    )
    assert place(moved, "A")[0] == pytest.approx(-0.1 * 9 / 11, abs=1e-6)
    assert place(moved, "B")[0] == pytest.approx(10 + 0.1 / 11, abs=1e-6)
    assert moved.measurements[0].residual == pytest.approx(-0.1 / 11, abs=1e-6)
    assert moved.measurements[0].redundancy == pytest.approx(1 / 11, abs=1e-6)
    assert moved.dof == 1
    assert moved.point("A").known


def test_the_order_of_the_book_does_not_matter():
    book = simulated(3)
    first = adjust(book.stations, book.observed, hands=book.hands)
    shuffled = random.Random(5)  # noqa: S311  # the same shuffle each time
    for _ in range(3):
        stations, observed, hands = (
            shuffled.sample(list(part), len(part))
            for part in (book.stations, book.observed, book.hands)
        )
        again = adjust(stations, observed, hands=hands)
        for p in first.points:
            q = again.point(p.name)
            assert q.standing is p.standing
            assert q.choices == pytest.approx(p.choices, abs=1e-9) if p.choices else True
            if p.east is not None:
                assert place(again, p.name) == pytest.approx(place(first, p.name), abs=1e-9)
        by_key = {(m.key, m.what): m for m in again.measurements}
        for m in first.measurements:
            twin = by_key[m.key, m.what]
            assert twin.residual == pytest.approx(m.residual, abs=1e-9)
            assert twin.suspect == m.suspect


def test_a_book_without_points_and_one_without_anything_come_out_empty():
    assert adjust((), ()).points == ()
    only = adjust((mark("A", 0, 0),), ())
    assert [p.name for p in only.points] == ["A"]
    assert only.dof == 0


@pytest.mark.parametrize(
    ("stations", "one", "says"),
    [
        ([mark("A", 0, 0), mark("A", 1, 1)], tape("A", "P", 5), "“A” is there twice"),
        ([mark("A", 0, math.nan)], tape("A", "P", 5), "“A” has a figure that is no number"),
        ([mark("A", 0, 0, -1.0)], tape("A", "P", 5), "“A” has a figure"),
        ([mark("A", 0, 0)], tape("A", "A", 5), "A-A does not name different points"),
        ([mark("A", 0, 0)], tape("A", "", 5), "A- does not name different points"),
        ([mark("A", 0, 0)], tape("A", "P", math.nan), "A-P has a figure that is no number"),
        ([mark("A", 0, 0)], tape("A", "P", 5, 0.0), "not above 0"),
        ([mark("A", 0, 0)], tape("A", "P", -5), "A-P has a length below 0"),
    ],
)
def test_nonsense_is_refused_in_a_sentence(stations, one, says):
    with pytest.raises(CannotUse, match=says):
        adjust(stations, (one,))


def test_an_absurd_scale_factor_is_refused():
    with pytest.raises(CannotUse, match="local scale factor"):
        adjust((mark("A", 0, 0),), (), scale_factor=30.48)


def test_a_hand_that_contradicts_everything_is_not_followed_blindly():
    # the offset says right, the hand left: the measured one stands
    found = adjust(
        (mark("A", 0, 0), mark("B", 10, 0)),
        (Offset(key="o", start="A", end="B", point="P", along=5, aside=5, sd=0.02),),
        hands=(hand("P", "A", "B", right=False),),
    )
    assert place(found, "P") == pytest.approx((5, -5))


def test_a_point_that_no_one_knows_is_asked_for_in_vain():
    with pytest.raises(KeyError):
        adjust((), ()).point("P")


def test_dropping_one_of_many_ties_changes_the_answer_only_a_little():
    book = simulated(8)
    found = adjust(book.stations, book.observed, hands=book.hands)
    wrong = replace(book, observed=book.observed[:-1])
    again = adjust(wrong.stations, wrong.observed, hands=wrong.hands)
    for p in found.points:
        if p.standing is Standing.GOOD and again.point(p.name).standing is Standing.GOOD:
            assert place(again, p.name) == pytest.approx(place(found, p.name), abs=0.06)


def test_a_point_is_placed_though_what_told_its_side_stays_open():
    # P's side is told by how far Q is; Q's own two places lie alike from both of P's
    found = adjust(
        (mark("A", 0, 0), mark("B", 14, 0), mark("C", 5, 30), mark("D", 5, 44)),
        (
            tape("A", "P", 13),
            tape("B", "P", 15),
            tape("C", "Q", math.hypot(13, 5)),
            tape("D", "Q", math.hypot(13, 9)),
            tape("P", "Q", math.hypot(13, 23)),
        ),
    )
    assert place(found, "P") == pytest.approx((5, 12), abs=1e-6)
    assert found.point("Q").standing is Standing.AMBIGUOUS
    assert found.point("Q").choices == (pytest.approx((-8, 35)), pytest.approx((18, 35)))


def test_bearings_from_two_marks_meet_in_front_of_both_or_not_at_all():
    def bearing(start: str, end: str, degrees: float) -> Bearing:
        return Bearing(key="b", start=start, end=end, degrees=degrees, sd_deg=0.01)

    found = adjust(
        (mark("A", 0, 0), mark("B", 10, 0)),
        (
            bearing("A", "P", 45.0),
            bearing("B", "P", 315.0),
            bearing("A", "Q", 225.0),
            bearing("B", "Q", 315.0),
            bearing("A", "R", 0.0),
            bearing("B", "R", 0.0),
            bearing("S", "A", 180.0),  # read at the unknown point: A lies south of it
            bearing("B", "S", 315.0),
        ),
    )
    assert place(found, "P") == pytest.approx((5, 5), abs=1e-9)
    assert place(found, "S") == pytest.approx((0, 10), abs=1e-9)
    assert found.point("Q").standing is Standing.UNDETERMINED
    assert found.point("R").standing is Standing.UNDETERMINED


def test_a_known_point_off_a_line_gives_the_direction_of_its_unknown_end():
    # P is 8 along and 6 right of the line from A: the line runs north, its end is 20 off
    found = adjust(
        (mark("A", 0, 0), mark("P", 6, 8)),
        (
            Offset(key="o", start="A", end="E", point="P", along=8, aside=6, sd=0.02),
            tape("A", "E", 20),
        ),
    )
    assert place(found, "E") == pytest.approx((0, 20), abs=1e-6)


def test_a_straight_angle_puts_a_point_between_two_marks():
    straight = Angle(key="a", at="P", back="A", fore="B", degrees=180.0, sd_deg=0.01)
    found = adjust(
        (mark("A", 0, 0), mark("B", 10, 0)), (straight, tape("A", "P", 4), tape("B", "P", 6))
    )
    assert place(found, "P") == pytest.approx((4, 0), abs=1e-6)


def test_pieces_that_hang_on_one_point_or_two_that_are_too_near_stay_out():
    def leg(start: str, end: str, degrees: float) -> tuple[Tape, Bearing]:
        return (
            tape(start, end, 10),
            Bearing(
                key="b", start=start, end=end, degrees=degrees, sd_deg=0.1, swing="compass"
            ),
        )

    one = adjust((mark("A", 0, 0),), (*leg("A", "1", 20), *leg("1", "2", 80)))
    assert {one.point(n).standing for n in "12"} == {Standing.UNDETERMINED}
    near = adjust(
        (mark("A", 0, 0), mark("B", 0.1, 0)),
        (*leg("A", "1", 20), *leg("1", "2", 80), *leg("2", "B", 200), tape("X", "Y", 3)),
    )
    assert {near.point(n).standing for n in "12XY"} == {Standing.UNDETERMINED}
