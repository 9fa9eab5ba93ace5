"""Numbers that two bear, or that sound so much alike that one is taken for the other."""

import re
from collections.abc import Iterator, Sequence
from typing import Any

from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import inside, named, within
from plan_editor.kinds import memorial
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item
from plan_editor.plan.kind import burial_kinds
from plan_editor.plan.plan import Plan

NAME = "numbers_twice"

_PARTS = re.compile(r"\d+|[^\W\d_]+")


def heard(number: str) -> str:
    """Return a number as it is heard: ``C-014`` is ``c 14``, but ``1/2`` is not ``12``."""
    parts = _PARTS.findall(spoken(number))
    return " ".join((p.lstrip("0") or "0") if p.isdigit() else p for p in parts)


def find(plan: Plan) -> Iterator[Finding]:
    """Find graves, vaults and ashes plots of one number, and stones with another's."""
    by_number: dict[str, list[Item[Any]]] = {}
    for item in (i for k in burial_kinds() for i in plan.of(k) if i.number):
        by_number.setdefault(heard(item.number), []).append(item)
    for items in by_number.values():
        if len(items) > 1:
            told = "have one number when it is read aloud, and can be mistaken"
            yield _finding(items, f"{named(items)} {told} for each other.", Severity.FAULT)
    for stone in plan.of(memorial.KIND):
        if stone.number and (others := by_number.get(heard(stone.number))):
            yield from _on_another(plan, stone, others)


def _on_another(
    plan: Plan, stone: Item[MemorialDetails], others: Sequence[Item[Any]]
) -> Iterator[Finding]:
    under = plan.items[stone.details.grave] if stone.details.grave is not None else None
    if under is not None and under not in others:
        told = f"bears the number of {within(others[0])}, but stands on {within(under)}."
        yield _finding([stone, under, *others], f"{named((stone,))} {told}", Severity.DOUBT)


def _finding(items: Sequence[Item[Any]], text: str, severity: Severity) -> Finding:
    first = items[0].shape
    return Finding(
        rule=NAME,
        severity=severity,
        items=tuple(i.id for i in items),
        place=None if first is None else inside(first),
        text=text,
    )


RULE = Rule(
    name=NAME,
    title="Numbers twice",
    help=(
        "Graves, vaults and ashes plots whose numbers are the same when blanks, signs, capitals"
        " and leading noughts are left out; memorials that bear the number of another grave"
        " than the one on which they stand."
    ),
    source="Our own rule, from how registers are read aloud.",
    find=find,
    order=25,
)
