"""Zones round what must be kept away from, by the rules of ``resources/clearance_rules.toml``.

A zone is the footprint widened by a distance, not a circle about its middle. Whether something
lies inside is asked by distance: the drawn outline of a zone falls short of the true curve.
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.buffers import clearance
from plan_editor.ground.rules import Purpose, Rule, shipped_rules
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptFrom:
    """One item that is kept away from.

    Args:
        item: the item itself.
        footprint: what it stands on, in metres about the plan's origin.
        distance_m: how far from its footprint.
        assumed: names of details that are not recorded and were taken from the rule.
    """

    item: Item[Any]
    footprint: BaseGeometry
    distance_m: float
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """Ground to keep off: the clearances of one rule that run into each other, merged.

    Args:
        rule: on whose word.
        kept_from: its stones, in the order of their numbers.
        shape: its outline, in metres about the plan's origin; flattened to within a millimetre.
    """

    rule: Rule
    kept_from: tuple[KeptFrom, ...]
    shape: Polygon

    @property
    def area_m2(self) -> float:
        """Its area in square metres, the stones included."""
        return float(self.shape.area)

    @property
    def distance_m(self) -> float:
        """The greatest of its distances, in metres."""
        return max(k.distance_m for k in self.kept_from)

    def reaches(self, shape: BaseGeometry) -> bool:
        """Return whether any part of a shape lies nearer to one of its stones than may be."""
        return any(shapely.distance(k.footprint, shape) < k.distance_m for k in self.kept_from)


def zones(
    plan: Plan,
    unsafe: Collection[ItemId],
    *,
    purpose: Purpose | None = None,
    rules: Iterable[Rule] | None = None,
) -> tuple[Zone, ...]:
    """Return the zones to keep off, rule by rule, the largest of each rule first.

    Args:
        plan: the plan.
        unsafe: the items that are unsafe, as the register tells.
        purpose: for whom; None for everyone.
        rules: those of the program, unless given.
    """
    chosen = tuple(
        rule
        for rule in (shipped_rules() if rules is None else rules)
        if purpose is None or rule.purpose is purpose
    )
    return tuple(
        zone for rule in chosen for zone in _zones(rule, _kept_from(plan, rule, unsafe))
    )


def _kept_from(plan: Plan, rule: Rule, unsafe: Collection[ItemId]) -> tuple[KeptFrom, ...]:
    items = (plan.items[i] for i in dict.fromkeys(unsafe) if i in plan.items)
    return tuple(
        _distance(rule, item, item.shape)
        for item in items
        if item.kind.name == rule.applies_to and item.shape is not None
    )


def _distance(rule: Rule, item: Item[Any], footprint: BaseGeometry) -> KeptFrom:
    told = {n: getattr(item.details, n, None) for n in rule.distance.names}
    recorded = {n: float(v) for n, v in told.items() if v is not None}
    taken = {n: v for n, v in rule.assume if n not in recorded}
    numbers = taken | recorded
    assumed = tuple(sorted(taken))
    distance_m = rule.distance.worked_out(numbers)
    return KeptFrom(item=item, footprint=footprint, distance_m=distance_m, assumed=assumed)


def _zones(rule: Rule, kept_from: Sequence[KeptFrom]) -> tuple[Zone, ...]:
    if not kept_from:
        return ()
    merged = shapely.union_all([clearance(k.footprint, k.distance_m) for k in kept_from])
    parts = shapely.get_parts(merged)
    # every stone lies whole in one part; a point of it says which
    points = [k.footprint.representative_point() for k in kept_from]
    stone, part = shapely.STRtree(parts).query(points, predicate="within")
    found = [
        Zone(
            rule=rule,
            kept_from=tuple(sorted((kept_from[i] for i in stone[part == p]), key=_by_number)),
            shape=Polygon(parts[p]),
        )
        for p in np.unique(part)
    ]
    return tuple(sorted(found, key=lambda zone: -zone.area_m2))


def _by_number(kept: KeptFrom) -> tuple[str, str]:
    return kept.item.number, kept.item.id
