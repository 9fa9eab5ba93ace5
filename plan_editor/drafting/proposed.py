"""How far the proposals are gone through: which is in hand, as what it would be drawn."""

from dataclasses import dataclass, replace
from typing import Any

from plan_editor.drafting.basis import traced
from plan_editor.drafting.row_wish import new_ones, next_free
from plan_editor.edits.numbering import going_on, rule_from
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import head_of
from plan_editor.ground.proposal_rows import ProposedRow, numbers_before
from plan_editor.ground.proposals import Proposal, kind_proposed, new_proposals
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """The proposals in their rows, those of them that wait, and the one that is in hand.

    Args:
        rows: all of them, in the order in which they are gone through.
        left_out: those that are not to be drawn.
        waiting: those that are not on the plan, in the same order; left-out ones too.
        known: the revision of the plan of which that holds, and how many of the kind it has.
        at: the one in hand; None where no more are to come.
        place: where it would lie, once it was set right; None as it was found.
        offered: the number that follows in its row, or else the first of a further row.
        step: from that number to the next along the row.
        typed: the number that was typed for it; None where none was.
    """

    rows: tuple[ProposedRow, ...] = ()
    left_out: frozenset[Proposal] = frozenset()
    waiting: tuple[Proposal, ...] = ()
    known: tuple[int, int] | None = None
    at: Proposal | None = None
    place: Rectangle | None = None
    offered: str = ""
    step: int = 1
    typed: str | None = None

    @property
    def kind(self) -> Kind:
        """What they would be."""
        return kind_proposed(self.rows[0][0] if self.rows else None)

    @property
    def open(self) -> tuple[Proposal, ...]:
        """Those that are still to be gone through."""
        out = self.left_out
        return tuple(p for p in self.waiting if p not in out) if out else self.waiting

    @property
    def rectangle(self) -> Rectangle | None:
        """Where the one in hand would lie."""
        return self.place or (self.at.rectangle if self.at is not None else None)

    @property
    def number(self) -> str:
        """The number of the one in hand."""
        return self.offered if self.typed is None else self.typed

    def on(self, plan: Plan) -> "Course":
        """Return it as it stands on a plan; worked out anew where that has changed."""
        known = plan.revision, plan.count(self.kind)
        if known == self.known:
            return self
        every = [p for row in self.rows for p in row]
        new = set(new_proposals(every, plan, self.kind))
        course = replace(self, known=known, waiting=tuple(p for p in every if p in new))
        if course.at in new:
            return course.offering(plan)
        return course.beyond(course.at, plan)

    def to(self, proposal: Proposal | None, plan: Plan) -> "Course":
        """Return it with another one in hand."""
        return replace(self, at=proposal, place=None, typed=None).offering(plan)

    def beyond(self, proposal: Proposal | None, plan: Plan) -> "Course":
        """Return it with the next one in hand that is open, after the last the first again."""
        return self.to(self._next(proposal), plan)

    def before(self, plan: Plan) -> "Course":
        """Return it with the one before in hand, also where that was left out."""
        every = [p for row in self.rows for p in row]
        place = every.index(self.at) if self.at is not None else len(every)
        waits = set(self.waiting)
        earlier = [p for p in every[:place] if p in waits]
        return self.to(earlier[-1], plan) if earlier else self

    def without(self, plan: Plan) -> "Course":
        """Return it with the one in hand left out."""
        if self.at is None:
            return self
        return replace(self, left_out=self.left_out | {self.at}).beyond(self.at, plan)

    def offering(self, plan: Plan) -> "Course":
        """Return it with the number that follows for the one in hand."""
        if self.rectangle is None:
            return replace(self, offered="", step=1)
        rule = going_on(numbers_before(plan, self.kind, self.rectangle))
        if rule is not None and rule.first >= 1:
            number = rule.number(0)
            if all(i.number != number for i in plan.of(self.kind)):
                return replace(self, offered=number, step=rule.step)
        offered = next_free(plan, self.kind, head_of(self.rectangle))
        return replace(self, offered=offered, step=1)

    def its_row(self) -> tuple[Proposal, ...]:
        """Return the one in hand and what is open beside it, in order along their row."""
        row: ProposedRow = next((r for r in self.rows if self.at in r), ())
        mine = set(row).intersection(self.open) | {self.at}
        return tuple(p for p in row if p in mine)

    def items(self, plan: Plan, proposals: tuple[Proposal, ...]) -> tuple[Item[Any], ...]:
        """Return some of one row as they would come onto the plan, the one in hand among them.

        Those before the one in hand are numbered back from it, as far as that goes.
        """
        places = tuple(self._place_of(p) for p in proposals)
        made = new_ones(plan, self.kind, places, self._numbers(proposals))
        return tuple(
            replace(item, basis=traced(plan, p.base_plan))
            for item, p in zip(made, proposals, strict=True)
        )

    def accepted(self, plan: Plan, proposals: tuple[Proposal, ...], last: str) -> "Course":
        """Return it after some were drawn, the last of them with that number."""
        gone = set(proposals)
        course = replace(
            self,
            left_out=self.left_out - gone,
            waiting=tuple(p for p in self.waiting if p not in gone),
        )
        following = course.beyond(proposals[-1], plan)
        if following.rectangle is None:
            return following
        row = next(r for r in self.rows if proposals[-1] in r)
        rule = rule_from(last)
        if rule is not None and following.at in row and rule.first + self.step >= 1:
            number = replace(rule, step=self.step).number(1)
            return replace(following, offered=number, step=self.step)
        place = head_of(following.rectangle)
        return replace(following, offered=next_free(plan, self.kind, place, (last,)))

    def _next(self, proposal: Proposal | None) -> Proposal | None:
        every = [p for row in self.rows for p in row]
        place = every.index(proposal) + 1 if proposal is not None else 0
        waits = set(self.open)
        return next((p for p in (*every[place:], *every[:place]) if p in waits), None)

    def _place_of(self, proposal: Proposal) -> Rectangle:
        moved = self.place if proposal == self.at else None
        return moved or proposal.rectangle

    def _numbers(self, proposals: tuple[Proposal, ...]) -> tuple[str, ...]:
        rule = rule_from(self.number)
        here = next(n for n, p in enumerate(proposals) if p == self.at)
        if rule is None:
            return tuple(self.number if n == here else "" for n in range(len(proposals)))
        counts = [rule.first + (n - here) * self.step for n in range(len(proposals))]
        return tuple(replace(rule, first=c).number(0) if c >= 1 else "" for c in counts)
