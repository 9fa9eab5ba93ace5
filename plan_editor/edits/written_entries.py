"""Entries of a register as a table has them, compared with those that the plan holds."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from plan_editor.edits.corrections import NUMBER, TITLES, Pairs, as_text, reading, with_columns
from plan_editor.kinds import burial, correction, removal
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.kind import burial_kinds
from plan_editor.plan.plan import Plan

LIES_IN = "grave"
REMARKS = "remarks"
_SAME_ROW = "row {} is that entry already"


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """A row that is taken: what is on the plan, if anything, and what comes of it."""

    entry: WrittenEntry
    before: Item[Any] | None
    after: Item[Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """What becomes of entries on a plan.

    Args:
        met: the rows that are taken, unchanged ones among them.
        doubtful: cells that were not wholly taken, and why.
        rejected: rows that were not taken, and why.
    """

    met: tuple[Met, ...]
    doubtful: tuple[Doubtful, ...]
    rejected: tuple[Rejected, ...]

    @property
    def new(self) -> tuple[Met, ...]:
        """The rows that are new to the plan."""
        return tuple(m for m in self.met if m.before is None)

    @property
    def updated(self) -> tuple[tuple[Item[Any], Met], ...]:
        """The entries of which rows say more or something else, each with its row."""
        return tuple((m.before, m) for m in self.met if m.before and m.before != m.after)


def compared(plan: Plan, entries: Sequence[WrittenEntry]) -> Compared:
    """Return what becomes of entries: new ones, those that say more, those left out.

    An entry is the one of its book and number; one without number that of the same name and
    date. An empty cell takes nothing away, a date that is told more exactly on the plan stays,
    and so does what was corrected there.
    """
    known = _Known(plan)
    met: list[Met] = []
    doubtful: list[Doubtful] = []
    rejected: list[Rejected] = []
    for entry in entries:
        there, why, doubts = known.find(entry)
        known.seen(entry, None if why else there)
        if why:
            rejected.append(Rejected(entry.row, why))
            continue
        after, more = _after(plan, known, entry, there)
        met.append(Met(entry=entry, before=there, after=after))
        doubtful += [Doubtful(entry.row, *d) for d in (*doubts, *more)]
    return Compared(met=tuple(met), doubtful=tuple(doubtful), rejected=tuple(rejected))


Doubts = tuple[tuple[str, str], ...]
"""Names of columns, each with what is doubtful there."""


class _Known:
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
        named = f"name {_name(_details(entry))}" if _details(entry).buried else ""
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
        there = self._named.get(_name(_details(entry)), [])
        if len(there) == 1 and not there[0].number:
            return self._one(entry, there[0])
        if there and _details(entry).buried:
            why = f"the plan has another entry of that name and date: {there[0].called()}"
            return None, "", ((NUMBER, why),)
        return None, "", ()

    def _by_name(self, entry: WrittenEntry) -> tuple[Item[BurialDetails] | None, str, Doubts]:
        there = self._named.get(_name(_details(entry)), [])
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
    told = _details(entry)
    if entry.number:
        yield f"number {spoken(told.book)}\n{spoken(entry.number)}"
    elif told.buried:
        yield f"name {_name(told)}"


def _details(entry: WrittenEntry) -> BurialDetails:
    return BurialDetails(**dict(entry.details))


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


def _after(
    plan: Plan, known: _Known, entry: WrittenEntry, there: Item[BurialDetails] | None
) -> tuple[Item[Any], list[tuple[str, str]]]:
    """Return what becomes of a row, and what of it is doubtful."""
    old = there or Item(
        id=entry.id, kind=burial.KIND, number=entry.number, details=_details(entry)
    )
    columns: dict[str, Any] = {}
    doubts: list[tuple[str, str]] = []
    for name, value in _told(entry) if there else ():
        if name == REMARKS:
            columns[name] = _grown(old.details.remarks, value)
            continue
        keep, doubt = _stays(plan, known, old, name, value)
        if doubt:
            doubts.append((name, doubt))
        if not keep:
            columns[name] = value
    columns[LIES_IN], doubt = _grave(plan, known, entry.lies_in, old)
    if doubt:
        doubts.append((LIES_IN, doubt))
    return with_columns(old, columns.items()), doubts


def _told(entry: WrittenEntry) -> Iterable[tuple[str, Any]]:
    return (*([(NUMBER, entry.number)] if entry.number else []), *entry.details)


def _stays(
    plan: Plan, known: _Known, old: Item[Any], name: str, value: Any
) -> tuple[bool, str]:
    """Return whether what the plan says stays, and what is doubtful about that."""
    is_now = reading(plan, old, name)
    told = value if name == NUMBER else as_text(plan, name, value)
    if _alike(is_now, told) or (name == NUMBER and spoken(is_now) == spoken(told)):
        return True, ""
    if is_now and not told:  # what is not known takes nothing away
        return True, ""
    if name in ("buried", "died") and told and is_now.startswith(told):
        return True, ""
    title = TITLES[name]
    if is_now and (old.id, title, told) in known.corrected:
        return True, f"it was corrected from “{told}” to “{is_now}” on the plan, which stays"
    return False, ""


def _grown(old: str, told: str) -> str:
    """Return remarks with those of the table that are not among them yet."""
    if _flat(told) in _flat(old):
        return old
    return f"{old}\n{told}" if old.strip() else told


def _grave(
    plan: Plan, known: _Known, number: str, old: Item[BurialDetails]
) -> tuple[ItemId | None, str]:
    is_now = old.details.grave
    if not number:
        return is_now, ""
    found = known.places.get(spoken(number), [])
    if is_now in found:
        return is_now, ""
    if len(found) != 1:
        what = "no grave" if not found else f"{len(found)} graves"
        return is_now, f"the plan has {what} “{number}”"
    if is_now is None and old.id in known.moved:
        return None, "the remains were moved away since, which stays"
    if is_now is not None:
        return is_now, f"it lies in {plan.items[is_now].called()} on the plan, which stays"
    return found[0], ""


def _alike(one: str, other: str) -> bool:
    return _flat(one) == _flat(other)


def _flat(text: str) -> str:
    return " ".join(text.split())
