"""Remains that were moved: what is asked, and the edit that records it."""

from collections.abc import Mapping

from plan_editor.commands.correcting import name_of
from plan_editor.commands.forms import read
from plan_editor.edits.removals import ASKED, MoveRemains
from plan_editor.errors import CannotUse
from plan_editor.plan.detail import Detail
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId


def removal_details() -> tuple[Detail, ...]:
    """Return what is asked of remains that were moved."""
    return ASKED


def move_remains(document: Document, entry: ItemId, typed: Mapping[str, str]) -> MoveRemains:
    """Return the edit that records a removal.

    Args:
        document: that holds the entry.
        entry: of the register.
        typed: what stands in each field, by the name of its detail.

    Raises:
        CannotUse: what was typed is no value for its field, or the entry is gone.
    """
    there = document.plan.items.get(entry)
    if there is None:
        raise CannotUse("The entry is no longer on the plan. Nothing was recorded.")
    values = {d.name: read(d, typed.get(d.name, ""), document) for d in ASKED}
    return MoveRemains(burial=entry, called=name_of(there), **values)
