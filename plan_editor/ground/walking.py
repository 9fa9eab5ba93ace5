"""The way on foot to a thing: from a gate along the paths, and over the grass at the last.

A metre of grass counts as much as three of path, so that a way keeps to the paths as people do;
buildings, walls, cordons and other ground to keep off are gone round. Single stones and graves
are not: one steps between them. Which gates, paths and walls there are is as the plan has it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.declared import late
from plan_editor.geometry.ranks import Place
from plan_editor.ground.path_network import Network, Path, path_network
from plan_editor.ground.walking_ground import Numbers, WalkingGround, walking_ground
from plan_editor.kinds import boundary, gate
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

GRASS_COUNTS = 3.0
"""So many metres of path are as good as one of grass; our own figure."""

NO_GATE = "No gate is drawn: the way begins at the nearest point of the boundary."
NO_BOUNDARY = "Neither gate nor boundary is drawn: the way begins at the far end of the paths."
CLOSED_OFF = "It lies within ground that is walled in or kept off: the way ends beside it."
OVER_GRASS = "Over the grass the way is straight; step between the graves, not on them."

_SLIGHT_M = 1.0


def _not_loaded(net: Network, ground: WalkingGround, places: Numbers, starts: int) -> "Track":
    """Show what the function that finds a way takes and returns."""
    raise NotImplementedError  # pragma: no cover  # only its arguments are looked at


_shortest = late("plan_editor.ground.walking_made", "shortest", _not_loaded)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Track:
    """A way as places, from its start; empty where there is none.

    Args:
        places: (n, 2).
        of: number of the path to which each of the n - 1 pieces belongs; -1 of grass.
        start: which of the starts it begins at.
    """

    places: Numbers
    of: tuple[int, ...]
    start: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Leg:
    """A part of a way along one path, or over the grass.

    Args:
        path: that path; None for grass.
        places: (n, 2), east and north in metres.
    """

    path: Path | None
    places: Numbers

    @property
    def length_m(self) -> float:
        """How long it is, in metres."""
        return float(np.hypot(*np.diff(self.places, axis=0).T).sum())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Way:
    """The way on foot to a thing.

    Args:
        gate: where it begins; None where no gate is drawn.
        item: to what it leads.
        legs: its parts, in order.
        assumed: what was taken for granted, in sentences.
    """

    gate: Item[gate.GateDetails] | None
    item: Item[Any]
    legs: tuple[Leg, ...]
    assumed: tuple[str, ...]

    @property
    def length_m(self) -> float:
        """How long it is, in metres."""
        return sum(leg.length_m for leg in self.legs)

    @property
    def places(self) -> Numbers:
        """All of its places in order, (n, 2)."""
        return np.concatenate([leg.places for leg in self.legs])


def way_to(plan: Plan, item: ItemId, closed: Iterable[BaseGeometry] = ()) -> Way | None:
    """Return the way from the gate that is best for it; None where there is no way.

    Gates that are kept locked are used only where there is no other.

    Args:
        plan: the plan.
        item: something with a place.
        closed: ground to keep off beside the cordons, such as zones round unsafe stones.
    """
    thing = plan.items[item]
    ground = walking_ground(plan, closed)
    middle = np.array([thing.lies.representative_point().coords[0]])
    entered = [_middle(i.lies) for i in plan.of(gate.KIND)]
    net = path_network(plan, np.array([*middle, *entered]))
    target = ground.beside(middle)
    gates, starts, assumed = _starts(plan, net, target[0])
    if not len(starts):
        return None
    track = _shortest(net, ground, np.concatenate([target, ground.beside(starts)]), len(starts))
    if not track.of:
        return None
    legs = _legs(track, net.paths)
    if not np.array_equal(middle, target):
        assumed.append(CLOSED_OFF)
    if any(leg.path is None for leg in legs):
        assumed.append(OVER_GRASS)
    begun = gates[track.start] if gates else None
    return Way(gate=begun, item=thing, legs=legs, assumed=tuple(assumed))


def _starts(
    plan: Plan, net: Network, target: Numbers
) -> tuple[list[Item[gate.GateDetails]], Numbers, list[str]]:
    """Return the gates, where ways may begin, and what is taken for granted."""
    drawn = list(plan.of(gate.KIND))
    gates = [i for i in drawn if not i.details.locked] or drawn
    if gates:
        return gates, np.array([_middle(i.lies) for i in gates]), []
    lines = [_outline(i.lies) for i in plan.of(boundary.KIND)]
    if lines:
        near = shapely.shortest_line(shapely.union_all(lines), shapely.Point(target))
        return [], shapely.get_coordinates(near)[:1], [NO_GATE]
    far = np.hypot(*(net.places - target).T)
    return [], net.places[np.argsort(-far)[:1]], [NO_BOUNDARY]


def _outline(shape: BaseGeometry) -> BaseGeometry:
    return shape.boundary if shape.area else shape


def _middle(shape: BaseGeometry) -> Place:
    at = shape.interpolate(0.5, normalized=True) if shape.length else shape
    return float(shapely.get_x(at)), float(shapely.get_y(at))


def _legs(track: Track, paths: Sequence[Path]) -> tuple[Leg, ...]:
    """Return a track path by path; a step or two goes with the path beside."""
    runs: list[tuple[int, list[int]]] = []
    for piece, of in enumerate(track.of):
        if runs and runs[-1][0] == of:
            runs[-1][1].append(piece)
        else:
            runs.append((of, [piece]))
    runs = _without_steps(runs, np.hypot(*np.diff(track.places, axis=0).T))
    return tuple(
        Leg(
            path=paths[of] if of >= 0 else None,
            places=track.places[pieces[0] : pieces[-1] + 2],
        )
        for of, pieces in runs
    )


def _without_steps(
    runs: list[tuple[int, list[int]]], lengths: Numbers
) -> list[tuple[int, list[int]]]:
    """Return runs, a slight one joined to the next, and runs of one path joined."""
    kept: list[tuple[int, list[int]]] = []
    waiting: list[int] = []
    for of, pieces in runs:
        every = [*waiting, *pieces]
        waiting = every if lengths[every].sum() < _SLIGHT_M else []
        if waiting:
            continue
        if kept and kept[-1][0] == of:
            kept[-1][1].extend(every)
        else:
            kept.append((of, every))
    if not kept:
        return [(runs[-1][0], waiting)]
    kept[-1][1].extend(waiting)
    return kept
