"""What was done to find the family of an unsafe stone, what still runs, what comes next.

No period of notice before a stone is made safe is laid down for churchyards. 28 days is the
public notice of a faculty and common practice. The day of the notice is not counted, so that
one of the 1st that runs for 28 days ends with the 29th: *Lester v Garland* (1808) 15 Ves 248,
from memory.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from plan_editor.kinds import memorial, owner_contact, tracing
from plan_editor.kinds.inspection import Result
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.tracing import Step, TracingDetails
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.days import days_after, last_day
from plan_editor.records.safety import latest_inspections

TracingStep = Item[TracingDetails]
Owner = Item[OwnerContactDetails]

NOTICE_DAYS = 28
"""Public notice of a faculty; common practice for a notice on a stone."""

RECKONED = (
    "The day of the notice is not counted: 28 days from the 1st end with the 29th"
    " (Lester v Garland, 1808; 28 days is the public notice of a faculty)."
)
RUN = (Step.LETTER, Step.NOTICE_ON_STONE, Step.NOTICE_PUBLIC)
"""The steps after which one waits."""

_WANTING = (Result.IMMEDIATE, Result.MADE_SAFE)


class Next(StrEnum):
    """What comes next, in plain words."""

    SETTLE = "agree with the family what is done, and record it as a work"
    WAIT = "wait for an answer"
    WRITE = "write to the family"
    ENQUIRE = "look for the family: register, stones near by, people who know"
    FIX = "fix a dated notice to the stone"
    PUBLISH = "give notice in public: church door, parish magazine"
    ASK = "ask the archdeacon or the registry what leave it takes to go on"


_RECORDED_THEN = {
    Next.WRITE: Step.LETTER,
    Next.ENQUIRE: Step.ENQUIRY,
    Next.FIX: Step.NOTICE_ON_STONE,
    Next.PUBLISH: Step.NOTICE_PUBLIC,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Trail:
    """What was done to find the family that a stone belongs to.

    Args:
        stone: the stone.
        steps: what was done and came back, the oldest first; what bears no date comes first.
        running: those that still run on the day in question.
        until: the last day of the longest of them, an ISO date; empty where none runs.
        known: whether somebody is recorded who answers for it, or has replied.
        next: what comes next. Keeping people off the stone waits for none of it.
    """

    stone: Item[MemorialDetails]
    steps: tuple[TracingStep, ...]
    running: tuple[TracingStep, ...]
    until: str
    known: bool
    next: Next


def runs_until(step: TracingStep) -> str:
    """Return the last day on which a letter or notice runs, an ISO date; empty of no day.

    A date without a day is taken for the last that it can mean, so that nothing is said to
    have run out too early.
    """
    told = step.details
    if told.step not in RUN or told.days is None or not told.date:
        return ""
    return days_after(last_day(told.date), told.days)


def usual_step(trail: Trail, on: str) -> TracingDetails:
    """Return the step that is most likely recorded next, on an ISO date; else a reply."""
    step = _RECORDED_THEN.get(trail.next, Step.REPLY)
    return TracingDetails(step=step, date=on, days=NOTICE_DAYS if step in RUN else None)


def trails(plan: Plan, on: str) -> tuple[Trail, ...]:
    """Return the trail of every stone that is unsafe, or only made safe, on an ISO date.

    A stone that was laid flat or held up for the time being still wants its family.
    """
    wanting = found_unsafe(plan, on)
    stones = (m for m in plan.of(memorial.KIND) if m.id in wanting)
    return tuple(trail_of(plan, stone, on) for stone in stones)


def found_unsafe(plan: Plan, on: str) -> frozenset[ItemId]:
    """Return what is unsafe, or only made safe for the time being, on an ISO date."""
    latest = latest_inspections(plan, on=on)
    return frozenset(t for t, i in latest.items() if i.details.result in _WANTING)


def trail_of(plan: Plan, stone: Item[MemorialDetails], on: str) -> Trail:
    """Return what was done for a stone up to an ISO date."""
    steps = steps_of(plan, stone.id, on)
    running = tuple(s for s in steps if runs_until(s) >= on)
    replied = any(s.details.step is Step.REPLY for s in steps)
    known = replied or bool(owners_of(plan, stone.id))
    return Trail(
        stone=stone,
        steps=steps,
        running=running,
        until=max(map(runs_until, running), default=""),
        known=known,
        next=_next(steps, waiting=bool(running), known=known),
    )


def steps_of(plan: Plan, thing: ItemId, on: str = "") -> tuple[TracingStep, ...]:
    """Return the steps for a stone or a grave, the oldest first; empty date for no end.

    What was done for the grave that a stone stands on was done for the stone.
    """
    about = _with_its_grave(plan, thing)
    found = (s for s in plan.of(tracing.KIND) if s.details.target in about)
    kept = (s for s in found if not on or s.details.date <= on)
    return tuple(sorted(kept, key=lambda s: s.details.date))


def owners_of(plan: Plan, thing: ItemId) -> tuple[Owner, ...]:
    """Return who is recorded as answering for a stone or a grave. They are living people."""
    about = _with_its_grave(plan, thing)
    people = plan.of(owner_contact.KIND)
    return tuple(p for p in people if {p.details.memorial, p.details.grave} & about)


def _with_its_grave(plan: Plan, thing: ItemId) -> frozenset[ItemId]:
    found = plan.items.get(thing)
    if found is None or found.kind != memorial.KIND or found.details.grave is None:
        return frozenset({thing})
    return frozenset({thing, found.details.grave})


def _next(steps: Iterable[TracingStep], *, waiting: bool, known: bool) -> Next:
    done = {s.details.step for s in steps}
    if Step.REPLY in done:
        return Next.SETTLE
    if waiting:
        return Next.WAIT
    if known and Step.LETTER not in done:
        return Next.WRITE
    if not done:
        return Next.ENQUIRE
    if Step.NOTICE_ON_STONE not in done:
        return Next.FIX
    return Next.ASK if Step.NOTICE_PUBLIC in done else Next.PUBLISH
