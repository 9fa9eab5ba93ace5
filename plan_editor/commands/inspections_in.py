"""A table of inspections: what would become of it, and the edit that takes it in."""

from dataclasses import dataclass
from pathlib import Path

from plan_editor.commands.today import today
from plan_editor.edits.inspections_in import TakeInInspections, compared
from plan_editor.edits.written_entries import Doubtful, Rejected
from plan_editor.exchange.inspections import inspections_of
from plan_editor.exchange.registers import read_register_table
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan

SHOWN = 8
"""So many lines of what is worth a look are shown at once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyInspections:
    """What becomes of a table on a plan.

    Args:
        read: how many rows it has.
        new: the inspections that come.
        known: how many rows the plan holds already.
        doubtful, rejected: cells worth a look, and rows that are not taken, in their order.
        edit: takes them in; None where nothing is new.
    """

    read: int
    new: tuple[ItemId, ...]
    known: int
    doubtful: tuple[Doubtful, ...]
    rejected: tuple[Rejected, ...]
    edit: Edit | None

    @property
    def told(self) -> str:
        """In a sentence what becomes of it."""
        rows = "1 row" if self.read == 1 else f"{self.read:,} rows"
        cells = f"{len(self.doubtful):,} doubtful"
        return (
            f"{rows} read: {len(self.new):,} new, {self.known:,} known already,"
            f" {len(self.rejected):,} not taken; {cells}."
        )

    @property
    def worth_a_look(self) -> tuple[str, ...]:
        """The first rows that are not taken, and the first doubtful cells, a sentence each."""
        lines = [f"Line {r.row} is not taken: {r.why}." for r in self.rejected]
        lines += [f"Line {d.row}, {d.column}: {d.why}." for d in self.doubtful]
        more = len(lines) - SHOWN
        return (*lines[:SHOWN], *((f"and {more:,} more",) if more > 0 else ()))


def ready_inspections(plan: Plan, path: Path) -> ReadyInspections:
    """Return what becomes of a table of inspections.

    Raises:
        CannotRead: it is no table, or its columns are not named.
    """
    written = inspections_of(read_register_table(path), today())
    found = compared(plan, written.found)
    new = {i.id for i in found.new}
    taken = tuple(w for w in written.found if w.id in new)
    left = {r.row for r in found.rejected}
    doubtful = (d for d in written.doubtful if d.row not in left)
    edit = TakeInInspections(found=taken, source=f"from {path.name}")
    return ReadyInspections(
        read=written.read,
        new=tuple(i.id for i in found.new),
        known=found.known,
        doubtful=tuple(sorted((*doubtful, *found.doubtful))),
        rejected=tuple(sorted((*written.rejected, *found.rejected))),
        edit=edit if found.new else None,
    )
