"""The error of pegs over the ground, in words and as a sketch."""

from math import inf

import numpy as np
import pytest
import shapely

from plan_editor.commands.reaching import (
    CLASSES,
    Advice,
    advice,
    checked_words,
    gains,
    own_words,
    place_words,
    quantile_words,
    share,
    shares,
    sketched,
)
from plan_editor.drawing.sketch import Tone
from plan_editor.errors import CannotUse
from plan_editor.kinds import boundary, mark, wall
from plan_editor.plan.item import Basis, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.survey.adjustment.fixes import Fixes
from plan_editor.survey.grids.grid import Grid

GROUND = shapely.box(0, 0, 40, 30)


def _plan():
    marks = [
        new_item(mark.KIND, shapely.Point(*at), basis=Basis(sd_m=0.02))
        for at in ((3, 3), (25, 3))
    ]
    low = wall.WallDetails(height_m=1.0)
    line = new_item(wall.KIND, shapely.LineString([(14, 26), (38, 26)]), details=low)
    grid = Grid(crs="EPSG:27700", east=553_000.0, north=421_000.0)
    return plan_of([new_item(boundary.KIND, GROUND), *marks, line], grid=grid)


@pytest.fixture(scope="module")
def found() -> Advice:
    return advice(_plan(), 30.0)


def test_every_piece_of_ground_is_in_one_class(found):
    assert sum(part for _, part in shares(found.today.fixes)) == pytest.approx(1.0)
    edges = Fixes(np.array([0.02, 0.0201, 0.05, 0.1, 5.0, inf]), np.zeros(6, dtype=np.bool_))
    assert [round(part * 6) for _, part in shares(edges)] == [1, 2, 1, 1, 1]


def test_the_patches_cover_the_ground_once_class_by_class(found):
    sketch = sketched(found)
    patches = [(p.tone, p.strength, shapely.Polygon(p.points)) for p in sketch.patches]
    assert sum(p.area for _, _, p in patches) == pytest.approx(GROUND.area)
    assert shapely.union_all([p for _, _, p in patches]).area == pytest.approx(GROUND.area)
    for wanted, part in shares(found.today.fixes):
        area = sum(p.area for t, s, p in patches if (t, s) == (wanted.tone, wanted.strength))
        assert area == pytest.approx(part * GROUND.area)
    assert [d.text for d in sketch.dots] == [f"new mark {n + 1}" for n in range(len(found.new))]
    assert sketch.dots


def test_classes_differ_in_more_than_colour():
    assert len({(c.tone, c.strength) for c in CLASSES}) == len(CLASSES)
    assert sum(c.tone is Tone.GOOD for c in CLASSES) == 2


def test_gains_say_what_there_is_instead_of_what(found):
    told = gains(found)
    assert len(told) == len(found.new) > 0
    assert "of the ground instead of" in told[0]
    assert "checked by a third tie on" in told[0]
    words = place_words(found.grid, found.new[0])
    assert words.startswith("A mark at the ")
    assert "E 553\u202f0" in words
    assert "GNSS or an instrument" in own_words(found.new[0])


@pytest.mark.parametrize(
    ("part", "words"),
    [(0.0, "0 %"), (0.003, "under 1 %"), (0.614, "61 %"), (0.998, "over 99 %"), (1.0, "100 %")],
)
def test_a_share_is_never_rounded_to_none_or_all(part, words):
    assert share(part) == words


def test_quantiles_out_of_reach_are_left_out():
    near = Fixes(np.array([0.03, 0.04, inf]), np.array([True, False, False]))
    assert quantile_words(near) == "Half of the ground within 40 mm."
    assert quantile_words(Fixes(np.array([inf]), np.array([False]))) == ""
    assert checked_words(near).startswith("Three ties check one another on 33 %")


@pytest.mark.parametrize("tape", [0.0, -30.0, 1e9])
def test_what_is_no_tape_is_said(tape):
    with pytest.raises(CannotUse, match="No tape is"):
        advice(_plan(), tape)
