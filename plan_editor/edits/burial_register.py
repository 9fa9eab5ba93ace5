"""A register taken in: new entries, and those that the plan holds brought up to it."""

from dataclasses import dataclass

from plan_editor.edits.corrections import Reason, corrections
from plan_editor.edits.entries_compared import compared
from plan_editor.edits.written_entries import WrittenEntry
from plan_editor.plan.change import Change
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeInRegister:
    """Take in the entries of a table; the same once more changes nothing.

    Args:
        entries: the rows.
        source: the table, as the user would say it.
        date: the day on which it is taken in, in ISO 8601.
    """

    entries: tuple[WrittenEntry, ...]
    source: str = ""
    date: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        count = len(self.entries)
        told = "1 entry" if count == 1 else f"{count:,} entries"
        return f"Take in {told} of the register {' '.join(self.source.split())}".strip()

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return what is new, what says more than before, and corrections of what said else."""
        found = compared(plan, self.entries)
        reason = Reason(date=self.date, why=f"As {self.source or 'the register'} has it.")
        made = [Change(None, m.after) for m in found.new]
        for before, met in found.updated:
            made.append(Change(before, met.after))
            made += corrections(plan, before, met.after, reason, met.entry.id)
        return tuple(made)
