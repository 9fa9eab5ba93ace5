"""What is said of a fit to somebody who holds the old plan in his hands."""

import math
from dataclasses import replace

import numpy as np
import pytest
from fitted_points import budapest

from plan_editor.survey.fits.fit_words import bent_m, comparison, in_words, shape_words
from plan_editor.survey.fits.fitting import fit, recommended
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.fits.paper import Paper

PLACES = [(x, y) for x in (200.0, 1400.0, 2700.0) for y in (150.0, 1300.0, 2450.0)]
SHEET = Paper(extent=(0.0, 0.0, 2880.0, 2570.0), dots_per_inch=(150.0, 150.0))


def drawn(ratio, *, turn=0.0, across=1.0, lean_deg=0.0, off=0.0, sd=None):  # noqa: PLR0913
    """Return points of a scan at 150 dots to the inch of a plan, turned clockwise."""
    metres = ratio * 0.0254 / 150
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    found = []
    for n, (x, y) in enumerate(PLACES):
        right, up = metres * (x / across + y * math.tan(math.radians(lean_deg))), -metres * y
        found.append(
            Control(
                x=x,
                y=y,
                east=c * right + s * up + off * (-1) ** n,
                north=c * up - s * right,
                sd=sd,
                name=f"M{n + 1}",
            )
        )
    return tuple(found)


@pytest.mark.parametrize(
    ("ratio", "said"),
    [
        (240.0, "1 inch to 20 feet (1:240)"),
        (241.2, "1 inch to 20.1 feet (1:241)"),
        (480.0, "1 inch to 40 feet (1:480)"),
        (792.0, "1 inch to 66 feet (1:792)"),
        (200.0, "1:200 (1 inch to 16.7 feet)"),
        (250.0, "1:250 (1 inch to 20.8 feet)"),
        (500.0, "1:500 (1 inch to 41.7 feet)"),
        (2500.0, "1:2,500 (1 inch to 208 feet)"),
    ],
)
def test_a_scale_is_said_as_the_plan_was_drawn_and_the_other_way_too(ratio, said):
    assert shape_words(fit(Model.SIMILARITY, drawn(ratio), SHEET)) == f"{said}, north up"


def test_what_the_paper_has_become_is_said_in_one_line():
    points = drawn(241.2, turn=3.2, across=1.014, lean_deg=0.4)
    said = shape_words(fit(Model.AFFINE, points, SHEET))
    assert said == (
        # of a shear half counts as a turn: 3.2° - 0.4° / 2
        "1 inch to 20 feet (1:240), turned 3.0° clockwise,"
        " stretched 1.4 % more across than along, 0.4° out of square"
    )


def test_a_sheet_stretched_along_is_said_to_be():
    said = shape_words(fit(Model.AFFINE, drawn(500.0, turn=-10.0, across=0.98), SHEET))
    assert "turned 10.0° anticlockwise, stretched 2.0 % more along than across" in said


def test_a_scanner_with_two_resolutions_stretches_nothing():
    fine = tuple(replace(c, x=2 * c.x) for c in drawn(240.0))
    paper = Paper(dots_per_inch=(300.0, 150.0))
    said = shape_words(fit(Model.AFFINE, fine, paper))
    assert said == "1 inch to 20 feet (1:240), north up"


def test_without_a_resolution_a_pixel_is_said_in_metres():
    assert shape_words(fit(Model.SIMILARITY, drawn(240.0))) == "1 pixel to 0.04064 m, north up"
    upward = tuple(replace(c, y=-c.y) for c in drawn(240.0))
    said = shape_words(fit(Model.SIMILARITY, upward, Paper(upward=True)))
    assert said == "1 unit to 0.04064 m, north up"


def bowed(metres):
    """Return points of a plan at 1:240 that is bowed up by so many metres in the middle."""
    return tuple(
        replace(c, north=c.north + metres * math.sin(math.pi * c.x / 2880))
        for c in drawn(240.0)
    )


def test_how_far_a_warp_bends_is_said():
    found = fit(Model.WARP, bowed(1.0), SHEET)
    # the affine fit halves the bow
    assert bent_m(found) == pytest.approx(0.5, abs=0.15)
    assert f"bends up to {bent_m(found):.2f} m from flat" in shape_words(found)
    assert "bends" not in shape_words(fit(Model.AFFINE, bowed(1.0), SHEET))


def test_how_well_the_points_agree_is_said_on_the_ground_and_on_the_paper():
    found = fit(Model.SIMILARITY, drawn(240.0, off=0.24), SHEET)
    # 0.24 m at 1:240 are 1 mm, 5.9 pixels
    assert found.rmse == pytest.approx(0.237, abs=0.003)
    assert found.rmse_mm == pytest.approx(found.rmse / 0.240, abs=0.002)
    assert found.rmse_paper == pytest.approx(found.rmse / 0.04064, rel=0.002)
    words = in_words(found)
    assert (
        f"Its 9 points agree within 0.24 m, {found.rmse_mm:.2f} mm on the paper (root mean"
        " square)." in words
    )
    bare = in_words(fit(Model.SIMILARITY, drawn(240.0, off=0.24)))
    assert "Its 9 points agree within 0.24 m, 5.87 pixels (root mean square)." in bare
    assert f"A point left out of the fit is missed by {found.loo_rmse:.2f} m" in words[2]


def test_of_two_points_it_is_said_that_they_always_fit():
    words = in_words(fit(Model.SIMILARITY, drawn(240.0)[:2], SHEET))
    assert "2 points always fit like this: one more would show how well." in words


def test_points_that_contradict_their_standard_deviations_are_spoken_of():
    words = " ".join(in_words(fit(Model.SIMILARITY, drawn(240.0, off=0.24, sd=0.02), SHEET)))
    assert "times as much as their standard deviations let expect" in words
    fair = " ".join(in_words(fit(Model.SIMILARITY, drawn(240.0, off=0.02, sd=0.02), SHEET)))
    assert "times as much" not in fair


def test_the_doubtful_point_is_named_with_the_fit_without_it():
    found = fit(Model.SIMILARITY, budapest(), Paper(upward=True))
    assert (
        "Look at K9 again: it is 0.25 m from where the others have it. Without it they agree"
        " within 0.00 m." in in_words(found)
    )


def test_sheet_that_lies_outside_the_points_is_spoken_of():
    found = fit(Model.SIMILARITY, drawn(240.0), SHEET)
    assert found.outside == pytest.approx(1 - 2500 * 2300 / (2880 * 2570), abs=1e-6)
    assert not any("outside" in w for w in in_words(found))
    few = fit(Model.SIMILARITY, drawn(240.0)[:4], SHEET)
    said = f"{round(few.outside * 100)} % of the sheet lies outside its points"
    assert any(w.startswith(said) for w in in_words(few))
    assert fit(Model.SIMILARITY, drawn(240.0)).outside is None


def test_why_a_kind_of_fit_is_recommended_is_said():
    chance = np.random.default_rng(5)
    points = tuple(
        replace(c, east=c.east + e, north=c.north + n)
        for c, (e, n) in zip(
            drawn(240.0, across=1.03), chance.normal(0, 0.02, (9, 2)), strict=True
        )
    )
    fits, chosen = recommended(points, SHEET)
    said = comparison(fits, chosen)
    assert said.startswith("Recommended: affine. Points left out are missed by: similarity 1.")
    assert f"affine {fits[1].loo_rmse:.2f} m" in said
    fits, chosen = recommended(points[:2], SHEET)
    assert comparison(fits, chosen) == (
        "Recommended: similarity. With so few points nothing tells which kind of fit is best."
    )
