"""The verb ``grid move``: a whole plan moved to another grid, by one edit."""

from argparse import Namespace
from pathlib import Path

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.dates import day
from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.frame import (
    RESIDUALS,
    Wanted,
    bearings_told,
    framing_facts,
    framing_told,
    read_known,
    residual_rows,
)
from plan_editor.commands.reading import read
from plan_editor.edits.framing import Framing, Scale
from plan_editor.plan.document import Document
from plan_editor.plan.item import Method
from plan_editor.plan.plan import Plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.crs import checked

_METHODS = {None: Method.UNKNOWN, "gnss": Method.GNSS, "instrument": Method.INSTRUMENT}


def move(asked: Namespace) -> Said:
    """Move the whole plan, or say how it would come to lie."""
    if asked.dry_run:
        file = read(Path(asked.plan))
        wanted = _wanted(asked, file.plan)
        framing = wanted.framing(file.plan)
        told = _told(file.plan, framing, wanted)
        return _said(framing, told, file.remarks, made=False)
    with PlanFile.open(Path(asked.plan)) as open_file:
        refuse_if_changed_elsewhere(open_file)
        document = Document(open_file.plan, journal=open_file, author=AUTHOR)
        wanted = _wanted(asked, document.plan)
        framing = wanted.framing(document.plan)
        told = _told(document.plan, framing, wanted)
        document.apply(wanted.edit())
        return _said(framing, told, open_file.save(), made=True)


def _wanted(asked: Namespace, plan: Plan) -> Wanted:
    path = Path(asked.marks)
    return Wanted(
        crs=checked(asked.crs),
        marks=read_known(plan, path),
        scale=Scale(asked.scale),
        method=_METHODS[asked.by],
        source=path.name,
        date=day(asked.date) if asked.date else "",
    )


def _told(plan: Plan, framing: Framing, wanted: Wanted) -> tuple[str, ...]:
    return (*framing_told(framing, wanted.scale), *bearings_told(plan, framing))


def _said(
    framing: Framing, told: tuple[str, ...], remarks: tuple[str, ...], *, made: bool
) -> Said:
    table = columns((RESIDUALS, *residual_rows(framing)))
    done = "The plan was moved." if made else "Nothing was changed; this is how it would lie."
    facts = {**framing_facts(framing), "moved": made, "told": list(told)}
    return Said(text="\n".join((done, *told, "", table, *remarks)), facts=facts)
