"""Entries of a register as a table has them, compared with those that the plan holds."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from plan_editor.edits.corrections import NUMBER, TITLES, as_text, reading, with_columns
from plan_editor.edits.known_entries import KnownEntries
from plan_editor.edits.written_entries import LIES_IN, Doubtful, Rejected, WrittenEntry
from plan_editor.kinds import burial
from plan_editor.kinds.burial import BurialDetails
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

REMARKS = "remarks"


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
    known = KnownEntries(plan)
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


def _after(
    plan: Plan, known: KnownEntries, entry: WrittenEntry, there: Item[BurialDetails] | None
) -> tuple[Item[Any], list[tuple[str, str]]]:
    """Return what becomes of a row, and what of it is doubtful."""
    old = there or Item(
        id=entry.id, kind=burial.KIND, number=entry.number, details=entry.burial
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
    plan: Plan, known: KnownEntries, old: Item[Any], name: str, value: Any
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
    plan: Plan, known: KnownEntries, number: str, old: Item[BurialDetails]
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
