"""Points that place no base plan are refused in a sentence that says what is wrong."""

import math
from dataclasses import replace

import pytest
from fitted_points import UPWARD, control

from plan_editor.errors import CannotUse
from plan_editor.geometry.mappings import Perspective
from plan_editor.survey.fits.fit_faults import refuse_folded
from plan_editor.survey.fits.fitting import fit, recommended
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.fits.paper import Paper

SQUARE = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0)]
MIDDLE = (500.0, 400.0)


def laid(*places, names=()):
    """Return points of a scan of 4 cm to the pixel, north up."""
    points = control([(p, (0.04 * p[0], -0.04 * p[1])) for p in places])
    return tuple(
        replace(c, name=names[n] if n < len(names) else "") for n, c in enumerate(points)
    )


def exchanged(points, one, other):
    """Return points of which two have each other's place on the ground."""
    a, b = points[one], points[other]
    swapped = {
        one: replace(a, east=b.east, north=b.north),
        other: replace(b, east=a.east, north=a.north),
    }
    return tuple(swapped.get(n, c) for n, c in enumerate(points))


LINE = laid((0, 0), (500, 300), (1000, 600), (250, 150), (750, 450), (100, 60))
GOOD = laid(*SQUARE, MIDDLE, (200.0, 700.0), names="ABCDEF")


def test_the_good_points_are_taken_by_every_kind_of_fit():
    for model in Model:
        assert fit(model, GOOD).rmse < 1e-6


@pytest.mark.parametrize(
    ("model", "points", "because"),
    [
        (Model.SIMILARITY, (), "two points .* none were given"),
        (Model.SIMILARITY, GOOD[:1], "two points .* only one was given"),
        (Model.AFFINE, GOOD[:2], "three points .* “affine”, and only 2 were given"),
        (Model.PROJECTIVE, GOOD[:3], "four points .* “projective”, and only 3 were given"),
        (Model.WARP, GOOD[:5], "six points .* “warp”, and only 5 were given"),
        (Model.SIMILARITY, (GOOD[0], replace(GOOD[1], east=math.nan)), "of B is not a number"),
        (Model.SIMILARITY, (GOOD[0], replace(GOOD[1], x=math.inf)), "of B is not a number"),
        (Model.SIMILARITY, (GOOD[0], replace(GOOD[1], sd=-1.0)), "deviation of B is not more"),
        (Model.SIMILARITY, (GOOD[0], replace(GOOD[1], sd=math.nan)), "deviation of B is not"),
        (Model.SIMILARITY, (GOOD[0], replace(GOOD[1], name="A")), "A is given twice"),
        (
            Model.SIMILARITY,
            (*GOOD, replace(GOOD[0], name="", x=0.5, east=9.0)),
            "A and point 7 lie at the same place on the base plan",
        ),
        (
            Model.SIMILARITY,
            (*GOOD, replace(GOOD[2], name="G", x=700.0)),
            "C and G lie at the same place on the ground",
        ),
        (Model.AFFINE, LINE, "all in one line on the base plan.*“affine”"),
        (Model.PROJECTIVE, LINE, "all in one line"),
        (Model.WARP, LINE, "all in one line"),
        (
            Model.AFFINE,
            tuple(
                replace(c, east=c.east - 0.3 * c.north, north=2 * c.east - 0.6 * c.north)
                for c in GOOD
            ),
            "all in one line on the ground",
        ),
        (
            Model.PROJECTIVE,
            laid((0, 0), (500, 0), (1000, 0), (300, 900)),
            "four points of which no three lie in one line",
        ),
        (Model.SIMILARITY, exchanged(laid(*SQUARE), 0, 1), "other way round"),
        (Model.PROJECTIVE, exchanged(laid(*SQUARE), 2, 3), "Two points may be exchanged"),
        (Model.AFFINE, exchanged(GOOD, 0, 2), "mirrored on the ground.*or two points"),
        (
            Model.SIMILARITY,
            tuple(replace(c, east=c.north, north=c.east) for c in GOOD),
            "mirrored on the ground. East and north may be exchanged",
        ),
        (Model.SIMILARITY, exchanged(GOOD[:3], 1, 2), "mirrored"),
        (
            Model.SIMILARITY,
            tuple(replace(c, east=1e6 * c.east, north=1e6 * c.north) for c in GOOD),
            r"a pixel would be 4e\+04 m on the ground, which no plan has",
        ),
    ],
)
def test_what_fixes_nothing_is_refused(model, points, because):
    with pytest.raises(CannotUse, match=because) as caught:
        fit(model, points)
    assert str(caught.value).startswith("The base plan was not placed, and nothing was changed")


def test_two_points_in_a_line_are_enough_for_a_similarity():
    assert fit(Model.SIMILARITY, LINE).rmse < 1e-9
    assert [f.model for f in recommended(LINE)[0]] == [Model.SIMILARITY]


def test_one_point_far_off_is_named_and_not_refused():
    far = replace(GOOD[4], east=-30.0, north=10.0)
    found = fit(Model.SIMILARITY, (*GOOD[:4], far, GOOD[5]))
    assert found.blunder is not None
    assert found.blunder.index == 4


def test_of_hundreds_of_points_some_are_looked_at():
    many = laid(*((float(37 * n % 1009), float(53 * n % 997)) for n in range(200)))
    assert fit(Model.SIMILARITY, many).rmse < 1e-9
    with pytest.raises(CannotUse, match="mirrored"):
        fit(Model.SIMILARITY, tuple(replace(c, east=-c.east) for c in many))


@pytest.mark.parametrize(
    ("dots", "metres", "told"),
    [
        ((300.0, 300.0), 0.02, None),  # 1:236
        ((300.0, 300.0), 0.0001, "1:1.181"),
        ((300.0, 150.0), 40.0, "1:3.341e[+]05"),
    ],
)
def test_a_scale_that_no_plan_has_is_refused(dots, metres, told):
    points = control([(p, (metres * p[0], -metres * p[1])) for p in SQUARE])
    paper = Paper(dots_per_inch=dots)
    if told is None:
        assert fit(Model.SIMILARITY, points, paper).scale == pytest.approx(metres)
    else:
        with pytest.raises(CannotUse, match=told):
            fit(Model.SIMILARITY, points, paper)


def test_a_drawing_may_have_any_unit():
    millimetres = control([(p, (1e-3 * p[0], 1e-3 * p[1])) for p in SQUARE])
    assert fit(Model.SIMILARITY, millimetres, UPWARD).scale == pytest.approx(1e-3)
    kilometres = control([((p[0] * 1e-6, p[1] * 1e-6), p) for p in SQUARE])
    assert fit(Model.SIMILARITY, kilometres, UPWARD).scale == pytest.approx(1e6)


def test_a_sheet_that_would_lie_beyond_the_horizon_is_refused():
    # 1 + x / 500 · -1 is nothing at x = 500, in the middle of the sheet
    over = Perspective((0.1, 0, 0, 0, -0.1, 0), (0.1, 0, 0, 0, -0.1, 0, -0.002, 0))
    with pytest.raises(CannotUse, match="folded over or torn"):
        refuse_folded(over, (0, 0, 1000, 1000))
    refuse_folded(over, (0, 0, 300, 1000))


def test_a_fit_that_folds_the_edge_of_the_sheet_is_not_offered():
    slanted = tuple(
        Control(x=x, y=y, east=0.04 * x / (1 - x / 900), north=-0.04 * y / (1 - x / 900))
        for x in (0, 200, 400)
        for y in (0, 300, 700)
    )
    sheet = Paper(extent=(0, 0, 1000, 1000))
    with pytest.raises(CannotUse, match="folded over"):
        fit(Model.PROJECTIVE, slanted, sheet)
    assert Model.PROJECTIVE not in [f.model for f in recommended(slanted, sheet)[0]]


def test_where_the_others_carry_no_fit_nobody_is_named():
    # seven points in a line but for some pixels, and one aside that is 25 m off along the line:
    # it alone explains what does not fit, but the others in their line say nothing of it
    jitter = (0, 3, -3, 2, -3, 3, -2)
    line = laid(*((200.0 * n, 500.0 + j) for n, j in enumerate(jitter)), names="ABDEFGH")
    aside = replace(laid((600.0, 1000.0))[0], name="C")
    off = replace(aside, east=aside.east + 25.0)
    found = fit(Model.AFFINE, (*line, off))
    assert found.rmse > 0.05
    assert found.blunder is None
    # a similarity is carried by a line, and names it
    named = fit(Model.SIMILARITY, (*line, off)).blunder
    assert named is not None
    assert named.index == 7
