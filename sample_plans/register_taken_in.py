"""The register taken in from its table, and matched with the ground as far as that is sure."""

from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

from burial_register import CLAIMS, FILE, register_file, written
from story import id_of

from plan_editor.commands.register_files import look_at_register, ready_register
from plan_editor.edits.burial_register import TakeInRegister
from plan_editor.edits.matches import AcceptMatches, Match
from plan_editor.edits.written_entries import WrittenEntry
from plan_editor.kinds import burial, grave
from plan_editor.kinds.burial import Belief
from plan_editor.plan.change import Change
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.records.matching import proposals, sure

DAY = "2026-05-13"


def taken_in_register() -> TakeInRegister:
    """Return the edit that takes the whole table in."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / FILE
        path.write_bytes(register_file())
        ready = ready_register(plan_of(()), look_at_register(path), on=DAY)
    if ready.edit is None:
        raise RuntimeError("nothing of the register is taken in")
    return replace(ready.edit, entries=tuple(map(_always_the_same, ready.edit.entries)))


@dataclass(frozen=True, slots=True)
class MatchWhatIsSure:
    """Match every entry whose grave is sure enough to be accepted unseen."""

    title: str = "Match entries with the ground"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the entries as they are and as they come."""
        found = sure(proposals(plan))
        matches = (
            Match(entry=p.entry, grave=p.grave, belief=Belief.PROBABLE)
            for p in sorted(found, key=lambda p: p.entry)
        )
        return AcceptMatches(tuple(matches)).changes(plan)


def as_the_book_has_it() -> AcceptMatches:
    """Return the edit that puts the entries that cannot be where the register has them."""
    rows = {(w.surname, w.buried): row for row, w in enumerate(written(), 2)}
    return AcceptMatches(
        tuple(
            Match(
                entry=id_of(burial.KIND, str(rows[surname, day])),
                grave=id_of(grave.KIND, where),
                belief=Belief.DOUBTFUL,
            )
            for surname, _, day, _, where in CLAIMS
        )
    )


def _always_the_same(entry: WrittenEntry) -> WrittenEntry:
    return replace(entry, id=id_of(burial.KIND, str(entry.row)))
