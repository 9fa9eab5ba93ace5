"""Registers in tables: a file looked at and taken in as one edit, and the register written."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from plan_editor.commands.making import check_out
from plan_editor.commands.reading import read
from plan_editor.commands.today import today
from plan_editor.edits.burial_register import TakeInRegister
from plan_editor.edits.entries_compared import compared
from plan_editor.edits.written_entries import Doubtful, Rejected
from plan_editor.errors import CannotUse
from plan_editor.exchange.register_columns import RegisterLayout, layout_of
from plan_editor.exchange.register_rows import register_table
from plan_editor.exchange.registers import read_register_table, register_of
from plan_editor.exchange.tables import Table
from plan_editor.exchange.tables_out import write_csv, write_workbook
from plan_editor.plan.plan import Plan

SUFFIXES = (".csv", ".xlsx", ".txt")
"""How the names of tables end that are offered to be read."""

WRITTEN_AS = (".csv", ".xlsx")


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedRegister:
    """A table that was read, before anybody says that its columns hold something else."""

    name: str
    table: Table
    layout: RegisterLayout


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyRegister:
    """What would become of a table.

    Args:
        edit: takes it in; None where the plan has it all.
        read: how many rows it has.
        new: how many of them are new entries.
        updated: how many entries of the plan it says more of, or something else.
        doubtful: each cell of which not all can be taken as it stands; the column as the table
            calls it.
        rejected: each row that is not taken.
        left: the heads of columns that are not taken.
    """

    edit: TakeInRegister | None
    read: int
    new: int
    updated: int
    doubtful: tuple[Doubtful, ...]
    rejected: tuple[Rejected, ...]
    left: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One row of a table as it is shown before it is taken in.

    Args:
        line: in the file.
        cells: as they stand there.
        doubtful: the heads of the columns whose cells are doubtful.
        why: what is doubtful, or why it is not taken; empty where all is well.
    """

    line: int
    cells: tuple[str, ...]
    doubtful: frozenset[str]
    why: str


def look_at_register(path: Path, given: Mapping[str, str] | None = None) -> LookedRegister:
    """Read a table; the slow half, for any thread.

    Raises:
        CannotRead: it holds nothing that can be used.
        CannotUse: a column that was given is not there.
    """
    table = read_register_table(path)
    return LookedRegister(name=path.name, table=table, layout=layout_of(table, given))


def ready_register(
    plan: Plan, looked: LookedRegister, layout: RegisterLayout | None = None, on: str = ""
) -> ReadyRegister:
    """Return what would become of a table on a plan. Nothing is changed.

    Args:
        plan: that holds the register.
        looked: the table.
        layout: what its columns hold, where that is not what they seem to.
        on: the day on which it is taken in; today if not given.
    """
    told = layout or looked.layout
    written = register_of(looked.table, told)
    found = compared(plan, written.entries)
    edit = TakeInRegister(entries=written.entries, source=looked.name, date=on or today())
    doubts = (*written.doubtful, *found.doubtful)
    doubtful = (Doubtful(d.row, told.head(d.column), d.why) for d in doubts)
    return ReadyRegister(
        edit=edit if found.new or found.updated else None,
        read=written.read,
        new=len(found.new),
        updated=len(found.updated),
        doubtful=tuple(sorted(doubtful)),
        rejected=tuple(sorted((*written.rejected, *found.rejected))),
        left=told.left,
    )


def in_words(found: ReadyRegister) -> str:
    """Return in a sentence what becomes of a table."""
    return (
        f"{counted(found.read, 'row', 'rows')} read: {found.new:,} new, {found.updated:,}"
        f" updated, {len(found.rejected):,} not taken;"
        f" {counted(len(found.doubtful), 'cell', 'cells')} doubtful."
    )


def counted(count: int, one: str, many: str) -> str:
    """Return a count with its noun."""
    return f"{count:,} {one if count == 1 else many}"


def worth_a_look(looked: LookedRegister, found: ReadyRegister, most: int) -> tuple[Shown, ...]:
    """Return rows to be looked at before they are taken: doubtful and rejected ones first."""
    doubts: dict[int, list[Doubtful]] = {}
    for doubt in found.doubtful:
        doubts.setdefault(doubt.row, []).append(doubt)
    rejected = {r.row: r.why for r in found.rejected}
    rows = looked.table.rows[looked.layout.first :]
    odd = [r for r in rows if r.line in doubts or r.line in rejected]
    plain = [r for r in rows[:most] if r.line not in doubts and r.line not in rejected]
    return tuple(
        Shown(
            line=row.line,
            cells=row.cells,
            doubtful=frozenset(d.column for d in doubts.get(row.line, ())),
            why="; ".join(
                (
                    *([f"not taken: {rejected[row.line]}"] if row.line in rejected else []),
                    *(f"{d.column}: {d.why}" for d in doubts.get(row.line, ())),
                )
            ),
        )
        for row in [*odd, *plain][:most]
    )


def write_register(plan_path: Path, out: Path) -> tuple[int, tuple[str, ...]]:
    """Write the register of a plan as CSV or a workbook; return how many entries, and remarks.

    Raises:
        CannotUse: the file's name ends in neither, or it would take the place of a plan.
        FileProblem: the plan cannot be read or the file not written.
    """
    suffix = out.suffix.lower()
    if suffix not in WRITTEN_AS:
        raise CannotUse(
            f"{out.name or out}: a register is written as .csv or .xlsx, by how the file's name"
            " ends. Nothing was written."
        )
    found = read(plan_path)
    check_out(out, plan_path)
    table = register_table(found.plan)
    (write_csv if suffix == ".csv" else write_workbook)(table, out)
    return len(table.rows), found.remarks
