"""The paths as a network: places along them, and which of these one walks between.

A path drawn along its middle is a chain of places. A path drawn as an area is walked along its
middle too: from where other paths meet it, round the corners of its outline drawn in by most of
half its width. Paths belong together where their ground meets.
"""

from dataclasses import dataclass
from itertools import combinations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from plan_editor.ground.walking_ground import Numbers
from plan_editor.kinds import path
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

Path = Item[path.PathDetails]
Whole = NDArray[np.intp]

STEP_M = 2.0
"""Places along a path are no farther apart: where one steps off it onto the grass."""

MEET_M = 0.75
"""Paths whose ground lies nearer than this to each other meet; our own figure."""

_DRAWN_IN = 0.8


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Network:
    """Places along the paths, and the pieces of path between them.

    Args:
        paths: the paths.
        places: (n, 2), east and north in metres.
        ends: (m, 2), the numbers of the two places of each piece.
        of: (m,), the number of the path to which each piece belongs.
    """

    paths: tuple[Path, ...]
    places: Numbers
    ends: Whole
    of: Whole


def path_network(plan: Plan, beside: Numbers | None = None) -> Network:
    """Return the network of a plan's paths.

    Args:
        plan: the plan.
        beside: (n, 2), places opposite to which there is to be one on each path.
    """
    opposite = [] if beside is None else [np.array([b, b]) for b in beside]
    paths = tuple(plan.of(path.KIND))
    met = _met(paths)
    places: list[Numbers] = []
    ends: list[Whole] = []
    of: list[Whole] = []
    count = 0
    for number, one in enumerate(paths):
        at, pieces = _way_along(one, met[number], opposite)
        places.append(at)
        ends.append(pieces + count)
        of.append(np.full(len(pieces), number))
        count += len(at)
    return _merged(paths, places, ends, of)


def _met(paths: tuple[Path, ...]) -> list[list[Numbers]]:
    """Return for each path the short lines, (2, 2), on which others are reached from it."""
    found: list[list[Numbers]] = [[] for _ in paths]
    for (a, one), (b, other) in combinations(enumerate(paths), 2):
        gap = one.kind.width_m(one.details) / 2 + other.kind.width_m(other.details) / 2 + MEET_M
        for line in _meetings(one.lies, other.lies, gap):
            found[a].append(line)
            found[b].append(line[::-1])
    return found


def _meetings(one: BaseGeometry, other: BaseGeometry, gap: float) -> list[Numbers]:
    if shapely.distance(one, other) > gap:
        return []
    crossed = shapely.intersection(one, other)
    if not crossed.is_empty:
        shared = shapely.get_parts(crossed)
        middles = [shapely.get_coordinates(p.representative_point())[0] for p in shared]
        return [np.array([m, m]) for m in middles]
    ends = [shapely.shortest_line(one, other), *_from_ends(one, other, gap)]
    return [shapely.get_coordinates(line) for line in ends]


def _from_ends(one: BaseGeometry, other: BaseGeometry, gap: float) -> list[BaseGeometry]:
    """Return lines from the ends of either to the other, where they are near."""
    found = [shapely.shortest_line(end, other) for end in _ends(one)]
    found += [shapely.shortest_line(one, end) for end in _ends(other)]
    return [line for line in found if line.length <= gap]


def _ends(shape: BaseGeometry) -> list[Point]:
    return [] if shape.area else [Point(p) for p in shapely.get_coordinates(shape)[[0, -1]]]


def _way_along(one: Path, met: list[Numbers], opposite: list[Numbers]) -> tuple[Numbers, Whole]:
    return _across(one, met) if one.lies.area else _along(one, met, opposite)


def _along(one: Path, met: list[Numbers], opposite: list[Numbers]) -> tuple[Numbers, Whole]:
    """Return the places along a path's middle and its pieces, and the ways to other paths."""
    steps = shapely.get_coordinates(shapely.segmentize(one.lies, STEP_M))
    line, lengths = LineString(steps), np.hypot(*np.diff(steps, axis=0).T)
    off = [line.project(Point(m[0])) for m in (*met, *opposite)]
    at = np.unique(np.round([0.0, *np.cumsum(lengths), *off], 3))
    places = np.array([line.interpolate(a).coords[0] for a in at])
    chain = np.stack([np.arange(len(at) - 1), np.arange(1, len(at))], axis=1)
    return _with_ways(places, chain, met)


def _across(one: Path, met: list[Numbers]) -> tuple[Numbers, Whole]:
    """Return the places within a path's outline, and the ways between those in sight."""
    shape = one.lies
    half = shape.area / max(shape.length, 1e-9)
    inner: BaseGeometry = shapely.buffer(shape, -_DRAWN_IN * half, join_style="mitre")
    inner = inner if not inner.is_empty else shape.representative_point()
    drawn = shapely.segmentize(shapely.simplify(inner, half * 0.2), 2 * STEP_M)
    inside = np.unique(shapely.get_coordinates(drawn), axis=0)
    places = np.concatenate([inside, *(m[:1] for m in met)])
    first, second = np.triu_indices(len(places), 1)
    lines = shapely.linestrings(np.stack([places[first], places[second]], axis=1))
    within = shapely.covers(shapely.buffer(shape, 0.05), lines)
    pieces = np.stack([first[within], second[within]], axis=1)
    return _with_ways(places, pieces, met)


def _with_ways(places: Numbers, pieces: Whole, ways: list[Numbers]) -> tuple[Numbers, Whole]:
    """Return places and pieces with the ways to other paths added."""
    if not ways:
        return places, pieces
    count = len(places)
    ends = np.concatenate(ways)
    own = np.arange(2 * len(ways)).reshape(-1, 2) + count
    return np.concatenate([places, ends]), np.concatenate([pieces, own])


def _merged(
    paths: tuple[Path, ...], places: list[Numbers], ends: list[Whole], of: list[Whole]
) -> Network:
    """Return the network with places to the same centimetre made one."""
    if not paths:
        nothing = np.zeros((0, 2), dtype=np.intp)
        return Network(paths=(), places=np.zeros((0, 2)), ends=nothing, of=nothing[:, 0])
    every = np.concatenate(places)
    _, first, same = np.unique(
        np.round(every, 2) + 0.0, axis=0, return_index=True, return_inverse=True
    )
    pieces = same.reshape(-1)[np.concatenate(ends)]
    real = pieces[:, 0] != pieces[:, 1]
    return Network(
        paths=paths, places=every[first], ends=pieces[real], of=np.concatenate(of)[real]
    )
