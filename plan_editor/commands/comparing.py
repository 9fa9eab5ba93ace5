"""Two plans compared, or one with itself as it was known on a day, and the answer in words."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plan_editor.commands.difference_words import line, name_of
from plan_editor.commands.forms import capital
from plan_editor.commands.past import known_on
from plan_editor.commands.reading import Read, read
from plan_editor.edits.basic import Replace
from plan_editor.edits.chosen import called
from plan_editor.errors import CannotUse
from plan_editor.plan.change import Change
from plan_editor.plan.comparing import Comparison, Pair, compared
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.plan import Plan

NO_PLACES = (
    "One plan lies in a local grid, which is tied to nothing, and so places could not be"
    " compared; everything else was."
)
TWO_SYSTEMS = (
    "The plans lie in two coordinate systems: places were compared in that of the second, to"
    " within 1 cm. Bearings, and the points by which base plans were placed, are told in the"
    " grid of each."
)
_NOTHING_TO_COMPARE_WITH = (
    "Compare with what? Give a second plan, or with “--on” a day on which the first was known."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """Two plans, what they are called, and in what they differ.

    Args:
        before: the first plan.
        after: the second.
        names: of both, in words.
        found: in what they differ.
        remarks: sentences for whoever relies on it.
    """

    before: Plan
    after: Plan
    names: tuple[str, str]
    found: Comparison
    remarks: tuple[str, ...]


def compare_files(first: Path, second: Path | None, day: str) -> Compared:
    """Compare a plan with another, or with itself.

    Args:
        first: the file of a plan.
        second: another, or None for the first as it is now.
        day: ISO date on which the first is to be taken as it was known; empty for now.

    Raises:
        CannotUse: neither is given; the log begins later; there is no way between the grids.
        FileProblem: a plan cannot be read.
    """
    if second is None and not day:
        raise CannotUse(_NOTHING_TO_COMPARE_WITH)
    one = read(first)
    other = one if second is None else read(second)
    name = first.name
    remarks = list(dict.fromkeys((*one.remarks, *other.remarks)))
    if day:
        known = known_on(first, one.plan, day)
        one = Read(known.plan, ())
        name = f"{first.name} {known.told}"
        remarks += known.remarks
    return compare_plans(
        one.plan,
        other.plan,
        names=(name, first.name if second is None else second.name),
        remarks=tuple(remarks),
    )


def compare_plans(
    before: Plan, after: Plan, *, names: tuple[str, str], remarks: tuple[str, ...] = ()
) -> Compared:
    """Compare two plans that have been read.

    Raises:
        CannotUse: there is no way between the grids.
    """
    found = compared(before, after)
    one, other = found.grids
    more = () if found.places else (NO_PLACES,)
    if found.places and one.crs != other.crs:
        more = (TWO_SYSTEMS,)
    return Compared(
        before=before, after=after, names=names, found=found, remarks=(*remarks, *more)
    )


def lines_of(pair: Pair, of: Compared) -> tuple[str, ...]:
    """Return in words in what one thing differs, a line for each field."""
    return tuple(line(d, pair.moved, of.before, of.after) for d in pair.differences)


def counted(found: Comparison) -> str:
    """Return in one line how much differs."""
    parts = (
        (len(found.added), "added"),
        (len(found.removed), "removed"),
        (len(found.changed), "changed"),
        (len(found.alike), "of two origins that seem the same"),
        (found.same, "the same"),
    )
    return ", ".join(f"{count} {words}" for count, words in parts if count) or "Both are empty"


def by_kind(items: tuple[Item[Any], ...]) -> Iterator[tuple[Kind, list[Item[Any]]]]:
    """Return things by their kinds, those of which there are most first."""
    found: dict[Kind, list[Item[Any]]] = {}
    for item in items:
        found.setdefault(item.kind, []).append(item)
    yield from sorted(found.items(), key=lambda one: -len(one[1]))


def names_of(items: list[Item[Any]]) -> list[str]:
    """Return what things of one kind are called, without the kind, and without the nameless."""
    told = ((i, i.number or name_of(i).removeprefix(i.kind.title).strip()) for i in items)
    return [name for item, name in told if name and name != capital(item.kind.one)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One difference as a line of a list.

    Args:
        name: of the thing.
        how: ``added``, ``removed``, ``changed`` or ``seems the same``.
        before: as the first plan has it; None where it has not.
        after: as the second plan has it; None where it has not.
        told: field by field, a line for each.
    """

    name: str
    how: str
    before: Item[Any] | None
    after: Item[Any] | None
    told: tuple[str, ...] = ()


def rows_of(of: Compared) -> tuple[Row, ...]:
    """Return every difference as a line of a list: what came, went, changed, seems the same."""
    found = of.found
    added = (Row(name=name_of(i), how="added", before=None, after=i) for i in found.added)
    removed = (Row(name=name_of(i), how="removed", before=i, after=None) for i in found.removed)
    changed = (_row(p, "changed", of) for p in found.changed)
    alike = (_row(p, "seems the same", of) for p in found.alike)
    return (*added, *removed, *changed, *alike)


def _row(pair: Pair, how: str, of: Compared) -> Row:
    return Row(
        name=name_of(pair.after),
        how=how,
        before=pair.before,
        after=pair.after,
        told=lines_of(pair, of),
    )


def compare_with_file(other: Path, plan: Plan, name: str) -> Compared:
    """Compare a plan in a file with one that is open, which is the second.

    Raises:
        CannotUse: there is no way between the grids.
        FileProblem: the file cannot be read.
    """
    found = read(other)
    names = other.name, name
    return compare_plans(found.plan, plan, names=names, remarks=found.remarks)


def compare_with_day(copy: Path, plan: Plan, name: str, day: str) -> Compared:
    """Compare a plan as it was known on a day with itself as it is now, which is the second.

    Args:
        copy: its working copy.
        plan: as it is now.
        name: what its file is called.
        day: ISO date, which may stop after the year or the month.

    Raises:
        CannotUse: the log begins later; there is no way between the grids.
        FileProblem: the file cannot be read.
    """
    known = known_on(copy, plan, day)
    names = f"{name} {known.told}", f"{name} today"
    return compare_plans(known.plan, plan, names=names, remarks=known.remarks)


def may_take_over(row: Row, of: Compared) -> bool:
    """Return whether the first plan's state of a thing can be taken over into the second."""
    one, other = of.found.grids
    return row.before is not None and row.how != "seems the same" and one == other


def take_over(row: Row, of: Compared) -> Replace:
    """Return the edit that gives a thing the state that it has in the first plan."""
    item = row.before
    assert item is not None  # noqa: S101  # see may_take_over
    return Replace(
        made=(Change(row.after, item),),
        title=f"Take over {called((item,))} from {of.names[0]}",
    )
