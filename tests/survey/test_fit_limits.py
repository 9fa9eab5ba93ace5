"""Fits at the edge of what can be worked out."""

import numpy as np
import pytest

from plan_editor.errors import CannotUse
from plan_editor.survey.fits import models, perspective_fits
from plan_editor.survey.fits.models import Control, Model, mapping_of
from plan_editor.survey.fits.perspective_fits import projective

PLACES = [(100.0, 0.0), (400.0, 50.0), (400.0, 900.0), (100.0, 800.0), (200.0, 300.0)]


def test_a_scan_whose_corner_would_lie_beyond_the_horizon_is_refused():
    # east = 1000 / x, north = 10 y / x: the line x = 0, on which the corner lies, goes to
    # infinity, so that no numbers over g·x + h·y + 1 can say it
    control = tuple(Control(x=x, y=y, east=1000.0 / x, north=10.0 * y / x) for x, y in PLACES)
    with pytest.raises(CannotUse, match="four points of which no three lie in one line"):
        projective(control, [1.0] * len(control))


def test_a_fit_that_is_not_improved_to_the_end_is_the_best_so_far(monkeypatch):
    control = tuple(
        Control(x=x, y=y, east=0.04 * x + 0.1 * (n % 2), north=-0.04 * y)
        for n, (x, y) in enumerate(PLACES)
    )
    best = projective(control, [1.0] * len(control)).squares
    monkeypatch.setattr(perspective_fits, "_STEPS", 1)
    assert projective(control, [1.0] * len(control)).squares == pytest.approx(best, rel=0.2)


def test_the_way_back_through_a_warp_comes_nearer_with_every_step(monkeypatch):
    control = tuple(
        Control(x=x, y=y, east=0.04 * x + 0.4 * np.sin(y / 300), north=-0.04 * y)
        for x, y in (*PLACES, (300.0, 600.0))
    )
    warp = mapping_of(Model.WARP, (0.04, 0, 0, 0, -0.04, 0), (0.0,) * 6, control)
    there = np.array([(9.0, -12.0)])
    off = []
    for steps in (1, 2, 3):
        monkeypatch.setattr(models, "_MOST_STEPS", steps)
        off.append(float(np.hypot(*(warp.to_ground(warp.to_paper(there)) - there)[0])))
    assert off[2] < off[1] < off[0] < 0.4
