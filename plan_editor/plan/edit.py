"""What an edit is: a named wish that says which items are replaced by which."""

from typing import Protocol, runtime_checkable

from plan_editor.plan.change import Change
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.grid import Grid


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


@runtime_checkable
class MovesGrid(Edit, Protocol):
    """An edit after which the plan lies in another grid; its changes are told in that one.

    Rare, and all-embracing: what has a place and is not among the changes keeps its metres
    about the plan's origin, and so lies where the new grid puts them.
    """

    def grid_after(self, plan: Plan) -> Grid:
        """Return the grid in which the plan will lie.

        Raises:
            EditRefused: the plan cannot take it; the text says why.
        """
        ...


@runtime_checkable
class TakesBack(Edit, Protocol):
    """An edit that takes back what an earlier entry of the log did, though others followed."""

    @property
    def takes_back(self) -> int:
        """The number of that entry."""
        ...
