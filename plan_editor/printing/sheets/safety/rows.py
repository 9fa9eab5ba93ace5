"""The table of the safety map: each unsafe thing, what was found, what was done."""

from itertools import takewhile
from typing import Any

from plan_editor.drawing.schedule import Column, Table
from plan_editor.ground.clearance import KeptFrom, Zone
from plan_editor.kinds import cordon
from plan_editor.kinds.inspection import Result
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.days import first_day
from plan_editor.records.safety import Standing, standings
from plan_editor.records.told import by_number, figure

_HEADS = (
    ("Thing", 1.9, False),
    ("Height, m", 0.8, True),
    ("Keep off, m", 0.9, True),
    ("Found", 1.2, False),
    ("What was found or is wanted", 3.4, False),
    ("Made safe, barrier", 3.0, False),
)


def concerned(plan: Plan, on: str) -> tuple[Standing, ...]:
    """Return what is unsafe on an ISO date or was made safe for now, by number."""
    wanted = (Result.IMMEDIATE, Result.MADE_SAFE)
    found = (s for s in standings(plan, on=on) if s.latest is not None)
    told = [s for s in found if s.latest and s.latest.details.result in wanted]
    return tuple(sorted(told, key=lambda s: (not s.unsafe, by_number(s.item))))


def tables(
    plan: Plan, told: tuple[Standing, ...], zones: tuple[Zone, ...], on: str
) -> tuple[Table, ...]:
    """Return a table of what is unsafe and one of what was made safe for now; none empty."""
    kept = {k.item.id: k for z in zones for k in z.kept_from}
    columns = tuple(Column(title=t, share=s, figures=f) for t, s, f in _HEADS)
    made = []
    for heading, some in (
        ("Unsafe: keep off", [s for s in told if s.unsafe]),
        ("Made safe for now: repair is still wanted", [s for s in told if not s.unsafe]),
    ):
        rows = tuple(_row(plan, s, kept.get(s.item.id), on) for s in some)
        if rows:
            made.append(Table(heading=f"{heading} ({len(rows)})", columns=columns, rows=rows))
    return tuple(made)


def _row(plan: Plan, told: Standing, kept: KeptFrom | None, on: str) -> tuple[str, ...]:
    return (
        told.item.called(),
        figure(getattr(told.item.details, "height_m", None), 2)
        or ("not measured" if kept and kept.assumed else ""),
        figure(kept.distance_m if kept else None, 1),
        _since(told) or "no date",
        _found(told),
        _done(plan, told.item.id, on),
    )


def _since(told: Standing) -> str:
    """Return since when it is in the state that counts, without a break."""
    state = told.latest.details.result if told.latest else None
    alike = takewhile(lambda i: i.details.result is state, told.inspections)
    return ([i.details.date for i in alike] or [""])[-1]


def _found(told: Standing) -> str:
    words = told.latest.details.action if told.latest else ""
    return words or "nothing more is recorded"


def _done(plan: Plan, thing: ItemId, on: str) -> str:
    barriers = [c for c in cordons(plan, on) if c.details.target == thing]
    return "; ".join(map(_barrier, barriers)) or "no barrier recorded"


def cordons(plan: Plan, on: str) -> tuple[Item[cordon.CordonDetails], ...]:
    """Return the barriers that stand on an ISO date."""
    return tuple(c for c in plan.of(cordon.KIND) if first_day(c.details.since) <= on)


def _barrier(one: Item[Any]) -> str:
    told = one.details
    words = [told.barrier or "cordon"]
    if told.since:
        words.append(f"since {told.since}")
    words.append(f"notice fixed {told.notice}" if told.notice else "no notice fixed")
    if told.looked_at:
        words.append(f"last looked at {told.looked_at}")
    return ", ".join(words)
