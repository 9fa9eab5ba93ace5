"""An old plan laid on the ground by points whose coordinates are known."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import median

import numpy as np
import shapely

from plan_editor.errors import CannotUse
from plan_editor.geometry.bearings import bearing
from plan_editor.geometry.bending import Extent
from plan_editor.geometry.mappings import Affine, Mapping, Places
from plan_editor.survey.fits.doubtful_points import doubtful
from plan_editor.survey.fits.fit_faults import refuse, refuse_folded, refuse_scale
from plan_editor.survey.fits.models import Control, Model, mapping_of
from plan_editor.survey.fits.paper import MM_PER_INCH, Paper
from plan_editor.survey.fits.perspective_fits import projective
from plan_editor.survey.fits.straight_fits import Solved, Two, affine, similarity
from plan_editor.survey.fits.warping import warp

Pair = tuple[Two, Two]
"""A place on a base plan (pixels right and down, or units) and on the ground (metres)."""

SCAN = Paper()
"""A scan of which nothing is known but that its pixels count down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How a base plan lies on the ground, and how well the points agree with it.

    Args:
        model: the kind of fit.
        control: the points.
        paper: what is known of the sheet.
        straight: from pixels to metres, see ``Affine``; all of it for a similarity and an
            affine fit, of the others the affine fit that comes near.
        bend: what a plan keeps beside it, see ``models.mapping_of``.
        residuals: for each point metres east and north by which the fitted place lies beyond
            the given one (fitted less given).
        on_paper: by how many pixels (or units) each point lies beyond where the fit has it.
        left_out: the residuals by the fits to all the other points; None where these are too
            few, or leave it open.
        standard_deviation: of one coordinate of middling weight, as the residuals tell it, in
            metres; None where no measurement is left over, and of a warp, which takes up by
            its smoothing what it likes: there ``loo_rmse`` tells.
        s0: the same on the standard deviations given, 1 where they are right; None where none
            were given.
        blunder: the one point that the others contradict, and the fit without it.
    """

    model: Model
    control: tuple[Control, ...]
    paper: Paper
    straight: Affine
    bend: tuple[float, ...]
    residuals: tuple[Two, ...]
    on_paper: tuple[Two, ...]
    left_out: tuple[Two, ...] | None
    standard_deviation: float | None
    s0: float | None
    blunder: "Blunder | None" = None

    @property
    def parameters(self) -> Affine:
        """The six numbers of the straight fit."""
        return self.straight

    @property
    def mapping(self) -> Mapping:
        """The way from the base plan to the ground."""
        return mapping_of(self.model, self.straight, self.bend, self.control)

    @property
    def rmse(self) -> float:
        """Root mean square of the residuals' lengths, in metres."""
        return _rms(self.residuals)

    @property
    def rmse_paper(self) -> float:
        """The same on the base plan, in pixels or units."""
        return _rms(self.on_paper)

    @property
    def rmse_mm(self) -> float | None:
        """The same in millimetres on the paper; None where its resolution is not known."""
        if self.paper.dots_per_inch is None:
            return None
        across, down = (MM_PER_INCH / dots for dots in self.paper.dots_per_inch)
        return _rms([(x * across, y * down) for x, y in self.on_paper])

    @property
    def loo_rmse(self) -> float | None:
        """Root mean square of what points left out are missed by, in metres."""
        return None if self.left_out is None else _rms(self.left_out)

    @property
    def scale(self) -> float:
        """Metres on the ground to a pixel or unit, in the mean of all directions."""
        a, b, _, d, e, _ = self.straight
        return math.sqrt(abs(a * e - b * d))

    @property
    def rotation_deg(self) -> float:
        """Bearing, in degrees clockwise from grid north, of the base plan's upward direction.

        Where it is stretched, that of the similarity nearest to the straight fit.
        """
        a, b, _, d, e, _ = self.straight
        up = self.paper.handed
        return bearing(up * b - d, up * e + a)

    @property
    def outside(self) -> float | None:
        """The share of the base plan that lies outside all its points, 0 to 1."""
        if self.paper.extent is None:
            return None
        sheet = shapely.box(*self.paper.extent)
        hull = shapely.MultiPoint([(c.x, c.y) for c in self.control]).convex_hull
        return 1.0 - float(hull.intersection(sheet).area / sheet.area)

    def to_ground(self, right: float, down: float) -> Two:
        """Return the place on the ground, east and north, of a pixel."""
        ((east, north),) = self.mapping.to_ground(np.array([(right, down)]))
        return float(east), float(north)

    def to_scan(self, east: float, north: float) -> Two:
        """Return the pixel, right and down, of a place on the ground."""
        ((right, down),) = self.mapping.to_paper(np.array([(east, north)]))
        return float(right), float(down)


@dataclass(frozen=True, slots=True, kw_only=True)
class Blunder:
    """One point that all the others contradict.

    Args:
        index: which of the control.
        off: metres east and north by which the fit to the others lies beyond what was given.
        without: the fit to the others.
    """

    index: int
    off: Two
    without: Fit


def fit(model: Model, control: Sequence[Control], paper: Paper = SCAN) -> Fit:
    """Return the best fit of a kind by least squares, each point weighted by 1 / sd².

    Points without a standard deviation weigh as the middle one of those that have one.

    Args:
        model: the kind of fit.
        control: the points; the more, the surer is what is said of them.
        paper: what is known of the sheet.

    Raises:
        CannotUse: the points do not place it; see ``fit_faults.refuse``.
    """
    points = tuple(control)
    solved, made = _fitted(model, points, paper)
    worst = doubtful(solved.eased, solved.squares, solved.surplus, _given_sd(points))
    if worst is None:
        return made
    try:
        _, without = _fitted(model, (*points[:worst], *points[worst + 1 :]), paper)
    except CannotUse:  # the others do not carry a fit, and so cannot contradict it
        return made
    ((east, north),) = without.mapping.to_ground(np.array([(points[worst].x, points[worst].y)]))
    off = (float(east) - points[worst].east, float(north) - points[worst].north)
    return replace(made, blunder=Blunder(index=worst, off=off, without=without))


def recommended(control: Sequence[Control], paper: Paper = SCAN) -> tuple[tuple[Fit, ...], Fit]:
    """Return every fit that the points allow, the simplest first, and the one to take.

    That is the simplest whose points left out are missed by hardly more than by the best: by no
    more than one standard error of the best's mean square. Source of the rule: Breiman,
    Friedman, Olshen & Stone, Classification and Regression Trees (1984), 3.4.3.

    Raises:
        CannotUse: the points place it by no fit; the sentence is that of a similarity.
    """
    fits = [fit(Model.SIMILARITY, control, paper)]
    for model in (Model.AFFINE, Model.PROJECTIVE, Model.WARP):
        try:
            fits.append(fit(model, control, paper))
        except CannotUse:  # too few points, or in one line: then this is no choice
            continue
    weights = _weights(fits[0].control)
    missed = [_missed(f, weights) for f in fits]
    tested = [m for m in missed if m is not None]
    if not tested:
        return tuple(fits), fits[0]
    best = min(tested, key=lambda m: math.fsum(m))
    most = math.fsum(best) / len(best) + _standard_error(best)
    good = (
        f
        for f, m in zip(fits, missed, strict=True)
        if m is not None and math.fsum(m) / len(m) <= most
    )
    return tuple(fits), next(good)


def _fitted(model: Model, control: tuple[Control, ...], paper: Paper) -> tuple[Solved, Fit]:
    refuse(model, control, paper)
    weights = _weights(control)
    solved = _solved(model, control, weights, paper)
    mapping = mapping_of(model, solved.straight, solved.bend, control)
    here = np.array([(c.x, c.y) for c in control])
    there = mapping.to_paper(np.array([(c.east, c.north) for c in control]))
    sd = None
    if solved.surplus > 0 and model is not Model.WARP:
        sd = math.sqrt(solved.squares / solved.surplus)
    given = _given_sd(control)
    made = Fit(
        model=model,
        control=control,
        paper=paper,
        straight=solved.straight,
        bend=solved.bend,
        residuals=solved.residuals,
        on_paper=tuple((float(x), float(y)) for x, y in here - there),
        left_out=solved.left_out,
        standard_deviation=sd,
        s0=None if sd is None or given is None else sd / given,
    )
    refuse_scale(made.scale, paper)
    refuse_folded(mapping, paper.extent or _box(here))
    return solved, made


def _box(places: Places) -> Extent:
    (x0, y0), (x1, y1) = places.min(axis=0), places.max(axis=0)
    return float(x0), float(y0), float(x1), float(y1)


def _solved(
    model: Model, control: Sequence[Control], weights: Sequence[float], paper: Paper
) -> Solved:
    match model:
        case Model.SIMILARITY:
            return similarity(control, weights, paper.handed)
        case Model.AFFINE:
            return affine(control, weights)
        case Model.PROJECTIVE:
            return projective(control, weights)
        case Model.WARP:  # pragma: no branch  # there is no other
            return warp(control, weights)


def _weights(control: Sequence[Control]) -> tuple[float, ...]:
    """Return 1 / sd² of each point, 1 in the mean."""
    sds = [c.sd for c in control if c.sd is not None]
    middle = median(sds) if sds else 1.0
    weights = [(middle / (c.sd or middle)) ** 2 for c in control]
    mean = math.fsum(weights) / len(weights)
    return tuple(w / mean for w in weights)


def _given_sd(control: Sequence[Control]) -> float | None:
    """Return the standard deviation of weight 1, as given; None where none was."""
    sds = [c.sd for c in control if c.sd is not None]
    if not sds:
        return None
    middle = median(sds)
    return 1.0 / math.sqrt(math.fsum(1 / (c.sd or middle) ** 2 for c in control) / len(control))


def _missed(fit: Fit, weights: Sequence[float]) -> list[float] | None:
    if fit.left_out is None:
        return None
    return [w * (e * e + n * n) for w, (e, n) in zip(weights, fit.left_out, strict=True)]


def _standard_error(numbers: Sequence[float]) -> float:
    """Return the standard error of their mean."""
    count = len(numbers)
    mean = math.fsum(numbers) / count
    return math.sqrt(math.fsum((n - mean) ** 2 for n in numbers) / (count - 1) / count)


def _rms(pairs: Sequence[Two]) -> float:
    return math.sqrt(math.fsum(e * e + n * n for e, n in pairs) / len(pairs))
