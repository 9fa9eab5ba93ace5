"""Kinds that are locked: nothing of them is changed by a slip of the hand."""

from collections.abc import Set as AbstractSet

from plan_editor.errors import EditRefused
from plan_editor.plan.edit import Edit, MovesGrid
from plan_editor.plan.plan import Plan


def heed_locks(edit: Edit, plan: Plan, locked: AbstractSet[str]) -> None:
    """Let an edit pass that changes nothing of a locked kind, nor brings any in.

    One that moves the whole plan to another grid passes: it lies on the ground as it lay.

    Raises:
        EditRefused: it would; the text names the kind. Or the edit itself is refused.
    """
    if not locked or isinstance(edit, MovesGrid):
        return
    for change in edit.changes(plan):
        item = change.before or change.after
        if item is not None and item.kind.name in locked and change.before != change.after:
            raise EditRefused(
                f"{item.kind.plural} are locked. Nothing was changed. Unlock them first, in the"
                " Edit menu or in the list of what is shown."
            )
