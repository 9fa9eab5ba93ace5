"""What a way to the ground does to a sheet, against derivatives and outlines known by hand."""

from dataclasses import dataclass

import numpy as np
import pytest

from plan_editor.geometry.bending import PARTS, derivatives, outline, sound, unit_side
from plan_editor.geometry.mappings import Perspective, Straight

SHEET = (0.0, 0.0, 1000.0, 800.0)
SLANT = Perspective(
    (0.02, 0.0, 0.0, 0.0, -0.02, 0.0), (0.02, 0.0, 0.0, 0.0, -0.02, 0.0, 0.0005, 0.0)
)


def slant(g: float, h: float) -> Perspective:
    straight = (0.02, 0.0, 0.0, 0.0, -0.02, 0.0)
    return Perspective(straight, (*straight, g, h))


@dataclass(frozen=True)
class Wave:
    """A sheet that lies in waves: easting follows a sine."""

    height: float
    straight: tuple = (0.1, 0.0, 0.0, 0.0, -0.1, 0.0)
    is_straight: bool = False

    def to_ground(self, places):
        x, y = places.T
        return np.stack([0.1 * x + self.height * np.sin(x / 50), -0.1 * y], axis=1)

    def to_paper(self, places):
        raise NotImplementedError


def test_six_numbers_are_their_own_derivative():
    fit = Straight((1.0, 2.0, 3.0, 4.0, 5.0, 6.0))
    assert derivatives(fit, np.zeros((2, 2)), 1.0).tolist() == [[[1, 2], [4, 5]]] * 2


def test_the_derivative_of_a_perspective_is_that_of_its_fraction():
    # east = 0.02 x / (1 + 0.0005 x), so 0.02 / (1 + 0.0005 x)² along x; at x = 1000 that is
    # 0.02 / 2.25; north = -0.02 y / w: 0.02 · 0.0005 · y / w² along x, -0.02 / w along y
    found = derivatives(SLANT, np.array([(1000.0, 600.0)]), np.array([0.5]))[0]
    expected = [[0.02 / 2.25, 0.0], [0.02 * 0.0005 * 600 / 2.25, -0.02 / 1.5]]
    assert found == pytest.approx(np.array(expected), rel=1e-6)


def test_a_square_unit_of_a_sheet_is_as_large_as_its_fit_makes_it():
    assert unit_side(Straight((0.0, 0.03, 0.0, 0.05, 0.0, 0.0)), SHEET) == pytest.approx(
        (0.03 * 0.05) ** 0.5
    )
    assert unit_side(slant(0.0, 0.0), SHEET) == pytest.approx(0.02)


def test_the_outline_of_a_straight_sheet_is_its_corners():
    found = outline(Straight((0.1, 0.0, 5.0, 0.0, -0.1, 9.0)), SHEET)
    assert found == pytest.approx(np.array([(5, 9), (105, 9), (105, -71), (5, -71)]))


def test_the_outline_of_a_bent_sheet_follows_its_edge():
    found = outline(Wave(1.0), SHEET)
    assert len(found) == 4 * PARTS
    assert found[0].tolist() == [0, 0]
    # a quarter along the upper edge, then the second corner
    assert found[PARTS // 4] == pytest.approx((25 + np.sin(5), 0))
    assert found[PARTS] == pytest.approx((100 + np.sin(20), 0))


@pytest.mark.parametrize(
    "fit", [Straight((0.02, 0.0, 0.0, 0.0, -0.02, 0.0)), slant(0.0005, -0.0002), Wave(4.0)]
)
def test_a_sheet_that_lies_flat_is_sound(fit):
    assert sound(fit, SHEET)


@pytest.mark.parametrize(
    "fit",
    [
        Straight((0.1, 0.2, 0.0, 0.2, 0.4, 0.0)),
        Straight((0.0, 0.0, 0.0, 0.0, 0.0, 0.0)),
        Straight((0.1, 0.0, float("nan"), 0.0, -0.1, 0.0)),
        # the horizon, where 1 + g x = 0, runs through the sheet, along its edge, just beyond it
        slant(-0.002, 0.0),
        slant(-0.001, 0.0),
        slant(-0.00099, 0.0),
        # east runs back where 0.1 + 6/50·cos < 0
        Wave(6.0),
        Wave(5.0),
    ],
)
def test_a_sheet_flattened_folded_or_torn_is_not_sound(fit):
    assert not sound(fit, SHEET)


@dataclass(frozen=True)
class Spiral:
    """Paper laid round and round: smooth everywhere, and still one part over another."""

    straight: tuple = (0.1, 0.0, 0.0, 0.0, -0.1, 0.0)
    is_straight: bool = False

    def to_ground(self, places):
        x, y = places.T
        away, turn = 50.0 + y / 100, x / 100
        return np.stack([away * np.cos(turn), -away * np.sin(turn)], axis=1)

    def to_paper(self, places):
        raise NotImplementedError


def test_a_sheet_laid_over_itself_without_a_fold_is_not_sound():
    assert not sound(Spiral(), SHEET)
