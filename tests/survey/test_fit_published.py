"""Affine and projective fits, and a blunder, against published figures."""

import math

import pytest
from fitted_points import BUDAPEST, UPWARD, budapest, control, fitted

from plan_editor.errors import CannotUse
from plan_editor.survey.fits.fitting import fit
from plan_editor.survey.fits.models import Model
from plan_editor.survey.fits.perspective_fits import projective
from plan_editor.survey.fits.straight_fits import affine

# EPSG Guidance Note 7-2, method 9624 (affine parametric transformation): example of Jamaica's
# feet to metres; forward and reverse parameters as printed
A0, A1, A2 = 82357.457, 0.304794369, 0.000015417425
B0, B1, B2 = 28091.324, -0.000015417425, 0.304794369
REVERSE = (-270201.960, 3.280900499, -0.000165958, -92178.507, 0.000165958, 3.280900499)
SOURCE = [
    (553900.0, 482500.0),
    (500000.0, 480000.0),
    (560000.0, 430000.0),
    (510000.0, 500000.0),
]


def epsg(x, y):
    return A0 + A1 * x + A2 * y, B0 + B1 * x + B2 * y


def test_the_affine_example_of_epsg_9624_comes_out_forward():
    found = fitted([(s, epsg(*s)) for s in SOURCE], Model.AFFINE)
    a, b, c, d, e, f = found.straight
    assert (c, f) == pytest.approx((A0, B0), abs=0.001)
    assert (a, b, d, e) == pytest.approx((A1, A2, B1, B2), abs=1e-9)
    # printed: (553900, 482500) -> 251190.497, 175146.067
    assert found.to_ground(553900.0, 482500.0) == pytest.approx(
        (251190.497, 175146.067), abs=0.001
    )


def test_the_affine_example_of_epsg_9624_comes_out_in_reverse():
    found = fitted([(epsg(*s), s) for s in SOURCE], Model.AFFINE)
    a, b, c, d, e, f = found.straight
    # to the last printed digit
    assert (c, f) == pytest.approx((REVERSE[0], REVERSE[3]), abs=0.0011)
    assert (a, b, d, e) == pytest.approx(
        (REVERSE[1], REVERSE[2], REVERSE[4], REVERSE[5]), abs=1.1e-9
    )
    assert found.to_scan(553900.0, 482500.0) == pytest.approx(
        (251190.497, 175146.067), abs=0.001
    )


# OSGeo GDAL, autotest/gcore/gcps2geotransform.py (MIT): control points and the six numbers
# that least squares gives
NEAR_AFFINE = [
    ((0.0, 0.0), (400000.0, 370000.0)),
    ((100.0, 0.0), (410000.0, 370000.0)),
    ((100.0, 200.0), (410000.0, 368000.0)),
    ((0.0, 200.0), (400000.0, 368000.01)),
]
MESSY = [
    ((0.01, 0.04), (-87.05528672907, 39.22759504228)),
    ((0.01, 2688.02), (-86.97079900719, 39.27075713986)),
    ((4031.99, 2688.04), (-87.05960736744, 39.37569137000)),
    ((1988.16, 1540.80), (-87.055069186699924, 39.304963106777514)),
    ((1477.41, 2400.83), (-87.013419295885001, 39.304705030894979)),
    ((1466.02, 2376.92), (-87.013906298363295, 39.304056190007913)),
]
SLANTED = [
    ((0.0, 0.0), (400000.0, 370000.0)),
    ((100.0, 0.0), (410000.0, 370000.0)),
    ((100.0, 200.0), (410000.0, 368000.0)),
    ((0.0, 200.0), (400000.0, 360000.0)),
]


def test_the_near_affine_points_of_gdal_give_its_numbers():
    a, b, c, d, e, f = fit(Model.AFFINE, control(NEAR_AFFINE)).straight
    assert (c, a, b, f, d, e) == pytest.approx(
        (400000.0, 100.0, 0.0, 370000.0025, -5e-05, -9.999975), abs=1e-6
    )


def test_the_messy_points_of_gdal_give_its_numbers():
    # degrees: no metres, so the solution itself is asked and not what guards plans
    a, b, c, d, e, f = affine(control(MESSY), [1.0] * 6).straight
    assert (c, a, b, f, d, e) == pytest.approx(
        (
            -87.056612873288,
            -2.232795668658e-05,
            3.178617809303e-05,
            39.227856615716,
            2.6091510188921e-05,
            1.596921026218e-05,
        ),
        abs=1e-8,
    )


def test_the_four_slanted_points_of_gdal_are_met_exactly():
    found = fit(Model.PROJECTIVE, control(SLANTED))
    for (x, y), target in SLANTED:
        assert found.to_ground(x, y) == pytest.approx(target, abs=1e-6)
        assert found.to_scan(*target) == pytest.approx((x, y), abs=1e-6)


@pytest.mark.parametrize("model", [m for m in Model if m is not Model.WARP])
def test_the_slanted_points_are_refused_where_their_sides_cross_like_an_hourglass(model):
    # GDAL's test of homographies has such a case too: no photograph of a flat sheet shows it so
    places, targets = zip(*SLANTED, strict=True)
    crossed = (targets[0], targets[1], targets[3], targets[2])
    with pytest.raises(CannotUse, match="Two points may be exchanged"):
        fit(model, control(zip(places, crossed, strict=True)))


def test_the_messy_points_are_met_better_than_by_published_projective_fits():
    # root mean square over both coordinates: GDAL's expected numbers 0.0015337, the linear
    # solution of scikit-image 0.0014883, least squares on the ground by scipy 0.0014869
    found = projective(control(MESSY), [1.0] * 6)
    rms = math.sqrt(found.squares / 6)
    assert 0.0014868 <= rms <= 0.0014869 + 1e-6


# the notebook of BUDAPEST, its fits to two points without a scale: their shift in metres, their
# turn in seconds of arc, and by how much they miss all nine points, the sum of |east| + |north|
PAIRS = """
K1,K2,0.001,-0.001,12.0,0.267      K1,K3,0.001,-0.001,10.9,0.267
K1,K4,0.000,-0.000,9.1,0.265       K1,K5,0.000,-0.001,7.2,0.264
K1,K6,-0.000,-0.001,-1.0,0.262     K1,K7,-0.001,-0.001,-2.1,0.263
K1,K8,-0.000,-0.001,-6.1,0.262     K2,K3,0.001,-0.001,23.9,0.274
K2,K4,0.001,-0.001,19.4,0.270      K2,K5,0.001,-0.001,10.4,0.265
K2,K6,0.000,-0.001,2.6,0.262       K2,K7,0.000,-0.001,2.3,0.263
K2,K8,0.001,-0.001,-3.6,0.264      K3,K4,0.000,-0.000,7.5,0.265
K3,K5,0.001,-0.000,5.7,0.264       K3,K6,-0.000,0.000,-5.3,0.262
K3,K7,-0.001,-0.000,-4.5,0.263     K3,K8,-0.000,0.000,-9.3,0.263
K4,K5,0.000,-0.000,4.4,0.264       K4,K6,-0.001,0.001,-12.1,0.266
K4,K7,-0.001,0.001,-8.5,0.265      K4,K8,-0.001,0.001,-14.6,0.266
K5,K6,-0.001,0.002,-13.1,0.270     K5,K7,0.000,-0.002,10.1,0.266
K5,K8,-0.001,0.002,-14.9,0.269     K6,K7,-0.001,-0.001,2.9,0.266
K6,K8,-0.002,0.002,-20.6,0.271     K7,K8,-0.004,0.006,-40.0,0.291
"""


@pytest.mark.parametrize("row", PAIRS.split())
def test_two_points_lay_the_plan_as_the_notebook_printed(row):
    one, other, x0, y0, alpha, missed = row.split(",")
    known = {name: ((x, y), (e, n)) for name, x, y, e, n in BUDAPEST}
    found = fitted([known[one], known[other]])
    # the notebook turns against the clock
    turn = 180 - (found.rotation_deg + 180) % 360
    assert turn * 3600 == pytest.approx(float(alpha), abs=0.06)
    # without a scale the middle of the two stays where it is, turned
    a, b, _, d, e, _ = (n / found.scale for n in found.straight)
    (x1, y1), (x2, y2) = known[one][0], known[other][0]
    (e1, n1), (e2, n2) = known[one][1], known[other][1]
    east = (e1 + e2) / 2 - a * (x1 + x2) / 2 - b * (y1 + y2) / 2
    north = (n1 + n2) / 2 - d * (x1 + x2) / 2 - e * (y1 + y2) / 2
    assert (east, north) == pytest.approx((float(x0), float(y0)), abs=0.00051)
    off = sum(
        abs(a * x + b * y + east - there[0]) + abs(d * x + e * y + north - there[1])
        for (x, y), there in known.values()
    )
    assert off == pytest.approx(float(missed), abs=0.00051)


def test_of_the_nine_points_the_displaced_one_is_named():
    # similarity residuals: K9 0.1945 m, the next 0.065 m; without K9 0.0008 m together
    found = fit(Model.SIMILARITY, budapest(), UPWARD)
    off = sorted(math.hypot(*v) for v in found.residuals)
    assert off[-2:] == pytest.approx([0.065, 0.1945], abs=0.0005)
    assert found.blunder is not None
    assert found.control[found.blunder.index].name == "K9"
    assert found.blunder.off == pytest.approx((0.25, 0.0), abs=0.01)
    assert found.blunder.without.rmse == pytest.approx(0.0008, abs=0.00005)
    assert len(found.blunder.without.control) == 8


@pytest.mark.parametrize("model", Model)
def test_it_is_named_by_every_kind_of_fit(model):
    found = fit(model, budapest(), UPWARD)
    assert found.blunder is not None
    assert found.control[found.blunder.index].name == "K9"


@pytest.mark.parametrize("model", Model)
@pytest.mark.parametrize("sd", [None, 0.001])
def test_of_the_eight_others_nobody_is_named(model, sd):
    assert fit(model, budapest(sd)[:8], UPWARD).blunder is None
