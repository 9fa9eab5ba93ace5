"""Letters and notices to families: the last day of each that is still open."""

from collections.abc import Sequence

from plan_editor.kinds import tracing
from plan_editor.kinds.tracing import Step
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.records.days import first_day
from plan_editor.records.due import Due, SortOfDue
from plan_editor.records.tracing import (
    RECKONED,
    RUN,
    TracingStep,
    found_unsafe,
    runs_until,
    steps_of,
)

_SORT = "notices"
_CALLED = {
    Step.LETTER: "letter",
    Step.NOTICE_ON_STONE: "notice on the stone",
    Step.NOTICE_PUBLIC: "notice in public",
}
_ANSWERS = (Step.REPLY, Step.NO_REPLY)


def find(plan: Plan, on: str) -> tuple[Due, ...]:
    """Return the last day of every letter and notice that nothing has come after.

    One that ran out is told only while its stone is unsafe or no more than made safe.
    """
    of_danger = found_unsafe(plan, on)
    things = dict.fromkeys(s.details.target for s in plan.of(tracing.KIND))
    return tuple(
        _due(plan, step, thing)
        for thing in things
        if thing is not None
        for step in _open(steps_of(plan, thing))
        if step.details.target == thing and (runs_until(step) >= on or thing in of_danger)
    )


def _open(steps: Sequence[TracingStep]) -> list[TracingStep]:
    """Return those with a last day that neither an answer nor a further step has ended."""
    return [s for n, s in enumerate(steps) if runs_until(s) and not _ended(s, steps[n + 1 :])]


def _ended(step: TracingStep, later: Sequence[TracingStep]) -> bool:
    until = runs_until(step)
    told = (s.details for s in later)
    return any(
        d.step in _ANSWERS or (d.step in RUN and first_day(d.date) > until) for d in told
    )


def _due(plan: Plan, step: TracingStep, thing: ItemId) -> Due:
    called = plan.items[thing].called()
    return Due(
        sort=_SORT,
        key=step.id,
        date=runs_until(step),
        title=f"{called}: {_CALLED[step.details.step]} ends",
        says=f"It is of {step.details.date} and runs for {step.details.days} days. See what"
        " came back, and what comes next.",
        item=thing,
    )


DUE = SortOfDue(
    name=_SORT,
    title="Letters and notices",
    task=True,
    find=find,
    source=RECKONED,
)
