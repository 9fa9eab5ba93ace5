"""The list of points of a fit, and what is said of them before anything is done."""

from dataclasses import replace
from math import hypot

import numpy as np
import pytest

from plan_editor.commands.control import (
    Point,
    Points,
    Trial,
    lines,
    model_lines,
    suspect,
    suspicion,
    tried,
    used,
    words,
)
from plan_editor.commands.control_lists import as_known, taken_in, with_used, without
from plan_editor.commands.residuals import arrows, factor, factor_words, near, on_paper
from plan_editor.drawing.sketch import Tone
from plan_editor.errors import CannotUse
from plan_editor.geometry.mappings import Straight
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.fits.paper import Paper

PAPER = Paper(extent=(0.0, 0.0, 2000.0, 2000.0))
METRES = 0.05
"""A pixel on the ground."""

PLACES = ((100, 100), (1900, 150), (1850, 1900), (120, 1800), (1000, 900), (600, 1300))
NOISE = ((0.02, 0.01), (-0.01, 0.02), (0.01, -0.03), (-0.02, 0.0), (0.02, 0.01), (0.0, -0.02))


def _points(slip: int | None = None, metres: float = 2.0) -> Points:
    """Return points of a scan that lies north up, five centimetres to the pixel."""
    return tuple(
        Point(
            control=Control(
                x=float(x),
                y=float(y),
                east=METRES * x + e + (metres if n == slip else 0.0),
                north=-METRES * y + north,
                name=f"M{n + 1}",
            )
        )
        for n, ((x, y), (e, north)) in enumerate(zip(PLACES, NOISE, strict=True))
    )


def test_one_point_says_nothing_and_two_say_that_a_third_is_wanted() -> None:
    assert tried(_points()[:1], None, PAPER) == Trial(points=_points()[:1])
    found = tried(_points()[:2], None, PAPER)
    assert found.fit is not None
    assert found.fit.model is Model.SIMILARITY
    assert "one more would show" in " ".join(words(found))
    assert {line.left_out for line in lines(found)} == {""}
    assert arrows(found, None).lines == ()  # two points always fit
    assert factor_words(found) == ""


def test_each_point_is_told_with_what_the_fit_misses_it_by() -> None:
    found = tried(_points(), Model.SIMILARITY, PAPER)
    assert found.fit is not None
    told = lines(found)
    assert [line.name for line in told] == ["M1", "M2", "M3", "M4", "M5", "M6"]
    # the noise is three centimetres at most
    assert all(float(line.off) <= 0.04 for line in told)
    assert all(float(line.left_out) >= float(line.off) for line in told)
    assert dict(model_lines(found))[Model.SIMILARITY].endswith(" m")


def test_a_slip_is_suspected_by_name_and_what_is_left_out_shows_by_how_much() -> None:
    found = tried(_points(slip=4), Model.SIMILARITY, PAPER)
    assert suspect(found) == 4
    assert suspicion(found).startswith("Look at M5 again: it is 2.0")
    assert suspicion(found) not in words(found)
    assert [line.suspect for line in lines(found)].index(True) == 4
    mended = tried(with_used(found.points, 4, used=False), Model.SIMILARITY, PAPER)
    assert suspect(mended) is None
    left = lines(mended)[4]
    assert not left.used
    assert left.off == ""
    assert float(left.left_out) == pytest.approx(2.0, abs=0.1)


def test_the_suspect_is_counted_among_all_points_those_left_out_too() -> None:
    points = with_used(_points(slip=4), 0, used=False)
    assert suspect(tried(points, Model.SIMILARITY, PAPER)) == 4


def test_points_that_place_nothing_are_refused_in_a_sentence() -> None:
    twice = (_points()[0], replace(_points()[0]))
    found = tried(twice, None, PAPER)
    assert found.fit is None
    assert found.refused.startswith("The base plan was not placed")
    few = tried(_points()[:3], Model.WARP, PAPER)
    assert few.fit is None
    assert few.fits
    assert few.refused.startswith("The base plan was not placed")


def test_a_clicked_mark_is_as_well_known_as_it_can_be_read_off_the_paper() -> None:
    points = tuple(
        replace(p, control=replace(p.control, sd=0.03), read=False) for p in _points()
    )
    # two pixels of five centimetres each, and the mark's own three
    assert [c.sd for c in used(points, PAPER)] == pytest.approx(
        [hypot(0.03, 2 * METRES)] * 6, rel=0.01
    )
    typed = as_known(points, 0, 0.2)
    assert used(typed, PAPER)[0].sd == 0.2
    # a drawing is read to the last digit
    upward = replace(PAPER, upward=True)
    assert [c.sd for c in used(points, upward)] == [0.03] * 6
    with pytest.raises(CannotUse, match=r"from 0\.001 to 100"):
        as_known(points, 0, 0.0)


def test_of_points_of_one_name_the_later_stays() -> None:
    (first, *_) = _points()
    other = Control(x=5.0, y=5.0, east=1.0, north=1.0, name="M1")
    nameless = Control(x=6.0, y=6.0, east=2.0, north=2.0)
    found = taken_in((first,), (other, nameless, replace(nameless, x=9.0)))
    assert [p.control.x for p in found] == [5.0, 6.0, 9.0]
    assert without(found, 1) == (found[0], found[2])


def test_arrows_run_from_the_mark_to_where_the_fit_has_it_so_many_times_too_long() -> None:
    found = tried(_points(slip=4), Model.SIMILARITY, PAPER)
    assert found.fit is not None
    long = factor(found)
    drawn = arrows(found, 1)
    assert len(drawn.lines) == len(drawn.dots) == 6
    for line, control, off in zip(
        drawn.lines, found.fit.control, found.fit.residuals, strict=True
    ):
        assert line.arrow
        assert line.points[0] == pytest.approx((control.east, control.north))
        assert line.points[1] - line.points[0] == pytest.approx(np.array(off) * long)
    assert drawn.lines[4].tone is drawn.dots[4].tone is Tone.DANGER
    assert drawn.lines[1].tone is Tone.GOOD
    # no arrow is longer than an eighth of the way across the points
    across = hypot(METRES * 1800, METRES * 1800)
    assert max(hypot(*(v.points[1] - v.points[0])) for v in drawn.lines) < across / 8
    assert long > 1
    assert f"{long} times too long" in factor_words(found)


def test_without_a_fit_there_are_dots_only() -> None:
    found = Trial(points=_points()[:1])
    assert arrows(found, None).lines == ()
    assert [d.text for d in arrows(found, None).dots] == ["M1"]
    assert factor(found) == 1
    assert factor_words(found) == ""
    way = Straight((1.0, 0.0, 10.0, 0.0, -1.0, 20.0))
    (dot,) = on_paper(found.points, way).dots
    assert (dot.east, dot.north) == (110.0, -80.0)


def test_the_point_within_reach_is_the_one_that_was_clicked() -> None:
    points = _points()
    assert near(points, METRES * 1900 + 0.3, -METRES * 150, 0.5) == 1
    assert near(points, METRES * 1900 + 0.8, -METRES * 150, 0.5) is None
    assert near((), 0.0, 0.0, 1.0) is None
