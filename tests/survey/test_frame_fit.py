"""A plan carried into another grid, against published transformations and another library."""

import numpy as np
import pytest
from scipy.linalg import orthogonal_procrustes

from plan_editor.survey.grids.frame_faults import misfit, suspect, together
from plan_editor.survey.grids.frame_fit import FrameFit, Known, Way, frame_fit, mirrored_fit

# EPSG method 9621 (similarity transformation), operation 5166, as the EPSG register prints it
# with its example, the first; the other pairs are the test points that the Institut Cartogràfic
# i Geològic de Catalunya published for the same operation
CATALONIA = [
    (300000.000, 4500000.000, 299905.060, 4499796.515),
    (315000.000, 4740000.000, 314906.904, 4739796.774),
    (520000.000, 4680000.000, 519906.767, 4679795.125),
    (420000.000, 4600000.000, 419906.005, 4599795.760),
]

# Ghilani, Adjustment Computations, chapter 18: control points, and points computed from them
TEXTBOOK = [
    (121.622, -128.066, 1049422.40, 51089.20),
    (141.228, 187.718, 1049413.95, 49659.30),
    (175.802, 135.728, 1049244.95, 49884.95),
]
COMPUTED = [
    (174.148, -120.262, 1049187.361, 51040.629),
    (513.520, -192.130, 1047637.713, 51278.829),
    (754.444, -67.706, 1046582.113, 50656.241),
    (972.788, 120.994, 1045644.713, 49749.336),
]

Row = tuple[float, float, float, float]


def known(rows: list[Row], sd: float = 0.03) -> list[Known]:
    return [
        Known(name=f"M{n}", east=e, north=h, to_east=te, to_north=tn, sd=sd)
        for n, (e, h, te, tn) in enumerate(rows, 1)
    ]


def test_the_registers_own_transformation_is_found() -> None:
    fit = frame_fit(known(CATALONIA), scale=None)
    # printed: M 1.0000015504, θ 1.56504″; the sign of θ is that of the axes, clockwise here
    assert fit.own_scale == pytest.approx(1.0000015504, abs=3e-9)
    assert abs(fit.way.turn_deg) * 3600 == pytest.approx(1.56504, abs=1e-4)
    assert max(fit.off) < 0.0005


def test_the_textbooks_figures_are_found() -> None:
    fit = frame_fit(known(TEXTBOOK), scale=None)
    way = fit.way
    assert (way.a, way.b) == (
        pytest.approx(-4.51249, abs=6e-6),
        pytest.approx(-0.25371, abs=6e-6),
    )
    assert (way.c, way.d) == (
        pytest.approx(1050003.715, abs=6e-4),
        pytest.approx(50542.131, abs=6e-4),
    )
    for east, north, to_east, to_north in COMPUTED:
        assert way.at(east, north) == (
            pytest.approx(to_east, abs=6e-4),
            pytest.approx(to_north, abs=6e-4),
        )


@pytest.mark.parametrize("seed", range(8))
def test_a_held_scale_gives_the_turn_of_another_library(seed: int) -> None:
    chance = np.random.default_rng(seed)
    turn, count = chance.uniform(-3, 3), int(chance.integers(4, 9))
    here = chance.uniform(-100, 100, (count, 2))
    matrix = 1.0004 * np.array([(np.cos(turn), np.sin(turn)), (-np.sin(turn), np.cos(turn))])
    there = here @ matrix + (553.0, 421.0) + chance.normal(0, 0.5, (count, 2))
    sd = chance.uniform(0.01, 0.5, count)
    marks = [
        Known(name="", east=e, north=n, to_east=te, to_north=tn, sd=s)
        for (e, n), (te, tn), s in zip(here.tolist(), there.tolist(), sd.tolist(), strict=True)
    ]
    way = frame_fit(marks, scale=1.0004).way
    assert way.scale == pytest.approx(1.0004, rel=1e-12)
    # scipy's orthogonal Procrustes problem, each row weighed by the root of its weight
    middles = [np.average(p, axis=0, weights=sd**-2) for p in (here, there)]
    rows = [(p - m) / sd[:, None] for p, m in zip((here, there), middles, strict=True)]
    best, _ = orthogonal_procrustes(*rows)
    assert np.linalg.det(best) > 0
    assert (way.a, way.b) == (
        pytest.approx(1.0004 * best[0, 0], abs=1e-12),
        pytest.approx(1.0004 * best[0, 1], abs=1e-12),
    )


def test_a_quarter_turn_clockwise_takes_north_to_east() -> None:
    way = Way(0.0, -1.0, 10.0, 20.0)
    assert way.turn_deg == pytest.approx(90.0)
    assert way.at(0.0, 1.0) == (11.0, 20.0)
    assert Way(0.0, 1.0, 0.0, 0.0).turn_deg == pytest.approx(-90.0)


SQUARE = [
    (0.0, 0.0, 1000.0, 2000.0),
    (60.0, 0.0, 1060.0, 2000.0),
    (60.0, 40.0, 1060.0, 2040.0),
    (0.0, 40.0, 1000.0, 2040.0),
    (25.0, 70.0, 1025.0, 2070.0),
]


def fitted(rows: list[Row]) -> tuple[list[Known], FrameFit]:
    marks = known(rows)
    return marks, frame_fit(marks, scale=1.0)


def test_marks_that_agree_have_no_fault() -> None:
    marks, fit = fitted(SQUARE)
    assert misfit(marks, fit, 1.0) == ""
    assert together(marks) == ""
    assert suspect(marks, fit, 1.0) is None


def test_one_blundered_mark_is_named_with_every_residual() -> None:
    bad = [*SQUARE[:2], (60.0, 40.0, 1062.0, 2043.0), *SQUARE[3:]]
    marks, fit = fitted(bad)
    told = misfit(marks, fit, 1.0)
    assert told.startswith("M3 is not where it is said to be; the others agree.")
    assert all(f"M{n} by " in told for n in range(1, 6))
    assert suspect(marks, fit, 1.0) == 2


def test_a_mark_a_hundred_kilometres_off_is_named() -> None:
    marks, fit = fitted([*SQUARE[:4], (25.0, 70.0, 101025.0, 2070.0)])
    assert misfit(marks, fit, 1.0).startswith("M5 is not where")


def test_with_three_marks_none_is_accused() -> None:
    marks, fit = fitted([*SQUARE[:2], (60.0, 40.0, 1062.0, 2043.0)])
    assert suspect(marks, fit, 1.0) is None
    assert "times as far apart" in misfit(marks, fit, 1.0)


def test_marks_that_scatter_do_not_agree() -> None:
    off = [(0.6, -0.6), (0.6, 0.6), (-0.6, -0.6), (-0.6, 0.6), (0.0, 0.0)]
    bad = [(e, n, x + a, y + b) for (e, n, x, y), (a, b) in zip(SQUARE, off, strict=True)]
    marks, fit = fitted(bad)
    assert misfit(marks, fit, 1.0).startswith("The marks do not agree. Missed are M1 by")


def test_feet_for_metres_are_noticed() -> None:
    feet = [(e, n, 1000 + e / 0.3048, 2000 + n / 0.3048) for e, n, _, _ in SQUARE]
    marks, fit = fitted(feet)
    assert "3.281 times as far apart" in misfit(marks, fit, 1.0)


def test_exchanged_axes_are_noticed_with_three_marks() -> None:
    marks, fit = fitted([(e, n, y, x) for e, n, x, y in SQUARE[:3]])
    assert "only if the plan is mirrored" in misfit(marks, fit, 1.0)
    assert mirrored_fit(marks).rmse < 1e-9


def test_marks_all_at_one_place_turn_nothing() -> None:
    on_plan = known([(0.0, 0.0, 0.0, 0.0), (0.5, 0.0, 30.0, 0.0)])
    by_numbers = known([(0.0, 0.0, 0.0, 0.0), (30.0, 0.0, 0.5, 0.0)])
    assert together(on_plan).startswith("The marks lie all together on the plan.")
    assert together(by_numbers).startswith("The marks lie all together by their coordinates.")
    # some corners of a churchyard by latitude and longitude
    in_degrees = known([(0.0, 0.0, 53.66341, 0.31608), (60.0, 30.0, 53.66368, 0.31699)])
    assert "degrees" in together(in_degrees)
