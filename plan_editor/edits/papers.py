"""The edit that adds photographs and papers to a thing."""

from dataclasses import dataclass, replace
from typing import Any

from plan_editor.edits.chosen import called, chosen
from plan_editor.errors import EditRefused
from plan_editor.kinds import paper
from plan_editor.kinds.paper import PaperDetails, Sort
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.plan import Plan

SORTS = tuple(Sort)
"""What a paper may be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPapers:
    """Add photographs and papers to a thing.

    Args:
        target: the thing.
        papers: items whose bytes are kept already; of what they are is filled in.
    """

    target: ItemId
    papers: tuple[Item[PaperDetails], ...]
    called: str = "a thing"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        many = len(self.papers)
        return f"Add {'a paper' if many == 1 else f'{many} papers'} to {self.called}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the papers as they come.

        Raises:
            EditRefused: the thing is not on the plan, or is a paper itself.
        """
        (thing,) = chosen(plan, (self.target,))
        if thing.kind == paper.KIND:
            raise EditRefused(
                "A paper cannot belong to a paper. Nothing was changed. Choose what it is of."
            )
        return tuple(Change(None, _of(p, thing.id)) for p in self.papers)


def add_papers(plan: Plan, target: ItemId, papers: tuple[Item[PaperDetails], ...]) -> AddPapers:
    """Return the edit that adds papers to a thing, which its title calls by its number."""
    there = (plan.items[i] for i in (target,) if i in plan.items)
    return AddPapers(target=target, papers=papers, called=called(there))


def paper_item(digest: str, **told: Any) -> Item[PaperDetails]:
    """Return a paper whose bytes are kept under a digest.

    Args:
        digest: SHA-256, in hexadecimal.
        told: other details by their names; see ``PaperDetails``.
    """
    return new_item(paper.KIND, details=PaperDetails(digest=digest, **told))


def _of(item: Item[PaperDetails], target: ItemId) -> Item[PaperDetails]:
    return replace(item, details=replace(item.details, target=target))
