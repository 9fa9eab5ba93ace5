"""To which grave an entry of the burial register belongs: proposals with score and reasons.

Fellegi and Sunter, *A Theory for Record Linkage*, Journal of the American Statistical
Association 64 (1969), 1183-1210: what agrees and what does not is weighed by how often it does
so in true pairs and by chance; how often by chance is counted on the plan itself, so that a
rare surname weighs more than a common one.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import cast

from plan_editor.declared import late
from plan_editor.kinds.burial import Belief
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

ACCEPT_FROM = 0.75
"""From this score on proposals may be accepted unseen; set on invented registers, frozen."""

PROBABLE_FROM = 0.5
"""From this score on an accepted entry is probable, below it doubtful. Our own figure."""

LEAST = 0.02
"""What is less likely than that is not proposed."""

MOST = 5
"""So many graves are proposed for one entry at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GraveProposal:
    """A grave that an entry may belong to.

    Args:
        entry: the burial.
        grave: the grave, vault or ashes plot.
        score: how likely it is, from 0 to 1; those of one entry come to 1 at most.
        reasons: what speaks for it and against it, in words.
    """

    entry: ItemId
    grave: ItemId
    score: float
    reasons: tuple[str, ...]

    @property
    def belief(self) -> Belief:
        """How surely it holds. Only a person who has looked says *certain*."""
        return Belief.PROBABLE if self.score >= PROBABLE_FROM else Belief.DOUBTFUL


Stopped = Callable[[], bool]
"""Returns whether nobody waits for the answer any more."""

_find = late(
    "plan_editor.records.matching_made",
    "proposals",
    cast(
        "Callable[[Plan, Stopped], tuple[GraveProposal, ...]]", None
    ),  # only its type is wanted
)


def never() -> bool:
    """Go on to the end."""
    return False


def proposals(plan: Plan, stopped: Stopped = never) -> tuple[GraveProposal, ...]:
    """Return proposals for every entry that has no grave yet, the surest first.

    Where it is stopped, only those of the entries that were reached.

    Cost: about a millisecond an entry, besides one comparison of all names with all stones.
    """
    return _find(plan, stopped)


def best(found: tuple[GraveProposal, ...]) -> tuple[GraveProposal, ...]:
    """Return the surest proposal of each entry, the surest first."""
    seen: dict[ItemId, GraveProposal] = {}
    for one in found:
        seen.setdefault(one.entry, one)
    return tuple(seen.values())


def sure(
    found: tuple[GraveProposal, ...], least: float = ACCEPT_FROM
) -> tuple[GraveProposal, ...]:
    """Return the surest proposal of each entry that has at least this score."""
    return tuple(p for p in best(found) if p.score >= least)
