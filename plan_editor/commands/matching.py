"""Register and ground: what is proposed, how it is accepted, and what is left to look into."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from plan_editor.edits.matches import AcceptMatches, Match
from plan_editor.plan.plan import Plan
from plan_editor.records.matching import GraveProposal, Stopped, best, proposals, sure
from plan_editor.records.work_list import Sort, Task, entry_called, work_list

CAUTION = (
    "A score says how likely a grave is by what register and stones say. Look at the ground"
    " before anything is dug, reserved or told to a family."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """How register and ground stand to one another.

    Args:
        proposals: the likeliest first, several for an entry where several graves are likely.
        tasks: what is to be looked into.
    """

    proposals: tuple[GraveProposal, ...]
    tasks: tuple[Task, ...]

    @property
    def best(self) -> tuple[GraveProposal, ...]:
        """The likeliest grave of each entry."""
        return best(self.proposals)

    def sure(self, least: float) -> tuple[GraveProposal, ...]:
        """Return the likeliest grave of each entry where it has at least this score."""
        return sure(self.proposals, least)


def compare(plan: Plan) -> Compared:
    """Return how register and ground stand to one another."""
    return Compared(proposals=proposals(plan), tasks=work_list(plan))


def compare_or_stop(plan: Plan, stopped: Stopped) -> Compared | None:
    """Return how register and ground stand to one another; None where it was stopped."""
    found = proposals(plan, stopped)
    return None if stopped() else Compared(proposals=found, tasks=work_list(plan))


def accepted(chosen: Iterable[GraveProposal]) -> AcceptMatches:
    """Return the edit that accepts proposals, probable or doubtful as their score is."""
    return AcceptMatches(
        tuple(Match(entry=p.entry, grave=p.grave, belief=p.belief) for p in chosen)
    )


def counted(tasks: Sequence[Task]) -> tuple[tuple[Sort, int], ...]:
    """Return how many tasks there are of each sort that there is."""
    counts = Counter(t.sort for t in tasks)
    return tuple((sort, counts[sort]) for sort in Sort if counts[sort])


def row_of(plan: Plan, proposal: GraveProposal) -> tuple[str, str, str]:
    """Return a proposal as a row: the score, the entry, the grave; empty where one is gone."""
    entry, lies_in = plan.items.get(proposal.entry), plan.items.get(proposal.grave)
    if entry is None or lies_in is None:
        return ("", "", "")
    called = entry_called(entry).removeprefix("Entry").lstrip(" ,")
    return (score(proposal), called, lies_in.called())


def score(proposal: GraveProposal) -> str:
    """Return a score as it is read: rounded down, so that 0.996 is not called certain."""
    return f"{int(proposal.score * 100) / 100:.2f}"


def why(proposal: GraveProposal) -> str:
    """Return what speaks for a proposal and against it, as a sentence."""
    told = "; ".join(proposal.reasons)
    return f"{told[:1].upper()}{told[1:]}." if told else ""
