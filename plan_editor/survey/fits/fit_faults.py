"""Points that cannot place a base plan, refused in a sentence each."""

import math
from collections.abc import Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from plan_editor.errors import CannotUse
from plan_editor.geometry.bending import Extent, sound
from plan_editor.geometry.mappings import Mapping
from plan_editor.survey.fits.models import Control, Model
from plan_editor.survey.fits.paper import MM_PER_INCH, Paper

Numbers = NDArray[np.float64]

LEAST_POINTS = {Model.SIMILARITY: 2, Model.AFFINE: 3, Model.PROJECTIVE: 4, Model.WARP: 6}
"""A warp could be drawn through three; with fewer than six nothing tells a bend from a slip."""

SAME_PIXEL = 1.0
"""Points nearer to one another on a scan than this, in pixels, are one place."""

SAME_M = 0.01
"""The same on the ground, in metres."""

IN_LINE = 0.01
"""Points that spread less across their line than this share of along it lie in the line."""

CLEAR = 0.15
"""A triangle counts as turned over if its height is more than this share of the points' spread
on paper and ground: a small slip cannot turn it."""

MOST_TURNED = 40
"""Of more points, so many of them are looked at: their triangles grow as the third power."""

DENOMINATORS = (2.0, 300_000.0)
"""Plans of a churchyard are drawn at a scale between 1 to the first and 1 to the second."""

METRES_PER_PIXEL = (0.0001, 100.0)
"""The same for a scan whose resolution is not known."""

_BEGIN = "The base plan was not placed, and nothing was changed:"


def called(control: Sequence[Control], n: int) -> str:
    """Return what to call a point in a sentence: its name, or its number in the list."""
    return control[n].name or f"point {n + 1}"


def refuse(model: Model, control: Sequence[Control], paper: Paper) -> None:
    """Refuse points that do not place a base plan.

    Raises:
        CannotUse: too few for the model; not finite; a name or a place twice; all in one line
            (for all but a similarity); crossed or mirrored.
    """
    _refuse_too_few(model, control)
    _refuse_no_numbers(control)
    _refuse_twice(control, paper)
    if model is not Model.SIMILARITY:
        _refuse_line(model, control)
    if len(control) > 2:
        _refuse_turned_over(control, paper)


def refuse_scale(metres: float, paper: Paper) -> None:
    """Refuse a scale that no plan has.

    Args:
        metres: on the ground, of a pixel's side or a drawing's unit.
        paper: of what.

    Raises:
        CannotUse: no plan has it.
    """
    if paper.upward:
        return
    if paper.dots_per_inch is None:
        told = f"a pixel would be {metres:.3g} m on the ground"
        possible = METRES_PER_PIXEL[0] <= metres <= METRES_PER_PIXEL[1]
    else:
        across, down = paper.dots_per_inch
        ratio = metres * math.sqrt(across * down) / MM_PER_INCH * 1000
        told = f"its scale would be 1:{ratio:.4g}"
        possible = DENOMINATORS[0] <= ratio <= DENOMINATORS[1]
    if not possible:
        raise CannotUse(
            f"{_BEGIN} by these points {told}, which no plan has. Check the coordinates: metres"
            " east and north, pixels right and down."
        )


def _refuse_too_few(model: Model, control: Sequence[Control]) -> None:
    least, count = LEAST_POINTS[model], len(control)
    if count >= least:
        return
    given = {0: "none were", 1: "only one was"}.get(count, f"only {count} were")
    words = {2: "two", 3: "three", 4: "four", 6: "six"}[least]
    of = "" if model is Model.SIMILARITY else f" for a fit of the kind “{model.value}”"
    raise CannotUse(
        f"{_BEGIN} it takes {words} points with known coordinates{of}, and {given} given."
    )


def _refuse_no_numbers(control: Sequence[Control]) -> None:
    for n, c in enumerate(control):
        if not all(map(math.isfinite, (c.x, c.y, c.east, c.north))):
            raise CannotUse(
                f"{_BEGIN} a coordinate of {called(control, n)} is not a number. Type the"
                " coordinates of every point."
            )
        if c.sd is not None and not (math.isfinite(c.sd) and c.sd > 0.0):
            raise CannotUse(
                f"{_BEGIN} the standard deviation of {called(control, n)} is not more than 0."
                " Give it in metres, or leave it out where it is not known."
            )


def _refuse_twice(control: Sequence[Control], paper: Paper) -> None:
    on_paper, on_ground = _places(control)
    reach = float(np.ptp(on_paper, axis=0).max())
    least = 1e-6 * reach if paper.upward else SAME_PIXEL
    for one, other in combinations(range(len(control)), 2):
        if control[one].name and control[one].name == control[other].name:
            raise CannotUse(
                f"{_BEGIN} {control[one].name} is given twice. Give every point once."
            )
        for places, near, where in (
            (on_paper, least, "on the base plan"),
            (on_ground, SAME_M, "on the ground"),
        ):
            if math.dist(places[one], places[other]) <= near:
                raise CannotUse(
                    f"{_BEGIN} {called(control, one)} and {called(control, other)} lie at the"
                    f" same place {where}. Choose points that are far apart."
                )


def _refuse_line(model: Model, control: Sequence[Control]) -> None:
    for places, where in zip(_places(control), ("base plan", "ground"), strict=True):
        along, across = np.linalg.svd(places - places.mean(axis=0), compute_uv=False)
        if across < IN_LINE * along:
            raise CannotUse(
                f"{_BEGIN} the points lie all in one line on the {where}, and a fit of the kind"
                f" “{model.value}” needs some on either side. Add one, or choose a similarity."
            )


def _refuse_turned_over(control: Sequence[Control], paper: Paper) -> None:
    """Refuse points whose triangles lie the other way up on the ground than on the paper."""
    looked_at = range(0, len(control), -(-len(control) // MOST_TURNED))
    triangles = np.array(list(combinations(looked_at, 3)))
    on_paper, on_ground = (_turns(places, triangles) for places in _places(control))
    clear = (abs(on_paper) > CLEAR) & (abs(on_ground) > CLEAR)
    over = clear & (np.sign(on_paper * on_ground) != paper.handed)
    if not over.any():
        return
    if over.sum() == clear.sum():
        raise CannotUse(
            f"{_BEGIN} the points lie mirrored on the ground. East and north may be exchanged,"
            " or two points."
        )
    turned = triangles[over]
    if len(control) > 4 and set.intersection(*map(set, turned.tolist())):
        return  # one point alone can be blamed, and the fit will name it
    names = " and ".join(
        (", ".join(called(control, n) for n in turned[0][:2]), called(control, turned[0][2]))
    )
    raise CannotUse(
        f"{_BEGIN} {names} follow each other the other way round on the ground than on the base"
        " plan. Two points may be exchanged."
    )


def _turns(places: Numbers, triangles: NDArray[np.int_]) -> Numbers:
    """Return each triangle's least height on the points' spread, below 0 where clockwise."""
    spread = math.sqrt(float(places.var(axis=0).sum()))
    a, b, c = (places[triangles[:, k]] for k in range(3))
    ab, ac, bc = b - a, c - a, c - b
    twice = ab[:, 0] * ac[:, 1] - ab[:, 1] * ac[:, 0]
    longest = np.sqrt(np.maximum.reduce([(side**2).sum(axis=1) for side in (ab, ac, bc)]))
    heights: Numbers = twice / longest / spread
    return heights


def _places(control: Sequence[Control]) -> tuple[Numbers, Numbers]:
    return (
        np.array([(c.x, c.y) for c in control]),
        np.array([(c.east, c.north) for c in control]),
    )


def refuse_folded(mapping: Mapping, over: Extent) -> None:
    """Refuse a fit that folds the sheet over, or lays part of it beyond the horizon.

    Args:
        mapping: the fit.
        over: the part of the base plan that is looked at.

    Raises:
        CannotUse: the sheet does not stay whole.
    """
    if not sound(mapping, over):
        raise CannotUse(
            f"{_BEGIN} by these points the sheet would be folded over or torn. Add points"
            " towards its edges, or choose a simpler kind of fit."
        )
