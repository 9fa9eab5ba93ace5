"""What an edit is: a named wish that says which items are replaced by which."""

from typing import Protocol

from plan_editor.plan.change import Change
from plan_editor.plan.plan import Plan


class Edit(Protocol):
    """One thing that the user meant to do.

    A pure function of the plan: it does nothing, it says what would be done.
    """

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        ...

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the items before and after.

        Raises:
            EditRefused: the plan cannot take it; the text says why.
        """
        ...
