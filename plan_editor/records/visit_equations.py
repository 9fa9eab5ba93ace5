"""What the parish's mowing sessions say of its own rates, as equations in person-minutes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import shapely

from plan_editor.kinds import grass, memorial, visit
from plan_editor.kinds.grass import GrassDetails, Regime
from plan_editor.kinds.visit import VisitDetails
from plan_editor.plan.item import Item, ItemId, Status
from plan_editor.plan.plan import Plan
from plan_editor.records.days import first_day, last_day

STONES = "a stone"
"""Names the minutes that a stone takes, beside the names of regimes."""

Amounts = tuple[tuple[str, float], ...]
"""Square metres by the name of their regime, and stones under ``STONES``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Equation:
    """So much of each cost so many minutes of one person.

    Args:
        visit: the session that says so.
        amounts: of what there is some.
        minutes: of all people together.
    """

    visit: ItemId
    amounts: Amounts
    minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    regime: Regime
    area: float
    stones: int
    rests_from: str
    rests_until: str


def equations(plan: Plan) -> tuple[Equation, ...]:
    """Return what every session says.

    Where mowing and trimming were told apart, each is an equation of its own; otherwise the
    session as a whole is one, with its minutes by the clock times the people there were.
    Areas are those of the grass as it is drawn; a stone counts where it stands on that grass.
    A session of the whole ground mows what did not rest on its day.
    """
    pieces = _pieces(plan)
    return tuple(e for v in plan.of(visit.KIND) for e in _told_by(v, pieces))


def _told_by(found: Item[VisitDetails], pieces: dict[ItemId, _Piece]) -> Iterator[Equation]:
    told = found.details
    mown, trimmed = _mown(told, pieces)
    apart = ((mown, told.mowing_h), (trimmed, told.trimming_h))
    if any(hours is not None for _, hours in apart):
        for amounts, hours in apart:
            if amounts and hours:
                yield Equation(visit=found.id, amounts=amounts, minutes=hours * 60.0)
    elif told.minutes and (mown or trimmed):
        minutes = told.minutes * (told.people or 1)
        yield Equation(visit=found.id, amounts=(*mown, *trimmed), minutes=minutes)


def _mown(told: VisitDetails, pieces: dict[ItemId, _Piece]) -> tuple[Amounts, Amounts]:
    """Return what a session mows by machine, and what it trims: stones, and grass by hand."""
    kept = _of_visit(told, pieces)
    areas = [(r.value, sum(p.area for p in kept if p.regime is r)) for r in Regime]
    stones = (STONES, float(sum(p.stones for p in kept)))
    there = [(name, amount) for name, amount in (*areas, stones) if amount > 0.0]
    trimmed = {STONES, Regime.BY_HAND.value}
    return (
        tuple(a for a in there if a[0] not in trimmed),
        tuple(a for a in there if a[0] in trimmed),
    )


def _of_visit(told: VisitDetails, pieces: dict[ItemId, _Piece]) -> Sequence[_Piece]:
    if told.grass is not None:
        return [pieces[told.grass]]
    if told.regime is not None:
        return [p for p in pieces.values() if p.regime.value == told.regime.value]
    return [p for p in pieces.values() if _is_mown(p, told.date)]


def _is_mown(piece: _Piece, date: str) -> bool:
    """Return whether a session of the whole ground mows a piece: it does not rest.

    As on the mowing map: a meadow that rests without a day until which is not mown, and a month
    rests to its end. Of a date that stops early it rests only if it does on every day of it.
    """
    if piece.rests_until:
        begun = first_day(piece.rests_from) <= first_day(date)
        return not (begun and last_day(date) < last_day(piece.rests_until))
    return piece.regime in (Regime.SHORT, Regime.BY_HAND)


def _pieces(plan: Plan) -> dict[ItemId, _Piece]:
    stones = [
        m.lies.representative_point()
        for m in plan.of(memorial.KIND)
        if m.shape is not None and m.status is not Status.PROPOSED
    ]
    tree = shapely.STRtree(stones)
    return {g.id: _piece(g, tree) for g in plan.of(grass.KIND)}


def _piece(item: Item[GrassDetails], stones: Any) -> _Piece:
    shape, told = item.shape, item.details
    return _Piece(
        regime=told.regime,
        area=0.0 if shape is None else shape.area,
        stones=0 if shape is None else len(stones.query(shape, predicate="intersects")),
        rests_from=told.uncut_from,
        rests_until=told.uncut_until,
    )
