"""The programme of works: what is wanted by priority, what it comes to, whose leave it takes.

Lists A and B, consents and faculties are those of the Faculty Jurisdiction Rules 2015. Which of
them a piece of work needs is for the archdeacon and the registry to say; here stands what the
parish recorded.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import accumulate

from plan_editor.kinds import quote, works
from plan_editor.kinds.quote import QuoteDetails
from plan_editor.kinds.works import Leave, Priority, Progress, WorksDetails
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan
from plan_editor.records.days import last_day

Work = Item[WorksDetails]
Quote = Item[QuoteDetails]


class Figure(StrEnum):
    """Where the figure of a piece of work comes from."""

    COST = "cost"
    ACCEPTED = "accepted quote"
    LOWEST = "lowest quote"
    ESTIMATE = "estimate"
    NONE = "no figure"


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkLine:
    """One piece of work in the programme.

    Args:
        work: the work.
        amount: what it comes to, in pounds; 0 where nobody has said.
        figure: where that comes from.
        running: all amounts down to this line.
        quotes: how many quotes there are for it, those that hold no longer as well.
    """

    work: Work
    amount: float
    figure: Figure
    running: float
    quotes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """What the works of one priority come to, in pounds; None for those without a priority."""

    priority: Priority | None
    works: int
    amount: float
    without_figure: int


_PRIORITIES: tuple[Priority | None, ...] = (*Priority, None)
_WITHOUT = {Leave.NONE: "none needed", Leave.LIST_A: "List A, on its conditions"}
_CALLED = {Leave.LIST_B: "List B", Leave.FACULTY: "Faculty"}
_OVER = (Progress.DONE, Progress.DROPPED)


def programme(plan: Plan, on: str) -> tuple[WorkLine, ...]:
    """Return the works that are still wanted, the most pressing first, with running totals.

    What came due first goes first among those of one priority.

    Args:
        plan: the plan.
        on: ISO date on which quotes must still hold.
    """
    wanted = [w for w in plan.of(works.KIND) if not _over(w)]
    return _with_totals(plan, sorted(wanted, key=_pressing), on)


def works_done(plan: Plan, on: str) -> tuple[WorkLine, ...]:
    """Return the works that are done, the latest first, with running totals of their cost."""
    done = [w for w in plan.of(works.KIND) if w.details.progress is Progress.DONE]
    return _with_totals(plan, sorted(done, key=lambda w: w.details.done, reverse=True), on)


def five_yearly(plan: Plan, on: str) -> tuple[WorkLine, ...]:
    """Return the items of the architect's five-yearly report, by their numbers, done or not."""
    told = [w for w in plan.of(works.KIND) if w.details.item_no]
    return _with_totals(plan, sorted(told, key=lambda w: natural(w.details.item_no)), on)


def sums(lines: Iterable[WorkLine]) -> tuple[Sum, ...]:
    """Return what the works of each priority that occurs come to, the most pressing first."""
    kept = tuple(lines)
    return tuple(
        _sum(priority, of_it)
        for priority in _PRIORITIES
        if (of_it := [x for x in kept if x.work.details.priority is priority])
    )


def leave_told(work: Work) -> str:
    """Return how it stands with the leave for a piece of work, in a few words."""
    told = work.details
    if told.leave_needed in _WITHOUT:
        return _WITHOUT[told.leave_needed]
    named = _CALLED.get(told.leave_needed, "Leave")
    if told.leave_given:
        return f"{named} given {told.leave_given}"
    if told.leave_needed is Leave.UNKNOWN:
        return "ask what leave it takes"
    asked = told.progress is Progress.LEAVE_ASKED
    return f"{named}: {'asked for' if asked else 'not asked for yet'}"


def lacks_leave(work: Work) -> bool:
    """Return whether work is ordered or done though no leave for it is recorded."""
    told = work.details
    needs = told.leave_needed not in _WITHOUT
    begun = told.progress in (Progress.ORDERED, Progress.DONE)
    return needs and begun and not told.leave_given


def _over(work: Work) -> bool:
    return work.details.progress in _OVER


def _pressing(work: Work) -> tuple[int, str, list[tuple[str, int]]]:
    told = work.details
    # without a day comes after every day
    due = last_day(told.due) or "9999-12-31"
    return _PRIORITIES.index(told.priority), due, natural(told.item_no)


def _with_totals(plan: Plan, ordered: Sequence[Work], on: str) -> tuple[WorkLine, ...]:
    quotes: dict[ItemId, list[Quote]] = {}
    for found in plan.of(quote.KIND):
        if found.details.works is not None:
            quotes.setdefault(found.details.works, []).append(found)
    figures = [_figure(work, quotes.get(work.id, ()), on) for work in ordered]
    running = accumulate(amount for amount, _ in figures)
    return tuple(
        WorkLine(
            work=work,
            amount=amount,
            figure=figure,
            running=total,
            quotes=len(quotes.get(work.id, ())),
        )
        for work, (amount, figure), total in zip(ordered, figures, running, strict=True)
    )


def _figure(work: Work, quotes: Iterable[Quote], on: str) -> tuple[float, Figure]:
    """Return the best figure there is: cost, accepted quote, lowest that holds, estimate."""
    told = work.details
    if told.progress is Progress.DONE and told.cost is not None:
        return told.cost, Figure.COST
    priced = [(q.details.amount, q.details) for q in quotes if q.details.amount is not None]
    if accepted := [a for a, q in priced if q.accepted]:
        return sum(accepted), Figure.ACCEPTED
    if holding := [a for a, q in priced if not q.valid_until or last_day(q.valid_until) >= on]:
        return min(holding), Figure.LOWEST
    return (0.0, Figure.NONE) if told.estimate is None else (told.estimate, Figure.ESTIMATE)


def _sum(priority: Priority | None, lines: Sequence[WorkLine]) -> Sum:
    return Sum(
        priority=priority,
        works=len(lines),
        amount=sum(x.amount for x in lines),
        without_figure=sum(x.figure is Figure.NONE for x in lines),
    )
