"""The round of an inspection: what is due, in walking order from a gate, and how to look."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from plan_editor.errors import CannotUse
from plan_editor.ground.dangers import Inspection
from plan_editor.ground.walked import walked
from plan_editor.ground.walking_ground import Numbers, walking_ground
from plan_editor.kinds import gate
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.records.dues import inspections
from plan_editor.records.methods import Method, method_for
from plan_editor.records.rounds import walk_length, walking_order
from plan_editor.records.safety import latest_inspections

MOST = 1500
"""So many things are put in order within some seconds; nobody looks at more in one round."""

NO_GATE = "No gate is drawn: the round begins at its most southerly thing."


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """A thing that is looked at on the round.

    Args:
        item: the stone, tree, wall or whatever it is.
        latest: its latest inspection that came to a result, or None.
        method: how it is to be looked at.
    """

    item: Item[Any]
    latest: Inspection | None
    method: Method


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Round:
    """A round.

    Args:
        gate: where it begins; None where no gate is drawn.
        stops: in walking order.
        places: (n, 2), where one stands at each, east and north in metres; the first is the
            beginning.
        length_m: on foot from the beginning to the last, straight from one to the next where
            nothing is in the way.
        straight: for each stop, whether one walks straight to it from the one before.
        assumed: what was taken for granted, in sentences.
    """

    gate: Item[gate.GateDetails] | None
    stops: tuple[Stop, ...]
    places: Numbers
    length_m: float
    straight: tuple[bool, ...]
    assumed: tuple[str, ...]


def due_round(plan: Plan, on: str) -> Round:
    """Return the round of all that has a place and is due for inspection on an ISO date.

    Raises:
        CannotUse: more is due than one round can hold.
    """
    due = dict.fromkeys(d.item for d in inspections.find(plan, on) if d.item and d.date <= on)
    things = [plan.items[i] for i in due if plan.items[i].shape is not None]
    if len(things) > MOST:
        raise CannotUse(
            f"{len(things):,} things are due, more than the {MOST:,} of one round. Nothing was"
            " printed. Ask for one churchyard, or for an earlier day."
        )
    if not things:
        return Round(
            gate=None, stops=(), places=np.zeros((0, 2)), length_m=0.0, straight=(), assumed=()
        )
    ground = walking_ground(plan)
    stood = ground.beside(np.array([i.lies.representative_point().coords[0] for i in things]))
    begun, start = _start(plan, stood)
    places = np.concatenate([ground.beside(start), stood])
    lengths = walked(ground, places)
    order = walking_order(lengths)
    latest = latest_inspections(plan, on=on)
    walk = places[[0, *order]]
    return Round(
        gate=begun,
        stops=tuple(
            Stop(item=i, latest=latest.get(i.id), method=method_for(plan, i, on=on))
            for i in (things[n - 1] for n in order)
        ),
        places=walk,
        length_m=walk_length(lengths, order),
        straight=tuple(bool(s) for s in ground.sees(walk[:-1], walk[1:])),
        assumed=() if begun else (NO_GATE,),
    )


def _start(plan: Plan, stood: Numbers) -> tuple[Item[gate.GateDetails] | None, Numbers]:
    """Return the gate that is nearest to anything on the round, and where it is."""
    drawn = list(plan.of(gate.KIND))
    gates = [i for i in drawn if not i.details.locked] or drawn
    if not gates:
        return None, stood[np.argmin(stood[:, 1])][None]
    places = np.array([i.lies.centroid.coords[0] for i in gates])
    far = np.hypot(*(places[:, None] - stood[None]).transpose(2, 0, 1)).min(axis=1)
    nearest = int(np.argmin(far))
    return gates[nearest], places[nearest][None]
