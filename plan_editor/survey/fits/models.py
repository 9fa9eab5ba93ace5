"""The kinds of fit of a base plan, and the way to the ground that each gives."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from plan_editor.declared import late
from plan_editor.geometry.mappings import Affine, Mapping, Perspective, Places, Straight


class Model(StrEnum):
    """How much a base plan may be bent to fit.

    Similarity (4 numbers) shifts, turns and scales; affine (6) stretches and skews as well;
    projective (8) undoes a photograph taken at a slant; warp follows paper that has stretched
    here and there: a thin-plate spline, smoothed.
    """

    SIMILARITY = "similarity"
    AFFINE = "affine"
    PROJECTIVE = "projective"
    WARP = "warp"


@dataclass(frozen=True, slots=True, kw_only=True)
class Control:
    """A place on a base plan whose place on the ground is known.

    Args:
        x, y: pixels right and down from the top left corner of a scan; units of the file, right
            and up, of a drawing.
        east, north: metres about the plan's origin.
        sd: standard deviation of east and of north, in metres, reading error on the paper
            included; None where it is not known, and then all without one weigh alike.
        name: the mark, as people call it.
    """

    x: float
    y: float
    east: float
    north: float
    sd: float | None = None
    name: str = ""


def _unbent(
    control: tuple[tuple[float, float, float, float], ...],
    smoothing: tuple[float, ...],
    straight: Affine,
    places: Places,
) -> Places:  # pragma: no cover  # only its type is wanted
    """Stand for the spline where only its type is wanted."""
    del control, smoothing, straight
    return places


# scipy takes the better part of a second to import, and few plans hold a warp
_bent = late("plan_editor.survey.fits.spline", "bent", _unbent)


@dataclass(frozen=True, slots=True)
class Warp:
    """A thin-plate spline through control points, smoothed, over a straight fit.

    Args:
        straight: six numbers that come near it.
        control: x, y, east, north of each point.
        smoothing: one number for each point, of scipy's ``RBFInterpolator``: 0 goes through the
            point, more lets the sheet pass it by.
    """

    straight: Affine
    control: tuple[tuple[float, float, float, float], ...]
    smoothing: tuple[float, ...]

    @property
    def is_straight(self) -> bool:
        """False."""
        return False

    def to_ground(self, places: Places) -> Places:
        """Return the east and north of places on the base plan."""
        bent: Places = Straight(self.straight).to_ground(places) + _bent(
            self.control, self.smoothing, self.straight, places
        )
        return bent

    def to_paper(self, places: Places) -> Places:
        """Return the places on the base plan of places on the ground.

        Each step corrects by what the straight fit makes of the misfit; a base plan bent by a
        few per cent is found to a millionth of a pixel in some ten steps.
        """
        straight = Straight(self.straight)
        shift = np.array([self.straight[2], self.straight[5]])
        found = straight.to_paper(places)
        for _ in range(_MOST_STEPS):
            step = straight.to_paper(places - self.to_ground(found) + shift)
            found = found + step
            if np.abs(step).max(initial=0.0) < _NEAR_ENOUGH:
                break
        return found


_MOST_STEPS = 50
_NEAR_ENOUGH = 1e-6


def mapping_of(
    model: Model, straight: Affine, bend: Sequence[float], control: Sequence[Control]
) -> Mapping:
    """Return the way to the ground that a plan keeps.

    Args:
        model: the kind of fit.
        straight: six numbers that come near it everywhere.
        bend: nothing more where it is straight; the eight numbers of a projective fit; one
            smoothing for each control point of a warp.
        control: what it was fitted to; a warp follows it.
    """
    match model:
        case Model.SIMILARITY | Model.AFFINE:
            return Straight(straight)
        case Model.PROJECTIVE:
            a, b, c, d, e, f, g, h = bend
            return Perspective(straight, (a, b, c, d, e, f, g, h))
        case Model.WARP:  # pragma: no branch  # there is no other
            points = tuple((c.x, c.y, c.east, c.north) for c in control)
            return Warp(straight, points, tuple(bend))
