"""Mowing sessions as lines of a list, one to be recorded, and the rates that they tell."""

from dataclasses import dataclass
from math import isinf
from typing import Any

from plan_editor.commands.forms import capital, number
from plan_editor.commands.size import thousands
from plan_editor.edits.basic import Add
from plan_editor.edits.mowing_rates import TakeOverRates
from plan_editor.errors import CannotUse
from plan_editor.ground.parish import parish_figures
from plan_editor.plan.detail import Detail
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.kind import kind_of_ours
from plan_editor.plan.plan import Plan
from plan_editor.records.mowing_rates import CONFIDENCE, FOR_A_RATE, STONES, Fitted, fitted
from plan_editor.records.visit_equations import equations

WANTED = FOR_A_RATE
SHORT = "short"
"""The regime whose rate is the parish's rate in the open."""

_FIELDS = (
    "date",
    "grass",
    "regime",
    "people",
    "minutes",
    "mowing_h",
    "trimming_h",
    "raking_h",
    "machine",
    "remarks",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionLine:
    """One mowing session in the list: its day, where it was, and how long it took."""

    item: ItemId
    date: str
    where: str
    time: str


def session_lines(plan: Plan) -> tuple[SessionLine, ...]:
    """Return the mowing sessions, the newest first."""
    found = sorted(plan.of(kind_of_ours("visit")), key=lambda v: v.details.date, reverse=True)
    return tuple(_line(plan, v) for v in found)


def session_fields() -> tuple[Detail, ...]:
    """Return what is asked of a session, in order."""
    by_name = {d.name: d for d in kind_of_ours("visit").entries()}
    return tuple(by_name[name] for name in _FIELDS)


def add_session(values: dict[str, Any]) -> Edit:
    """Return the edit that records a session.

    Raises:
        CannotUse: it has no date.
    """
    if not values.get("date"):
        raise CannotUse("Nothing was recorded. Give the date of the session.")
    kind = kind_of_ours("visit")
    return Add((new_item(kind, details=kind.details(**values)),))


def rates_of(plan: Plan) -> tuple[Fitted, ...]:
    """Return the rates that the sessions tell. Loads what takes most of a second at first."""
    return fitted(equations(plan))


def rates_told(rates: tuple[Fitted, ...]) -> tuple[tuple[str, str], ...]:
    """Return rates in words: of what, and how much with its interval and basis."""
    return tuple((_title(r), f"{_rate(r)} ({_visits(r.visits)})") for r in rates)


def interval_told() -> str:
    """Return what the intervals mean."""
    return (
        f"Between these bounds the true rate lies in {CONFIDENCE * 10:.0f} of 10 seasons like"
        " yours; a rate is for one person, over the grass as it is drawn."
    )


def take_over(rates: tuple[Fitted, ...]) -> Edit:
    """Return the edit that writes rates into the parish's figures.

    It refuses where neither the rate of short grass nor that of a stone is told.
    """
    by_name = {r.of: r for r in rates}
    short, stones = by_name.get(SHORT), by_name.get(STONES)
    return TakeOverRates(
        source=_source([r for r in (short, stones) if r is not None]),
        mowing_m2_h=None if short is None else round(short.m2_h, 1),
        minutes_a_stone=None if stones is None else round(stones.minutes, 2),
    )


def may_take_over(rates: tuple[Fitted, ...]) -> bool:
    """Return whether the rates hold one that the parish's figures keep."""
    return bool({SHORT, STONES} & {r.of for r in rates})


def in_use(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return the parish's figures for mowing, as they stand."""
    told = parish_figures(plan)
    rate, stone = told.mowing_m2_h, told.minutes_a_stone
    return (
        ("In the open", "not entered" if rate is None else f"{thousands(rate)} m²/h"),
        ("Round a stone", "not entered" if stone is None else f"{number(stone)} min"),
    )


def _line(plan: Plan, session: Item[Any]) -> SessionLine:
    told = session.details
    whole = capital(str(told.regime)) if told.regime is not None else "the whole ground"
    where = whole if told.grass is None else _grass(plan.items[told.grass])
    return SessionLine(item=session.id, date=told.date, where=where, time=_time(told))


def _grass(item: Item[Any]) -> str:
    return item.details.name or item.called()


def _time(told: Any) -> str:
    hours = [h for h in (told.mowing_h, told.trimming_h, told.raking_h) if h is not None]
    if hours:
        return f"{number(round(sum(hours), 2))} h"
    if told.minutes is None:
        return "not noted"
    people = f" × {told.people}" if told.people and told.people > 1 else ""
    return f"{number(told.minutes)} min{people}"


def _title(rate: Fitted) -> str:
    return "Round a stone" if rate.of == STONES else capital(rate.of)


def _rate(rate: Fitted) -> str:
    if rate.of == STONES:
        return f"{rate.minutes:.1f} min, {rate.low:.1f} to {rate.high:.1f}"
    low, high = rate.m2_h_between
    upto = "more than can be told" if isinf(high) else thousands(high)
    return f"{thousands(rate.m2_h)} m²/h, {thousands(low)} to {upto}"


def _visits(count: int) -> str:
    return f"{count} sessions"


def _source(rates: list[Fitted]) -> str:
    told = "; ".join(f"{_title(r).lower()} {_rate(r)}, {_visits(r.visits)}" for r in rates)
    return f"Own mowing sessions, fitted by least squares, {CONFIDENCE:.0%} bounds: {told}."
