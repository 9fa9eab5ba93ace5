"""Traverses against published ones, and against the adjustment of the same legs."""

import itertools
import math

import pytest

from plan_editor.errors import CannotUse
from plan_editor.survey.adjustment.network import adjust
from plan_editor.survey.adjustment.observed import Angle, Bearing, Observed, Station, Tape
from plan_editor.survey.adjustment.traverse import Leg, Point, Sights, Traverse, bowditch

START = Point(name="1", east=1000.0, north=500.0)


def quadrant(text: str) -> float:
    north, degrees, minutes, east = text.split()
    angle = float(degrees) + float(minutes) / 60
    angle = angle if north == "N" else 180 - angle
    return (angle if east == "E" else -angle) % 360


# Sample Traverse Computations, scribd.com/doc/279716815, in feet, printed to four decimals
SIX = (
    ("N 5 30 E", 495.85),
    ("N 46 2 E", 850.62),
    ("S 67 38 E", 855.45),
    ("S 12 25 E", 1020.87),
    ("S 83 44 W", 1117.26),
    ("N 55 9 W", 660.08),
)
SIX_NORTH = (491.8995, 587.6733, -328.4036, -1000.4252, -125.7134, 374.9694)
SIX_EAST = (45.7328, 609.1538, 788.0003, 215.8168, -1114.6225, -544.0812)
SIX_LENGTHS = (494.0208, 846.4208, 853.694, 1023.439, 1121.6894, 660.7771)


def legs_of(rows: tuple[tuple[str, float], ...]) -> tuple[Leg, ...]:
    return tuple(
        Leg(end=str((n + 1) % len(rows) + 1), metres=length, bearing_deg=quadrant(bearing))
        for n, (bearing, length) in enumerate(rows)
    )


def steps(found: Traverse) -> tuple[list[float], list[float]]:
    pairs = list(itertools.pairwise(found.points))
    return [b.east - a.east for a, b in pairs], [b.north - a.north for a, b in pairs]


def test_the_published_traverse_of_six_sides_comes_out():
    found = bowditch(START, legs_of(SIX))
    assert found.misclosure_north == pytest.approx(16.8171, abs=1e-4)
    assert found.misclosure_east == pytest.approx(18.0737, abs=1e-4)
    assert found.misclosure == pytest.approx(24.6876, abs=1e-4)
    assert found.length == pytest.approx(5000.13)
    assert found.ratio == pytest.approx(5000.13 / 24.6876, abs=0.01)  # printed as 1/200
    east, north = steps(found)
    assert east == pytest.approx(SIX_EAST, abs=1e-4)
    assert north == pytest.approx(SIX_NORTH, abs=1e-4)
    assert [length for length, _ in found.legs] == pytest.approx(SIX_LENGTHS, abs=1e-4)
    assert found.area == pytest.approx(1715250.0494, abs=0.01)
    assert found.angular_deg is None


# Compass rule, slides, scribd.com/document/493615208, metres; sums printed of rounded figures
SMALL = (
    ("N 76 0 E", 80.4),
    ("S 36 0 E", 46.3),
    ("S 61 0 W", 72.8),
    ("N 38 0 W", 68.0),
)


def test_the_published_small_plot_comes_out():
    found = bowditch(START, legs_of(SMALL))
    assert found.misclosure_north == pytest.approx(0.285, abs=0.002)
    assert found.misclosure_east == pytest.approx(-0.311, abs=0.002)
    assert found.length == pytest.approx(267.5)
    assert found.ratio == pytest.approx(635, abs=3)
    east, north = steps(found)
    assert north == pytest.approx((19.3653, -37.5063, -35.3716, 53.5126), abs=0.0006)
    assert east[:3] == pytest.approx((78.1055, 27.2678, -63.5874), abs=0.0006)


def test_a_traverse_that_closes_exactly_has_no_ratio():
    legs = [Leg(end=n, metres=10.0, bearing_deg=b) for n, b in zip("2341", (0, 90, 180, 270))]  # noqa: B905
    found = bowditch(START, legs)
    assert found.ratio is None
    assert found.area == pytest.approx(100.0)


def test_a_link_ends_at_its_known_point():
    end = Point(name="E", east=1020.0, north=540.3)
    legs = (
        Leg(end="2", metres=30.0, bearing_deg=0.0),
        Leg(end="3", metres=20.0, bearing_deg=90.0),
        Leg(end="E", metres=10.0, bearing_deg=0.0),
    )
    found = bowditch(START, legs, end=end)
    assert found.misclosure_north == pytest.approx(-0.3)
    assert found.misclosure_east == pytest.approx(0.0, abs=1e-9)
    assert found.area is None
    # by hand: 0.3 m over 60 m is 5 mm a metre
    assert [p.north for p in found.points] == pytest.approx([500, 530.15, 530.25, 540.3])
    assert found.points[-1].east == pytest.approx(1020.0)


def test_the_scale_factor_shortens_legs_on_the_grid_and_not_on_the_ground():
    end = Point(name="E", east=1000.0, north=500.0 + 59.976)
    legs = [Leg(end=n, metres=30.0, bearing_deg=0.0) for n in "2E"]
    found = bowditch(START, legs, end=end, scale_factor=0.9996)
    # 30 m less 12 mm
    assert found.points[1].north == pytest.approx(529.988)
    assert found.misclosure == pytest.approx(0.0, abs=1e-9)
    assert found.legs[0][0] == pytest.approx(30.0)


def square(*, off: float) -> tuple[Leg, ...]:
    """Return a square of 40 m walked clockwise, each angle wrong by as much."""
    first = Leg(end="2", metres=40.0, bearing_deg=90.0, angle_deg=270.0 + off)
    return (first, *(Leg(end=n, metres=40.0, angle_deg=270.0 + off) for n in "341"))


def test_what_angles_miss_by_is_shared_out_first():
    # clockwise, with the angles measured clockwise from back to fore: outside ones, of 270°
    found = bowditch(START, square(off=0.05))
    assert found.angular_deg == pytest.approx(0.2)
    assert found.misclosure == pytest.approx(0.0, abs=1e-9)
    assert found.area == pytest.approx(1600.0)
    assert found.legs[2][1] == pytest.approx(270.0)


def test_angles_that_close_on_known_directions_at_both_ends():
    end = Point(name="E", east=1030.0, north=540.0)
    legs = (
        Leg(end="2", metres=40.0, angle_deg=180.0 + 0.03),
        Leg(end="E", metres=30.0, angle_deg=270.0 + 0.03),
    )
    sights = Sights(back_deg=180.0, angle_deg=90.0 + 0.03, fore_deg=0.0)
    found = bowditch(START, legs, end=end, sights=sights)
    assert found.angular_deg == pytest.approx(0.09)
    assert [leg[1] for leg in found.legs] == pytest.approx([0.0, 90.0], abs=1e-9)
    assert found.points[1].north == pytest.approx(540.0)


def test_angles_without_a_closing_one_are_carried_as_they_are():
    legs = (
        Leg(end="2", metres=40.0, bearing_deg=0.0),
        Leg(end="3", metres=30.0, angle_deg=270.0),
        Leg(end="1", metres=50.0, bearing_deg=180.0 + math.degrees(math.atan2(30, 40))),
    )
    found = bowditch(START, legs)
    assert found.angular_deg is None
    assert found.misclosure == pytest.approx(0.0, abs=1e-9)
    assert found.area == pytest.approx(600.0)


@pytest.mark.parametrize(
    ("legs", "scale_factor", "says"),
    [
        ([Leg(end="2", metres=5.0, bearing_deg=0.0)], 1.0, "two legs"),
        ([Leg(end="2", metres=5.0, bearing_deg=0.0)] * 2, 10.0, "scale factor"),
        ([Leg(end="2", metres=5.0)] * 2, 1.0, "“2” has neither a bearing nor an angle"),
        ([Leg(end="2", metres=5.0, angle_deg=90.0)] * 2, 1.0, "neither a bearing nor an angle"),
        ([Leg(end="2", metres=0.0, bearing_deg=0.0)] * 2, 1.0, "makes no sense"),
        ([Leg(end="2", metres=5.0, bearing_deg=math.nan)] * 2, 1.0, "makes no sense"),
    ],
)
def test_what_makes_no_traverse_is_refused(legs, scale_factor, says):
    with pytest.raises(CannotUse, match=says):
        bowditch(START, legs, scale_factor=scale_factor)


def as_observed(legs: tuple[Leg, ...]) -> list[Observed]:
    names = ["1", *(leg.end for leg in legs)]
    observed: list[Observed] = []
    for start, leg in zip(names, legs, strict=False):
        observed.append(Tape(key=leg.end, start=start, end=leg.end, metres=leg.metres, sd=0.02))
        assert leg.bearing_deg is not None
        observed.append(
            Bearing(key=leg.end, start=start, end=leg.end, degrees=leg.bearing_deg, sd_deg=0.05)
        )
    return observed


def test_least_squares_close_the_same_traverse_as_well():
    found = adjust((Station(name="1", east=1000.0, north=500.0),), as_observed(legs_of(SMALL)))
    assert found.dof == 2
    plain = bowditch(START, legs_of(SMALL))
    for point in plain.points[1:-1]:
        place = found.point(point.name)
        # both share 0.42 m out over the legs, each in its own way
        assert place.east == pytest.approx(point.east, abs=0.15)
        assert place.north == pytest.approx(point.north, abs=0.15)
    assert all(m.used for m in found.measurements)


def test_bowditch_is_least_squares_where_errors_grow_with_length_and_all_ways_alike():
    # Bowditch's own reasoning: with variances along and across that are in proportion to the
    # length of a leg, the rule is the least-squares answer
    legs = legs_of(SMALL)
    observed: list[Observed] = []
    for one in as_observed(legs):
        if isinstance(one, Tape):
            sd = 0.0001 * math.sqrt(one.metres)
            observed.append(
                Tape(key="", start=one.start, end=one.end, metres=one.metres, sd=sd)
            )
        else:
            assert isinstance(one, Bearing)
            length = next(leg.metres for leg in legs if leg.end == one.end)
            sd = math.degrees(0.0001 * math.sqrt(length) / length)
            observed.append(
                Bearing(key="", start=one.start, end=one.end, degrees=one.degrees, sd_deg=sd)
            )
    found = adjust((Station(name="1", east=1000.0, north=500.0),), observed)
    for point in bowditch(START, legs).points[1:-1]:
        place = found.point(point.name)
        assert place.east == pytest.approx(point.east, abs=0.002)
        assert place.north == pytest.approx(point.north, abs=0.002)


def test_included_angles_close_by_least_squares_too():
    legs = square(off=0.05)
    names = ["1", "2", "3", "4", "1"]
    observed: list[Observed] = [
        Tape(key="t", start=a, end=b, metres=40.0, sd=0.01)
        for a, b in itertools.pairwise(names)
    ]
    observed.append(Bearing(key="b", start="1", end="2", degrees=90.0, sd_deg=0.001))
    for back, at, fore in zip(["4", *names], names, names[1:], strict=False):
        angle = legs[0].angle_deg
        assert angle is not None
        observed.append(Angle(key="a", at=at, back=back, fore=fore, degrees=angle, sd_deg=0.02))
    found = adjust((Station(name="1", east=1000.0, north=500.0),), observed)
    assert found.point("3").east == pytest.approx(1040.0, abs=1e-6)
    assert found.point("3").north == pytest.approx(460.0, abs=1e-6)
    turned = [m.residual for m in found.measurements if m.what == "angle"]
    assert turned == pytest.approx([-0.05] * 4, abs=1e-6)
