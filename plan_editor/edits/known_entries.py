"""The entries that a plan holds, among which those of a table are looked for."""

from collections import defaultdict
from collections.abc import Iterator
from typing import Any

from plan_editor.edits.corrections import NUMBER
from plan_editor.edits.written_entries import WrittenEntry
from plan_editor.kinds import burial, correction, removal
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import burial_kinds
from plan_editor.plan.plan import Plan

_SAME_ROW = "row {} is that entry already"

Doubts = tuple[tuple[str, str], ...]
"""Names of columns, each with what is doubtful there."""


class KnownEntries:
    """The entries that a plan holds, and the rows that were met so far."""

    def __init__(self, plan: Plan) -> None:
        self._numbered: dict[str, list[Item[BurialDetails]]] = defaultdict(list)
        self._named: dict[str, list[Item[BurialDetails]]] = defaultdict(list)
        self._rows: dict[str, int] = {}
        self.places: dict[str, list[ItemId]] = defaultdict(list)
        self.corrected = {
            (c.details.burial, c.details.column, c.details.was)
            for c in plan.of(correction.KIND)
        }
        self.moved = {r.details.burial for r in plan.of(removal.KIND)}
        for item in plan.of(burial.KIND):
            if item.number:
                self._numbered[spoken(item.number)].append(item)
            self._named[_name(item.details)].append(item)
        for kind in burial_kinds():
            for place in plan.of(kind):
                if number := spoken(place.number):
                    self.places[number].append(place.id)

    def find(self, entry: WrittenEntry) -> tuple[Item[BurialDetails] | None, str, Doubts]:
        """Return the entry on the plan, why the row is not taken, and doubts."""
        if first := next((self._rows[k] for k in _keys(entry) if k in self._rows), 0):
            return None, _SAME_ROW.format(first), ()
        if entry.number:
            return self._by_number(entry)
        return self._by_name(entry)

    def seen(self, entry: WrittenEntry, there: Item[BurialDetails] | None) -> None:
        """Remember a row, so that none after it is taken for the same entry."""
        named = f"name {_name(entry.burial)}" if entry.burial.buried else ""
        for key in (*_keys(entry), *filter(None, (named, there.id if there else ""))):
            self._rows.setdefault(key, entry.row)

    def _by_number(self, entry: WrittenEntry) -> tuple[Item[BurialDetails] | None, str, Doubts]:
        alike = self._numbered.get(spoken(entry.number), [])
        book = dict(entry.details).get("book", "")
        if book or len(alike) > 1:
            alike = [i for i in alike if spoken(i.details.book) == spoken(book)]
        if len(alike) > 1:
            return None, f"the plan has {len(alike)} entries No. {entry.number}", ()
        if alike:
            return self._one(entry, alike[0])
        there = self._named.get(_name(entry.burial), [])
        if len(there) == 1 and not there[0].number:
            return self._one(entry, there[0])
        if there and entry.burial.buried:
            why = f"the plan has another entry of that name and date: {there[0].called()}"
            return None, "", ((NUMBER, why),)
        return None, "", ()

    def _by_name(self, entry: WrittenEntry) -> tuple[Item[BurialDetails] | None, str, Doubts]:
        there = self._named.get(_name(entry.burial), [])
        if len(there) > 1:
            return None, f"the plan has {len(there)} entries of that name and date", ()
        return self._one(entry, there[0]) if there else (None, "", ())

    def _one(
        self, entry: WrittenEntry, there: Item[BurialDetails]
    ) -> tuple[Item[BurialDetails] | None, str, Doubts]:
        if there.id in self._rows:
            return None, _SAME_ROW.format(self._rows[there.id]), ()
        if _is_other(there.details, dict(entry.details)):
            why = (
                f"No. {entry.number} is another burial on the plan, of other name and date; say"
                " which register it is from"
            )
            return None, why, ()
        return there, "", ()


def _keys(entry: WrittenEntry) -> Iterator[str]:
    """Return what no other row may share: book and number, else name and date."""
    told = entry.burial
    if entry.number:
        yield f"number {spoken(told.book)}\n{spoken(entry.number)}"
    elif told.buried:
        yield f"name {_name(told)}"


def _name(details: BurialDetails) -> str:
    return "\n".join(map(_letters, (details.surname, details.forenames, details.buried)))


def _letters(text: str) -> str:
    """Return the letters and figures of a text alone: dashes and points tell nobody apart."""
    return "".join(c for c in text.casefold() if c.isalnum())


def _is_other(there: BurialDetails, told: dict[str, Any]) -> bool:
    """Return whether both name and date of a burial say something else."""
    apart = [
        bool(old) and bool(new) and not (new.startswith(old) or old.startswith(new))
        for old, new in (
            (spoken(there.surname), spoken(told.get("surname", ""))),
            (there.buried, told.get("buried", "")),
        )
    ]
    return all(apart)
