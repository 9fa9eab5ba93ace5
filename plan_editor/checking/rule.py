"""What a rule of the plan check declares, and what it finds."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from shapely.geometry.base import BaseGeometry

from plan_editor.declared import declared
from plan_editor.errors import PlanEditorError
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

Place = tuple[float, float]
"""East and north in metres about the plan's origin."""


class Severity(StrEnum):
    """How much a finding matters; the worst first."""

    FAULT = "fault"
    DOUBT = "doubt"
    REMARK = "remark"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing that is worth a look.

    Args:
        rule: the name of the rule that found it.
        severity: how much it matters.
        items: the items concerned, the one that a mend changes first.
        place: where to look; None of what has no place.
        text: what was found, with its figures, as a sentence.
        mend: what sets it right, where there is one safe way.
        shape: what to mark on the ground; None for the outlines of the items.
    """

    rule: str
    severity: Severity
    items: tuple[ItemId, ...]
    place: Place | None
    text: str
    mend: Edit | None = None
    shape: BaseGeometry | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule of the plan check.

    Args:
        name: as typed: ``overlapping_graves``.
        title: what stands over its findings.
        help: what is found, and from what size on.
        source: where its figures come from.
        find: looks at a plan. It never changes nor refuses anything.
        order: of its findings among those of other rules.
    """

    name: str
    title: str
    help: str
    source: str
    find: Callable[[Plan], Iterable[Finding]]
    order: int = 50


def rules() -> tuple[Rule, ...]:
    """Return every rule there is, in the order of their findings."""
    found = declared("plan_editor.checking.rules", "RULE", Rule)
    return tuple(sorted(found, key=lambda r: (r.order, r.name)))


def rule_named(name: str) -> Rule:
    """Return the rule of a name.

    Raises:
        PlanEditorError: there is none.
    """
    for rule in rules():
        if rule.name == name:
            return rule
    known = ", ".join(r.name for r in rules())
    raise PlanEditorError(f"There is no rule called “{name}”. Take one of: {known}.")


def findings(plan: Plan, only: Rule | None = None) -> Iterator[Finding]:
    """Return what the rules find on a plan, rule by rule, in an order that never changes."""
    for rule in rules() if only is None else (only,):
        yield from rule.find(plan)
