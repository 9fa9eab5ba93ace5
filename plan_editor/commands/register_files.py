"""Registers in tables: a file looked at and taken in as one edit, and the register written."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from plan_editor.commands.making import check_out
from plan_editor.commands.reading import read
from plan_editor.commands.today import today
from plan_editor.edits.burial_register import TakeInRegister
from plan_editor.edits.written_entries import Doubtful, Rejected, compared
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
