"""Whole small networks against scipy: places by least_squares, errors by its Jacobian.

The residuals are written here once more, plainly, so that nothing of the project is reused.
"""

import math

import numpy as np
import pytest
from scipy.optimize import least_squares
from simulated_books import cemetery, simulated

from plan_editor.survey.adjustment.network import adjust
from plan_editor.survey.adjustment.observed import (
    Angle,
    Bearing,
    Offset,
    Standing,
    Station,
    Tape,
)

STATIONS = (
    Station(name="A", east=0.0, north=0.0),
    Station(name="B", east=31.0, north=4.0, sd=0.01),
    Station(name="C", east=12.0, north=28.0, sd=0.02),
)
TRUTH = {"A": (0, 0), "B": (31, 4), "C": (12, 28), "P": (9, 11), "Q": (22, 15), "R": (27, 26)}


def book(seed):
    chance = np.random.default_rng(seed)

    def off(sd):
        return sd * float(chance.standard_normal())

    def way(a, b):
        return TRUTH[b][0] - TRUTH[a][0], TRUTH[b][1] - TRUTH[a][1]

    def azimuth(a, b):
        return math.degrees(math.atan2(*way(a, b)))

    observed = [
        Tape(
            key="", start=a, end=b, metres=math.hypot(*way(a, b)) / 0.9997 + off(0.02), sd=0.02
        )
        for a, b in ("AP", "BP", "CP", "PQ", "QB", "QC", "QR", "RB")
    ]
    for start, end, point in (("A", "B", "Q"), ("P", "C", "R")):
        line, out = way(start, end), way(start, point)
        length = math.hypot(*line)
        along = (line[0] * out[0] + line[1] * out[1]) / length / 0.9997
        aside = (line[1] * out[0] - line[0] * out[1]) / length / 0.9997
        observed.append(
            Offset(
                key="",
                start=start,
                end=end,
                point=point,
                along=along + off(0.03),
                aside=aside + off(0.03),
                sd=0.03,
            )
        )
    for a, b in ("AP", "PR", "CQ"):
        degrees = (azimuth(a, b) - 3.25 + off(0.1)) % 360
        observed.append(
            Bearing(key="", start=a, end=b, degrees=degrees, sd_deg=0.1, swing="compass")
        )
    observed.append(Bearing(key="", start="B", end="R", degrees=azimuth("B", "R"), sd_deg=0.05))
    turn = (azimuth("Q", "R") - azimuth("Q", "A") + off(0.02)) % 360
    observed.append(Angle(key="", at="Q", back="A", fore="R", degrees=turn, sd_deg=0.02))
    return observed


NAMES = ("B", "C", "P", "Q", "R")


def residuals(numbers, observed):
    at = {"A": (0.0, 0.0)}
    at |= {n: (numbers[2 * k], numbers[2 * k + 1]) for k, n in enumerate(NAMES)}
    swing = numbers[10]
    out = []

    def direction(a, b):
        return math.degrees(math.atan2(at[b][0] - at[a][0], at[b][1] - at[a][1]))

    def turned(degrees):
        return math.remainder(degrees, 360.0)

    for o in observed:
        if isinstance(o, Tape):
            out.append((math.dist(at[o.start], at[o.end]) / 0.9997 - o.metres) / o.sd)
        elif isinstance(o, Offset):
            angle = math.radians(direction(o.start, o.point) - direction(o.start, o.end))
            far = math.dist(at[o.start], at[o.point]) / 0.9997
            out.append((far * math.cos(angle) - o.along) / o.sd)
            out.append((far * math.sin(angle) - o.aside) / o.sd)
        elif isinstance(o, Bearing):
            read = o.degrees + (swing if o.swing else 0.0)
            out.append(turned(direction(o.start, o.end) - read) / o.sd_deg)
        else:
            read = direction(o.at, o.fore) - direction(o.at, o.back)
            out.append(turned(read - o.degrees) / o.sd_deg)
    for s in STATIONS[1:]:
        out += [(at[s.name][0] - s.east) / s.sd, (at[s.name][1] - s.north) / s.sd]
    return np.array(out)


@pytest.mark.parametrize("seed", range(4))
def test_places_errors_and_redundancies_are_those_of_scipy(seed):
    observed = book(seed)
    found = adjust(STATIONS, observed, scale_factor=0.9997)
    start = np.array([x for n in NAMES for x in TRUTH[n]] + [0.0], dtype=float)
    theirs = least_squares(
        residuals, start, args=(observed,), x_scale="jac", xtol=1e-15, ftol=1e-15, gtol=1e-15
    )
    places = [x for n in NAMES for x in (found.point(n).east, found.point(n).north)]
    assert places == pytest.approx(theirs.x[:10].tolist(), abs=1e-6)
    assert dict(found.swings)["compass"] == pytest.approx(theirs.x[10], abs=1e-6)
    jacobian = theirs.jac
    covariance = np.linalg.inv(jacobian.T @ jacobian)
    for k, name in enumerate(NAMES):
        p = found.point(name)
        assert p.sd_east == pytest.approx(math.sqrt(covariance[2 * k, 2 * k]), rel=1e-5)
        own = covariance[2 * k : 2 * k + 2, 2 * k : 2 * k + 2]
        small, large = np.sqrt(5.991 * np.linalg.eigvalsh(own))
        assert (p.ellipse.b, p.ellipse.a) == pytest.approx((small, large), rel=1e-5)
    assert found.dof == len(theirs.fun) - 11
    assert found.s0 == pytest.approx(math.sqrt(2 * theirs.cost / found.dof), rel=1e-6)
    hat = np.einsum("ij,jk,ik->i", jacobian, covariance, jacobian)
    count = len(found.measurements)
    assert [m.redundancy for m in found.measurements] == pytest.approx(
        (1 - hat[:count]).tolist(), abs=1e-5
    )
    standardised = theirs.fun / np.sqrt(1 - hat)
    assert [m.standardised for m in found.measurements] == pytest.approx(
        standardised[:count].tolist(), abs=1e-3
    )


def test_the_axis_of_an_ellipse_points_where_the_error_is_largest():
    found = adjust(STATIONS, book(1), scale_factor=0.9997)
    ellipse = found.point("P").ellipse
    p = found.point("P")
    # along the axis and square to it, the errors sum to those of east and north
    assert ellipse.a**2 + ellipse.b**2 == pytest.approx(
        5.991 * (p.sd_east**2 + p.sd_north**2), rel=1e-9
    )
    turn = math.radians(ellipse.bearing_deg)
    east = math.hypot(ellipse.a * math.sin(turn), ellipse.b * math.cos(turn))
    assert east == pytest.approx(math.sqrt(5.991) * p.sd_east, rel=1e-9)


def test_the_redundancies_of_a_large_book_sum_to_its_surplus():
    # the trace of the projector on the residuals is the surplus; the stations have a part
    big = cemetery(300)
    found = adjust(big.stations, big.observed)
    marks = [p for p in found.points if p.known]
    of_marks = sum(2 - (p.sd_east**2 + p.sd_north**2) / 0.01**2 for p in marks)
    total = sum(m.redundancy for m in found.measurements) + of_marks
    assert total == pytest.approx(found.dof, abs=1e-4)
    assert all(p.standing is not Standing.UNDETERMINED for p in found.points)


def test_a_large_book_comes_out_as_its_full_matrix_says():
    big = cemetery(150, seed=4)
    found = adjust(big.stations, big.observed)
    names = [p.name for p in found.points]
    at = {p.name: np.array([p.east, p.north]) for p in found.points}
    matrix = np.zeros((2 * len(names), 2 * len(names)))
    pull = np.zeros(2 * len(names))
    where = {n: slice(2 * k, 2 * k + 2) for k, n in enumerate(names)}
    for o in big.observed:
        way = at[o.end] - at[o.start]
        row = np.zeros(2 * len(names))
        row[where[o.end]] = way / np.linalg.norm(way)
        row[where[o.start]] = -row[where[o.end]]
        matrix += np.outer(row, row) / o.sd**2
        pull += row * (np.linalg.norm(way) - o.metres) / o.sd**2
    for s in big.stations:
        matrix[where[s.name], where[s.name]] += np.eye(2) / s.sd**2
        pull[where[s.name]] += (at[s.name] - (s.east, s.north)) / s.sd**2
    # no step is left to take, and the errors are those of the full inverse
    assert np.abs(np.linalg.solve(matrix, pull)).max() < 1e-9
    inverse = np.linalg.inv(matrix)
    for p in found.points:
        own = inverse[where[p.name], where[p.name]]
        assert p.sd_east == pytest.approx(math.sqrt(own[0, 0]), rel=1e-6)
        assert p.sd_north == pytest.approx(math.sqrt(own[1, 1]), rel=1e-6)


@pytest.mark.parametrize("seed", range(3))
def test_simulated_books_come_near_the_truth(seed):
    known = simulated(seed)
    found = adjust(known.stations, known.observed, hands=known.hands)
    placed = [p for p in found.points if p.east is not None and not p.known]
    assert len(placed) > 10
    for p in placed:
        off = abs(complex(p.east, p.north) - known.truth[p.name])
        assert off < 3 * p.ellipse.a
