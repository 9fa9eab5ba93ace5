"""Lines and outlines with fewer corners, where boundaries that are shared stay shared."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import groupby, pairwise

import shapely
from shapely import LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.edges import Place

Side = tuple[Place, Place]
"""Both ends of a side, the smaller first, so that it is the same whichever way one goes."""

Owners = Mapping[Side, frozenset[int]]

Thinning = Callable[[Sequence[Place]], list[Place]]


def simplified(
    shapes: Sequence[BaseGeometry], tolerance: float, beside: Sequence[BaseGeometry] = ()
) -> tuple[BaseGeometry, ...]:
    """Return shapes of which no corner that went lies farther off than the tolerance.

    A run of sides that several shapes have in common becomes the same in all of them; one that
    is shared with something ``beside``, which stays as it is, stays too. So do the corners
    where such runs end. Chords are thinned as Douglas and Peucker did (1973). The outcome may
    cross itself where the tolerance is large: the caller looks.

    Args:
        shapes: lines and areas.
        tolerance: in metres.
        beside: what stays as it is.
    """
    kept = len(shapes)
    owners = _owners([*shapes, *beside])
    fixed = _meeting(owners)

    def thinned(corners: Sequence[Place]) -> list[Place]:
        return _thinned(corners, owners, fixed, tolerance, kept)

    return tuple(_each_ring(shape, thinned) for shape in shapes)


def _each_ring(shape: BaseGeometry, change: Thinning) -> BaseGeometry:
    if shape.geom_type == "Point":
        return shape
    if shape.geom_type == "LineString":
        return LineString(change(_corners(shape)))
    areas = []
    for part in shapely.get_parts(shape):
        shell, *holes = (change(_corners(ring)) for ring in shapely.get_rings(part))
        areas.append(Polygon(shell, holes))
    return areas[0] if len(areas) == 1 else MultiPolygon(areas)


def _thinned(
    corners: Sequence[Place],
    owners: Owners,
    fixed: frozenset[Place],
    tolerance: float,
    kept: int,
) -> list[Place]:
    closed = corners[0] == corners[-1]
    if closed:
        corners = _begun(corners[:-1], fixed)
    made = [corners[0]]
    for run in _runs(corners, fixed):
        owned = owners[_side(run[0], run[1])]
        stays = any(owner >= kept for owner in owned)
        made += (run if stays else _fewer(run, tolerance))[1:]
    # a ring of which too little is left is nothing; so written, it is seen to be out of order
    return [*made, *made[-1:] * (4 - len(made))] if closed else made


def _begun(ring: Sequence[Place], fixed: frozenset[Place]) -> list[Place]:
    """Return a ring, closed, that begins at a corner which stays, or at its least one."""
    first = min((c for c in ring if c in fixed), default=min(ring))
    number = list(ring).index(first)
    return [*ring[number:], *ring[: number + 1]]


def _runs(corners: Sequence[Place], fixed: frozenset[Place]) -> Iterable[list[Place]]:
    """Return the runs of sides between the corners that stay."""
    run = [corners[0]]
    for corner in corners[1:]:
        run.append(corner)
        if corner in fixed:
            yield run
            run = [corner]
    if len(run) > 1:
        yield run


def _fewer(run: list[Place], tolerance: float) -> list[Place]:
    """Return a run with fewer corners, the same whichever way it is gone."""
    if run[0] == run[-1]:
        # halves about the corner farthest away, because a ring has no ends to thin between
        first = run[0]
        half = max(range(len(run)), key=lambda n: (_squared(first, run[n]), run[n]))
        return [*_fewer(run[: half + 1], tolerance), *_fewer(run[half:], tolerance)[1:]]
    onward = run if run[0] <= run[-1] else run[::-1]
    made = _corners(shapely.simplify(LineString(onward), tolerance, preserve_topology=False))
    return made if onward is run else made[::-1]


def _owners(shapes: Sequence[BaseGeometry]) -> Owners:
    """Return the numbers of the shapes that have each side."""
    found = [
        (_side(a, b), number)
        for number, shape in enumerate(shapes)
        for line in _lines(shape)
        for a, b in pairwise(_corners(line))
    ]
    grouped = groupby(sorted(found), key=lambda pair: pair[0])
    return {side: frozenset(n for _, n in pairs) for side, pairs in grouped}


def _meeting(owners: Owners) -> frozenset[Place]:
    """Return the corners at which others begin or end to share, or more than two sides meet."""
    at: dict[Place, list[frozenset[int]]] = {}
    for side, who in owners.items():
        for corner in side:
            at.setdefault(corner, []).append(who)
    return frozenset(c for c, whose in at.items() if len(whose) != 2 or whose[0] != whose[1])


def _lines(shape: BaseGeometry) -> Iterable[BaseGeometry]:
    for part in shapely.get_parts(shape):
        if part.geom_type == "Polygon":
            yield from shapely.get_rings(part)
        elif part.geom_type == "LineString":
            yield part


def _corners(line: BaseGeometry) -> list[Place]:
    return [(e, n) for e, n in shapely.get_coordinates(line).tolist()]


def _side(one: Place, other: Place) -> Side:
    return (one, other) if one <= other else (other, one)


def _squared(one: Place, other: Place) -> float:
    return (other[0] - one[0]) ** 2 + (other[1] - one[1]) ** 2
