"""The points by which a base plan is to be placed, and what each kind of fit makes of them."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import hypot
from typing import Any

import shapely

from plan_editor.commands.marks import MarkLine, mark_lines
from plan_editor.errors import CannotUse
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.media import Kept
from plan_editor.plan.plan import Plan
from plan_editor.scans.reading import probe
from plan_editor.survey.fits.fit_words import blunder_words, in_words
from plan_editor.survey.fits.fitting import Fit, fit, recommended
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.fits.paper import Paper
from plan_editor.survey.grids.grid import Grid

READING_PIXELS = 2.0
"""A point is read off a scan to about so many pixels: the width of a fine pen line at 200 dots
to the inch. Common practice."""

LEAST = 2
"""Points without which there is nothing to say."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One point in the list.

    Args:
        control: its places on the base plan and on the ground.
        used: it takes part in the fit.
        read: its standard deviation holds the error of reading the paper; otherwise it is that
            of the mark alone.
    """

    control: Control
    used: bool = True
    read: bool = True


Points = tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """What the points make of a base plan, before anything is done.

    Args:
        points: all of them, those left out too.
        fits: every kind of fit that they allow, the simplest first; none where they allow none.
        advised: the kind that is recommended; None where there is no fit.
        fit: the chosen one; None where the points do not allow it.
        refused: why not, in a sentence; empty where there is a fit, or where there are too few
            points to say anything yet.
    """

    points: Points
    fits: tuple[Fit, ...] = ()
    advised: Model | None = None
    fit: Fit | None = None
    refused: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One point in words.

    Args:
        name: the mark, or its number.
        off: by how many metres the fit misses it; empty where there is no fit.
        left_out: the same by the fit to all the others; empty where these carry none.
        sd: its standard deviation in metres; empty where none is known.
        used: it takes part in the fit.
        suspect: it is the one that all the others contradict.
    """

    name: str
    off: str = ""
    left_out: str = ""
    sd: str = ""
    used: bool = True
    suspect: bool = False


def points_of(item: Item[Any], marks: Iterable[MarkLine], grid: Grid) -> Points:
    """Return the points by which a base plan was placed, to start from.

    One that has no name bears that of the mark which stands there.
    """
    named = {
        (round(m.east, 2), round(m.north, 2)): m.number
        for m in marks
        if m.east is not None and m.north is not None
    }
    return tuple(
        Point(control=c if c.name else replace(c, name=named.get(_at(c, grid), "")))
        for c in item.details.control_points
    )


def mark_at(
    plan: Plan, hits: Iterable[ItemId], place: tuple[float, float]
) -> tuple[MarkLine, tuple[float, float]] | None:
    """Return the mark that was clicked, and its place; None where none lies there.

    Near a mark it is the mark that is meant, and no corner beside it.

    Args:
        plan: the plan.
        hits: what lies under the pointer.
        place: where that is, east and north in metres about the plan's origin.
    """
    there = frozenset(hits)
    found = []
    for mark in mark_lines(plan):
        shape = plan.items[mark.item].shape
        if mark.item in there and isinstance(shape, shapely.Point):
            apart = hypot(shape.x - place[0], shape.y - place[1])
            found.append((apart, mark, (shape.x, shape.y)))
    nearest = min(found, key=lambda one: one[0], default=None)
    return None if nearest is None else nearest[1:]


def resolution(media: Kept, digest: str, page: int) -> tuple[float, float] | None:
    """Return the dots to the inch that a scan records of itself, across and down; or None.

    Raises:
        CannotRead, DamagedPlan: the kept bytes are not what they were.
    """
    return probe(media.read(digest), page).dpi


def used(points: Points, paper: Paper) -> tuple[Control, ...]:
    """Return the control of the points that take part, ready to be fitted.

    The standard deviation of a point that was clicked is that of its mark and of reading the
    paper together.
    """
    taking_part = [p for p in points if p.used]
    bare = tuple(replace(p.control, sd=None) for p in taking_part)
    if all(p.read or p.control.sd is None for p in taking_part) or paper.upward:
        return tuple(p.control for p in taking_part)
    try:
        reading = READING_PIXELS * fit(Model.SIMILARITY, bare, paper).scale
    except CannotUse:  # there is no scale yet, and no fit either
        return tuple(p.control for p in taking_part)
    return tuple(p.control if p.read else _with(p.control, reading) for p in taking_part)


def tried(points: Points, model: Model | None, paper: Paper) -> Trial:
    """Return what some points make of a base plan; None for the model takes the best.

    Cost: twenty fits or so, some tenths of a second where there are many points.
    """
    control = used(points, paper)
    if len(control) < LEAST:
        return Trial(points=points)
    try:
        fits, best = recommended(control, paper)
    except CannotUse as fault:
        return Trial(points=points, refused=str(fault))
    advised = best.model
    if model is None:
        return Trial(points=points, fits=fits, advised=advised, fit=best)
    found = next((f for f in fits if f.model is model), None)
    if found is not None:
        return Trial(points=points, fits=fits, advised=advised, fit=found)
    why = _why_not(model, control, paper)
    return Trial(points=points, fits=fits, advised=advised, refused=why)


def lines(trial: Trial) -> tuple[Line, ...]:
    """Return every point in words, those left out too."""
    places = _places(trial.points)
    return tuple(
        _line(trial, n, place)
        for n, place in zip(range(len(trial.points)), places, strict=True)
    )


def suspect(trial: Trial) -> int | None:
    """Return which point all the others contradict, counted among all points; or None."""
    if trial.fit is None or trial.fit.blunder is None:
        return None
    return _places(trial.points).index(trial.fit.blunder.index)


def words(trial: Trial) -> tuple[str, ...]:
    """Return what was found, in sentences; what is suspected stands apart."""
    if trial.fit is None:
        return ()
    return tuple(w for w in in_words(trial.fit) if w != blunder_words(trial.fit))


def suspicion(trial: Trial) -> str:
    """Return which point to look at again; empty where none is suspected."""
    return "" if trial.fit is None else blunder_words(trial.fit)


def model_lines(trial: Trial) -> tuple[tuple[Model, str], ...]:
    """Return the kinds of fit that there are, each with what points left out are missed by."""
    return tuple((f.model, _missed(f)) for f in trial.fits)


def _at(control: Control, grid: Grid) -> tuple[float, float]:
    east, north = grid.to_crs(control.east, control.north)
    return round(east, 2), round(north, 2)


def _with(control: Control, reading: float) -> Control:
    return replace(control, sd=None if control.sd is None else hypot(control.sd, reading))


def _why_not(model: Model, control: tuple[Control, ...], paper: Paper) -> str:
    try:
        fit(model, control, paper)
    except CannotUse as fault:
        return str(fault)
    return ""  # pragma: no cover  # what could be fitted is among the fits


def _places(points: Points) -> tuple[int | None, ...]:
    """Return for each point its place among those that take part."""
    count = 0
    found: list[int | None] = []
    for point in points:
        found.append(count if point.used else None)
        count += point.used
    return tuple(found)


def _line(trial: Trial, at: int, place: int | None) -> Line:
    point, found = trial.points[at], trial.fit
    name = point.control.name or f"point {at + 1}"
    if found is None:
        return Line(name=name, sd=_metres(point.control.sd), used=point.used)
    if place is None:
        east, north = found.to_ground(point.control.x, point.control.y)
        off = (east - point.control.east, north - point.control.north)
        return Line(name=name, left_out=_long(off), sd=_metres(point.control.sd), used=False)
    missed = None if found.left_out is None else found.left_out[place]
    return Line(
        name=name,
        off=_long(found.residuals[place]),
        left_out="" if missed is None else _long(missed),
        sd=_metres(found.control[place].sd),
        suspect=suspect(trial) == at,
    )


def _long(off: tuple[float, float]) -> str:
    return f"{hypot(*off):.2f}"


def _metres(sd: float | None) -> str:
    return "" if sd is None else f"{sd:.2f}"


def _missed(found: Fit) -> str:
    return "" if found.loo_rmse is None else f"{found.loo_rmse:.2f} m"
