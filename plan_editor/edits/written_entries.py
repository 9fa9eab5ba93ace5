"""Entries of a register as a table has them, and what of it is not taken as it stands."""

from dataclasses import dataclass, field

from plan_editor.edits.corrections import Pairs
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.item import ItemId, new_id

LIES_IN = "grave"


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenEntry:
    """One row of a register.

    Args:
        row: its line in the table, from 1.
        number: of the entry; empty where none is written.
        details: what is written, by the names of details; cells that are empty are left out.
        lies_in: the number of the grave, where the table names it apart from its own words.
        id: that the entry gets, if it is new.
    """

    row: int
    number: str = ""
    details: Pairs = ()
    lies_in: str = ""
    id: ItemId = field(default_factory=new_id)

    @property
    def burial(self) -> BurialDetails:
        """What is written, as the details of a burial."""
        return BurialDetails(**dict(self.details))


@dataclass(frozen=True, slots=True, order=True)
class Doubtful:
    """A cell of which not all can be taken as it stands: its row, the name of its column."""

    row: int
    column: str
    why: str


@dataclass(frozen=True, slots=True, order=True)
class Rejected:
    """A row of which nothing was taken."""

    row: int
    why: str
