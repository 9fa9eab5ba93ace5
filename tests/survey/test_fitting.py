"""Fits against published examples and against least squares by numpy."""

import math
from itertools import combinations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from plan_editor.errors import CannotUse
from plan_editor.survey.fits.fit_faults import SAME_M, SAME_PIXEL
from plan_editor.survey.fits.fitting import Fit, fit
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.fits.paper import Paper
from plan_editor.survey.fits.straight_fits import similarity

Places = list[tuple[tuple[float, float], tuple[float, float]]]


def control(pairs) -> tuple[Control, ...]:
    return tuple(Control(x=x, y=y, east=e, north=n) for (x, y), (e, n) in pairs)


def fitted(pairs: Places, model: Model = Model.SIMILARITY) -> Fit:
    """Fit pairs whose first place counts upward: a scan counts downward."""
    return fit(model, control(pairs), Paper(upward=True))


def on_scan(pairs: Places) -> Fit:
    return fit(Model.SIMILARITY, control(pairs))


# EPSG Guidance Note 7-2, method 9621 (similarity transformation), operation 5166, and the test
# points that the Institut Cartografic i Geologic de Catalunya published for it; metres, 1 mm
CATALONIA: Places = [
    ((300000.000, 4500000.000), (299905.060, 4499796.515)),
    ((315000.000, 4740000.000), (314906.904, 4739796.774)),
    ((520000.000, 4680000.000), (519906.767, 4679795.125)),
    ((420000.000, 4600000.000), (419906.005, 4599795.760)),
]
CATALONIA_BACK: Places = [
    ((300000.000, 4500000.000), (300094.938, 4500203.485)),
    ((315000.000, 4740000.000), (315093.094, 4740203.227)),
    ((520000.000, 4680000.000), (520093.231, 4680204.876)),
    ((420000.000, 4600000.000), (420093.993, 4600204.241)),
]


@pytest.mark.parametrize("points", [CATALONIA, CATALONIA_BACK])
def test_the_points_of_epsg_operation_5166_are_met_to_a_millimetre(points):
    found = fitted(points)
    assert max(abs(v) for pair in found.residuals for v in pair) < 0.001
    for (x, y), target in points:
        assert found.to_ground(x, y) == pytest.approx(target, abs=0.001)


def test_the_parameters_of_epsg_operation_5166_come_out():
    # published: M = 1.0000015504, theta = 1.56504"; the points are rounded to a millimetre,
    # which over 240 km is 4e-9 in scale and 0.001" in direction
    found = fitted(CATALONIA)
    assert found.scale == pytest.approx(1.0000015504, abs=4e-9)
    assert found.rotation_deg * 3600 == pytest.approx(1.56504, abs=0.001)
    back = fitted(CATALONIA_BACK)
    assert back.scale == pytest.approx(0.9999984496, abs=4e-9)
    assert (back.rotation_deg - 360) * 3600 == pytest.approx(-1.56504, abs=0.001)


# Ghilani, Adjustment Computations, chapter 18: three control points and four to be transformed
CONTROL: Places = [
    ((121.622, -128.066), (1049422.40, 51089.20)),
    ((141.228, 187.718), (1049413.95, 49659.30)),
    ((175.802, 135.728), (1049244.95, 49884.95)),
]
TRANSFORMED: Places = [
    ((174.148, -120.262), (1049187.361, 51040.629)),
    ((513.520, -192.130), (1047637.713, 51278.829)),
    ((754.444, -67.706), (1046582.113, 50656.241)),
    ((972.788, 120.994), (1045644.713, 49749.336)),
]


def test_the_textbook_fit_comes_out():
    found = fitted(CONTROL)
    a, b, c, d, e, f = found.parameters
    # printed: a -4.51249, b -0.25371, TX 1050003.715, TY 50542.131
    assert (a, e) == pytest.approx((-4.51249, -4.51249), abs=0.00001)
    assert (-b, d) == pytest.approx((-0.25371, -0.25371), abs=0.00001)
    assert (c, f) == pytest.approx((1050003.715, 50542.131), abs=0.001)
    assert found.scale == pytest.approx(4.519621, abs=1e-6)


def test_the_textbook_points_are_transformed():
    found = fitted(CONTROL)
    for (x, y), target in TRANSFORMED:
        assert found.to_ground(x, y) == pytest.approx(target, abs=0.0006)
        assert found.to_scan(*target) == pytest.approx((x, y), abs=0.0002)


def test_the_textbook_residuals_are_those_of_an_independent_least_squares():
    # computed with numpy.linalg.lstsq from the textbook's control points
    found = fitted(CONTROL)
    assert np.array(found.residuals) == pytest.approx(
        np.array([(0.004, -0.029), (0.101, -0.077), (-0.105, 0.106)]), abs=0.0005
    )
    assert found.standard_deviation == pytest.approx(0.140, abs=0.0005)


def test_a_scan_held_upright_has_its_top_to_the_north():
    found = on_scan([((0, 1000), (10.0, 20.0)), ((500, 1000), (30.0, 20.0))])
    assert found.scale == pytest.approx(0.04)
    assert found.rotation_deg == pytest.approx(0.0)
    assert found.to_ground(0, 0) == pytest.approx((10.0, 60.0))
    assert np.abs(found.residuals).max() < 1e-12
    assert found.standard_deviation is None


def test_a_scan_turned_a_quarter_clockwise_has_its_top_to_the_east():
    found = on_scan([((0, 1000), (0.0, 0.0)), ((0, 0), (100.0, 0.0))])
    assert found.rotation_deg == pytest.approx(90.0)


pixels = st.tuples(st.floats(0, 10_000), st.floats(0, 14_000))
metres = st.tuples(st.floats(-300, 300), st.floats(-300, 300))


@given(st.lists(st.tuples(pixels, metres), min_size=2, max_size=9))
def test_no_other_similarity_fits_better(pairs):
    scan, ground = np.array(pairs).swapaxes(0, 1)
    assume(float(scan.std(axis=0).max()) > 50)
    assume(float(ground.std(axis=0).max()) > 1)
    found = similarity(control(pairs), [1.0] * len(pairs), -1.0)
    # east = a x + b y + c, north = b x - a y + d with y downward, solved by numpy
    one, nought = np.ones(len(pairs)), np.zeros(len(pairs))
    rows = np.vstack(
        [
            np.column_stack([scan[:, 0], scan[:, 1], one, nought]),
            np.column_stack([-scan[:, 1], scan[:, 0], nought, one]),
        ]
    )
    best, *_ = np.linalg.lstsq(rows, np.concatenate([ground[:, 0], ground[:, 1]]))
    given_ = float(((rows @ best - ground.T.ravel()) ** 2).sum())
    assert found.squares == pytest.approx(given_, rel=1e-6, abs=1e-6)


@given(
    st.floats(0.002, 0.5),
    st.floats(0, 359.9),
    metres,
    st.lists(pixels, min_size=2, max_size=6, unique=True),
)
def test_a_known_similarity_comes_back(scale, turn, shift, places):
    assume(max(np.array(places).std(axis=0)) > 50)
    # what lies nearer together, on paper or on the ground, is one point and refused as such
    nearest = min(math.dist(a, b) for a, b in combinations(places, 2))
    assume(nearest > SAME_PIXEL)
    assume(nearest * scale > 2 * SAME_M)
    s, c = scale * math.sin(math.radians(turn)), scale * math.cos(math.radians(turn))
    # right on the scan lies a quarter clockwise of its upward edge, which bears `turn`
    pairs = [
        (p, (shift[0] + p[0] * c - p[1] * s, shift[1] - p[0] * s - p[1] * c)) for p in places
    ]
    found = on_scan(pairs)
    assert found.rmse < 1e-8
    assert found.scale == pytest.approx(scale)
    assert (found.rotation_deg - turn + 180) % 360 == pytest.approx(180, abs=1e-5)
    for place, target in pairs:
        assert found.to_ground(*place) == pytest.approx(target, abs=1e-8)
        assert found.to_scan(*target) == pytest.approx(place, abs=1e-5)


@pytest.mark.parametrize(
    ("pairs", "because"),
    [
        ([], "none were given"),
        ([((0, 0), (0, 0))], "only one was given"),
        ([((5, 5), (0, 0)), ((5, 5), (9, 9))], "same place on the base plan"),
        ([((0, 0), (7, 7)), ((900, 5), (7, 7))], "same place on the ground"),
        ([((0, 0), (7, 7)), ((900, 5), (math.nan, 7))], "not a number"),
        ([((0, 0), (7, 7)), ((math.inf, 5), (1, 7))], "not a number"),
    ],
)
def test_points_that_fix_nothing_are_refused_in_a_sentence(pairs, because):
    with pytest.raises(CannotUse, match=because):
        on_scan(pairs)
