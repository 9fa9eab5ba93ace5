"""What the mowing map tells: what is kept off, what is left, what is trimmed, what is mown."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from plan_editor.drawing.backdrop import Backdrop
from plan_editor.drawing.dates import in_words
from plan_editor.ground.clearance import Zone, zones
from plan_editor.ground.rules import Purpose
from plan_editor.kinds import boundary, cordon, grass, grave
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked
from plan_editor.printing.usual import (
    Extent,
    extent_without_crowns,
    shown,
)
from plan_editor.records.days import last_day
from plan_editor.records.safety import standings, unsafe
from plan_editor.records.settling import settling_graves

_MEADOWS = {grass.Regime.SPRING, grass.Regime.SUMMER, grass.Regime.ROUGH}


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What the map tells.

    Args:
        plan: the plan.
        date: of the map.
        items: everything drawn.
        zones: to keep out of.
        resting: grass that is left uncut until a date after the map's.
        by_hand: grass that is trimmed by hand only.
        other: grass that rests without a day until which.
        mown: all other grass.
        fresh: graves that settle still.
        barriers: as they stand on the ground.
        backdrops: base plans under it.
        stones: how many there are.
        untold: how many of them have no inspection that came to a result.
    """

    plan: Plan
    date: str
    items: tuple[Item[Any], ...]
    zones: tuple[Zone, ...]
    resting: tuple[Item[grass.GrassDetails], ...]
    by_hand: tuple[Item[grass.GrassDetails], ...]
    other: tuple[Item[grass.GrassDetails], ...]
    mown: tuple[Item[grass.GrassDetails], ...]
    fresh: tuple[Item[grave.GraveDetails], ...]
    barriers: tuple[Item[cordon.CordonDetails], ...]
    backdrops: tuple[Backdrop, ...]
    stones: int
    untold: int

    @property
    def marked(self) -> tuple[Item[Any], ...]:
        """What is drawn in full strength."""
        return (*self.resting, *self.other, *self.by_hand, *self.barriers)


def told_by(plan: Plan, asked: Asked, backdrops: tuple[Backdrop, ...]) -> Told:
    """Return what a plan tells the mowing team on the day asked for."""
    lawn = tuple(plan.of(grass.KIND))
    resting = tuple(i for i in lawn if _rests(i.details, asked.date))
    other = tuple(i for i in lawn if _rests_without_end(i.details, asked.date))
    left = {i.id for i in (*resting, *other)}
    by_hand = tuple(i for i in lawn if i.id not in left and _is_by_hand(i.details))
    told = left | {i.id for i in by_hand}
    known = standings(plan, on=asked.date, kinds=("memorial",))
    return Told(
        plan=plan,
        date=asked.date,
        items=shown(plan),
        zones=zones(plan, unsafe(plan, on=asked.date), purpose=Purpose.MACHINE),
        resting=resting,
        by_hand=by_hand,
        other=other,
        mown=tuple(i for i in lawn if i.id not in told),
        fresh=settling_graves(plan, asked.date),
        barriers=tuple(plan.of(cordon.KIND)),
        backdrops=backdrops,
        stones=len(known),
        untold=sum(s.latest is None for s in known),
    )


def _is_by_hand(details: grass.GrassDetails) -> bool:
    return details.regime is grass.Regime.BY_HAND


def _rests(details: grass.GrassDetails, date: str) -> bool:
    return (
        details.uncut_from <= date
        and bool(details.uncut_until)
        and last_day(details.uncut_until) > date
    )


def _rests_without_end(details: grass.GrassDetails, date: str) -> bool:
    """Return whether nobody said until when: a meadow, or grass whose rest has begun."""
    if details.uncut_until or details.uncut_from > date:
        return False
    return details.regime in _MEADOWS or bool(details.uncut_from)


def title_of(told: Told) -> str:
    """Return what the map is for, with the last day until which grass is left."""
    dates = [i.details.uncut_until for i in told.resting]
    return f"Where not to mow until {in_words(max(dates))}" if dates else "Where not to mow"


def extent_told(told: Told) -> Extent | None:
    """Return the extent of everything drawn, zones included; None of nothing.

    Of a zone that reaches over the boundary nothing beyond all else is shown: nobody mows
    there, and the map would no longer fit the hand.
    """
    # crowns reach over the boundary, where nobody mows
    found = extent_without_crowns(told.items)
    grounds = [i.shape for i in told.plan.of(boundary.KIND) if i.shape is not None]
    beyond = [z.shape for z in told.zones if not any(z.shape.intersects(g) for g in grounds)]
    if found is None or not beyond:
        return found
    bounds = np.array([found, *(shape.bounds for shape in beyond)])
    low, high = bounds[:, :2].min(axis=0), bounds[:, 2:].max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])
