"""The edit that sets right what the plan check found: other edits, one after another."""

from dataclasses import dataclass

from plan_editor.plan.change import Change
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """Make some edits one after another, as one.

    Args:
        title: as the undo menu says it.
        edits: none of them moves the plan to another grid.
    """

    title: str
    edits: tuple[Edit, ...]

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return each item as it was before the first and as it is after the last.

        Raises:
            EditRefused: one of them cannot be made after those before it.
        """
        whole: dict[ItemId, Change] = {}
        for edit in self.edits:
            made = edit.changes(plan)
            plan = plan.after(made)
            for change in made:
                first = whole[change.id].before if change.id in whole else change.before
                whole[change.id] = Change(first, change.after)
        return tuple(c for c in whole.values() if c.before is not None or c.after is not None)
