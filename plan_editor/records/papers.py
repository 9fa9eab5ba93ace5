"""The photographs and papers of a thing."""

from plan_editor.kinds import paper
from plan_editor.kinds.paper import PaperDetails, Sort
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

Paper = Item[PaperDetails]


def papers_of(plan: Plan, thing: ItemId) -> tuple[Paper, ...]:
    """Return the photographs and papers of a thing, the newest first."""
    found = (p for p in plan.of(paper.KIND) if p.details.target == thing)
    return tuple(sorted(found, key=lambda p: (p.details.date, p.id), reverse=True))


def is_photograph(item: Paper) -> bool:
    """Return whether it is a picture."""
    return item.details.sort is Sort.PHOTOGRAPH and item.details.content_type == "image/jpeg"
