"""How much there is of each state of a kind: what its key tells apart, counted and measured."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely

from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form, Kind, kinds
from plan_editor.plan.plan import Plan

STATE = "state"
"""The detail that tells what a space may be used for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StateMeasure:
    """One state of a kind: how many items, and their area in square metres."""

    state: str
    count: int
    area_m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StatesOfKind:
    """A kind whose look tells a state, and what there is in each."""

    kind: Kind
    states: tuple[StateMeasure, ...]


def spaces(plan: Plan) -> tuple[StatesOfKind, ...]:
    """Return the kinds of grave space of which there is any: rectangles that have states."""
    return tuple(
        StatesOfKind(kind=kind, states=_states(plan, kind, detail))
        for kind in kinds()
        if (detail := _told_apart_by(kind)) and plan.count(kind)
    )


def _told_apart_by(kind: Kind) -> str:
    # a stone too has looks by a detail, but those tell its form
    states = [w.detail for w in kind.looks if w.detail == STATE]
    return states[0] if states and Form.RECTANGLE in kind.forms else ""


def _states(plan: Plan, kind: Kind, detail: str) -> tuple[StateMeasure, ...]:
    by_state: dict[str, list[Item[Any]]] = {}
    for item in plan.of(kind):
        by_state.setdefault(str(getattr(item.details, detail)), []).append(item)
    choices = next(d.choices for d in kind.entries() if d.name == detail)
    order: Callable[[str], int] = [str(c) for c in choices].index
    return tuple(
        StateMeasure(state=s, count=len(by_state[s]), area_m2=_area(by_state[s]))
        for s in sorted(by_state, key=order)
    )


def _area(items: list[Item[Any]]) -> float:
    shapes = np.array([i.shape for i in items], dtype=object)
    return float(np.sum(shapely.area(shapes)))
