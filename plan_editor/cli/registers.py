"""Verbs of the burial register as a table: taken in as one edit, and written."""

from argparse import Namespace
from pathlib import Path
from typing import Any

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.taken_in import facts_told, lines_told
from plan_editor.cli.verb import Said
from plan_editor.commands.register_files import (
    LookedRegister,
    ReadyRegister,
    counted,
    in_words,
    look_at_register,
    ready_register,
    write_register,
)
from plan_editor.exchange.register_columns import read_columns
from plan_editor.plan.document import Document
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile


def register_import(asked: Namespace) -> Said:
    """Take in the rows of a table, or say what would become of them."""
    plan = Path(asked.plan)
    if asked.dry_run:
        return _said(ready_register(read_plan(plan), _looked(asked)), dry=True, remarks=())
    with PlanFile.open(plan) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        found = ready_register(document.plan, _looked(asked))
        remarks: tuple[str, ...] = ()
        if found.edit is not None:
            document.apply(found.edit)
            remarks = tuple(file.save())
    return _said(found, dry=False, remarks=remarks)


def register_write(asked: Namespace) -> Said:
    """Write the register as a table."""
    count, remarks = write_register(Path(asked.plan), Path(asked.out))
    told = f"{asked.out}: {counted(count, 'entry', 'entries')}."
    facts = {"file": asked.out, "entries": count, "remarks": list(remarks)}
    return Said(text="\n".join((told, *remarks)), facts=facts)


def _looked(asked: Namespace) -> LookedRegister:
    given = None if asked.columns is None else read_columns(Path(asked.columns))
    return look_at_register(Path(asked.file), given)


def _said(found: ReadyRegister, *, dry: bool, remarks: tuple[str, ...]) -> Said:
    left = ", ".join(f"“{head}”" for head in found.left)
    lines = (
        in_words(found),
        *lines_told(found.rejected, found.doubtful),
        f"Columns that are not taken: {left}." if left else "",
        "Nothing was changed: this was a dry run." if dry else "",
        *remarks,
    )
    return Said(text="\n".join(filter(None, lines)), facts=_facts(found, dry=dry))


def _facts(found: ReadyRegister, *, dry: bool) -> dict[str, Any]:
    return {
        "read": found.read,
        "new": found.new,
        "updated": found.updated,
        **facts_told(found.rejected, found.doubtful),
        "columns_left": list(found.left),
        "dry_run": dry,
    }
