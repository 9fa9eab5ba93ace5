"""What another program did to the tables, found by comparing them with the log."""

from collections.abc import Iterable, Mapping
from collections.abc import Set as AbstractSet
from contextlib import suppress
from dataclasses import dataclass, replace
from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle, rectangle_of
from plan_editor.geometry.tolerance import GRAIN, stored
from plan_editor.plan.change import Change
from plan_editor.plan.checks import fault_of, references, spoken
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.storage import history, tables
from plan_editor.storage.connection import Connection
from plan_editor.storage.digests import digest_of, digest_of_records
from plan_editor.storage.layout import FID, ID
from plan_editor.storage.reading import Found
from plan_editor.storage.records import item_of, records_of
from plan_editor.storage.rows import OddRow
from plan_editor.survey.grids.grid import Grid


@dataclass(frozen=True, slots=True, kw_only=True)
class Differences:
    """How the tables differ from the log.

    Args:
        changes: what another program did, as changes to the plan that the log tells of.
        odd: rows that cannot be items.
        notes: sentences about what it did and the plan cannot take in.
    """

    changes: tuple[Change, ...] = ()
    odd: tuple[OddRow, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def remarks(self) -> tuple[str, ...]:
        """Sentences about what the plan cannot take in."""
        return (*(row.told() for row in self.odd), *self.notes)


def compared(con: Connection, found: Found) -> Differences:
    """Return how the tables differ from the log.

    Raises:
        ValueError: the log is not what it was.
    """
    wanted = history.tail_of(con).items_digest
    if not found.odd and digest_of(found.items) == wanted:
        return Differences()
    kept = history.last_records(con)
    if digest_of_records(kept.values()) != wanted:
        raise ValueError("the log is not what it was")
    log = _known_items(kept)
    changes, odd = _differences(found, log)
    taken, notes = _consistent(plan_of(log.values()), changes)
    return Differences(changes=taken, odd=(*found.odd, *odd), notes=notes)


def put_back(con: Connection, found: Found, odd: Iterable[OddRow], grid: Grid) -> None:
    """Make the tables what the log says; rows that cannot be items stay, without an id.

    Args:
        con: within a transaction.
        found: what the tables hold.
        odd: rows that cannot be items.
        grid: the plan's grid.
    """
    tables.refill_indexes(con)  # the other program may have left them out of step
    kept = history.last_records(con)
    log = _known_items(kept)
    strange = {(row.table, row.fid): row.id for row in odd}
    rows = {(i.kind.name, fid): i.id for fid, i in zip(found.fids, found.items, strict=True)}
    there: set[str] = set()
    for (table, fid), bears in (rows | strange).items():
        logged = log.get(ItemId(bears))
        if logged is not None and logged.kind.name == table and bears not in there:
            there.add(bears)
        elif (table, fid) in strange:
            con.execute(f'UPDATE "{table}" SET "{ID}" = NULL WHERE "{FID}" = ?', (fid,))
        else:
            con.execute(f'DELETE FROM "{table}" WHERE "{FID}" = ?', (fid,))
    written = dict(zip(rows.values(), records_of(found.items), strict=False))
    fids = tables.next_fids(con)
    for item in log.values():
        if item.id not in there:
            tables.insert(con, item.kind, [(next(fids), item)], grid)
        elif written.get(item.id) != kept[item.id]:
            tables.update(con, item.kind, [item], grid)


def _differences(
    found: Found, log: Mapping[ItemId, Item[Any]]
) -> tuple[list[Change], list[OddRow]]:
    changes: list[Change] = []
    odd: list[OddRow] = []
    seen = {ItemId(row.id) for row in found.odd if row.id}
    for fid, item in zip(found.fids, found.items, strict=True):
        before = log.get(item.id)
        try:
            after = item if item == before else _taken(item, before, seen)
        except ValueError as error:
            table = item.kind.name
            odd.append(OddRow(table=table, fid=fid, id=item.id, why=str(error)))
        else:
            if after != before:
                changes.append(Change(before, after))
        seen.add(item.id)
    changes += [Change(item, None) for i, item in log.items() if i not in seen]
    return changes, odd


def _taken(item: Item[Any], before: Item[Any] | None, seen: AbstractSet[str]) -> Item[Any]:
    """Return an item as the plan can keep it, after another program wrote its row.

    Raises:
        ValueError: the plan cannot keep it; the text ends a sentence.
    """
    if item.id in seen:
        raise ValueError("bears an id that another row bears")
    if before is not None and before.kind != item.kind:
        raise ValueError("bears an id of another kind of thing")
    if item.shape is not None:
        item = _placed(item, item.shape, before)
    if fault := fault_of(item):
        raise ValueError(fault)
    return item


def _placed(item: Item[Any], shape: BaseGeometry, before: Item[Any] | None) -> Item[Any]:
    if before is not None and shape == before.shape:
        return replace(item, rectangle=before.rectangle)
    try:
        kept = stored(shape)
    except ValueError as error:
        raise ValueError(f"has a shape that cannot be kept: {error}") from error
    found = None
    if Form.RECTANGLE in item.kind.forms:
        was = None if before is None else before.rectangle
        found = _only_moved(kept, was) or rectangle_of(kept)
    return item.at(kept) if found is None else item.on(found)


def _only_moved(shape: BaseGeometry, was: Rectangle | None) -> Rectangle | None:
    # the same rectangle elsewhere keeps its size to the last bit
    if was is None:
        return None
    east, north = map(float, shapely.get_coordinates(shape)[0])
    moved = replace(was, east=east, north=north)
    return moved if moved.outline().equals_exact(shape, 2 * GRAIN) else None


def _consistent(
    plan: Plan, changes: Iterable[Change]
) -> tuple[tuple[Change, ...], tuple[str, ...]]:
    notes: list[str] = []
    wanted = {c.id: c for c in _numbered_once(plan, changes, notes)}
    while bad := _first_dangling(plan, wanted):
        dropped, why = bad
        notes.append(why)
        del wanted[dropped]
    return tuple(wanted.values()), tuple(notes)


def _numbered_once(plan: Plan, changes: Iterable[Change], notes: list[str]) -> Iterable[Change]:
    changes = tuple(changes)
    touched = {c.id for c in changes}
    borne = {_bears(i) for i in plan.items.values() if i.id not in touched and i.number}
    for change in changes:
        after = change.after
        if after is None or not after.number or not after.kind.numbered:
            yield change
        elif _bears(after) in borne:
            notes.append(
                f"{after.called()} stands there twice since another program wrote to the file;"
                " one of the two was left without number."
            )
            yield Change(change.before, replace(after, number=""))
        else:
            borne.add(_bears(after))
            yield change


def _first_dangling(plan: Plan, wanted: Mapping[ItemId, Change]) -> tuple[ItemId, str] | None:
    future = plan.after(wanted.values()).items
    for item in future.values():
        for title, allowed, target in references(item):
            there = future.get(target)
            if there is not None and there.kind.name in allowed:
                continue
            if (gone := wanted.get(target)) is not None and gone.before is not None:
                return target, (
                    f"{gone.before.called()} was removed by another program, but"
                    f" {item.called()} points to it as “{title}”; it was kept."
                )
            if item.id in wanted:
                return item.id, (
                    f"{item.called()} was changed by another program so that it points, as"
                    f" “{title}”, at nothing; it was left as it was."
                )
    return None


def _bears(item: Item[Any]) -> tuple[str, str]:
    return item.kind.name, spoken(item.number)


def _known_items(kept: Mapping[str, str]) -> dict[ItemId, Item[Any]]:
    # a later version of the program may have logged kinds that this one does not know
    found: dict[ItemId, Item[Any]] = {}
    for record in kept.values():
        with suppress(ValueError):
            item = item_of(record)
            found[item.id] = item
    return found
