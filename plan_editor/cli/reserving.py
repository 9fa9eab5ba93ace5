"""The verb that reserves a space by faculty."""

from argparse import Namespace
from pathlib import Path

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.dates import day
from plan_editor.cli.names import one_line
from plan_editor.cli.verb import Said
from plan_editor.commands.naming import item_named
from plan_editor.commands.reserving import CAUTION, reserve
from plan_editor.plan.document import Document
from plan_editor.plan.kind import burial_kinds
from plan_editor.storage.plan_file import PlanFile


def run(asked: Namespace) -> Said:
    """Reserve a space by faculty."""
    faculty, until = one_line(asked.faculty, "--faculty"), day(asked.until)
    with PlanFile.open(Path(asked.plan)) as file:
        refuse_if_changed_elsewhere(file)
        space = item_named(file.plan, asked.space, [k.name for k in burial_kinds()])
        edit = reserve(file.plan, space.id, faculty=faculty, until=until)
        Document(file.plan, journal=file, author=AUTHOR).apply(edit)
        remarks = file.save()
    facts = {
        "space": space.id,
        "called": space.called(),
        "reservation": edit.id,
        "faculty": faculty,
        "until": until,
    }
    head = f"{space.called()} is reserved under faculty {faculty} until {until}."
    return Said(text="\n".join((head, CAUTION, *remarks)), facts=facts)
