"""Verbs of inspections: what is due, and a table of results taken in."""

from argparse import Namespace
from pathlib import Path
from typing import Any

from plan_editor.cli.changing import AUTHOR, refuse_if_changed_elsewhere
from plan_editor.cli.dates import day
from plan_editor.cli.table import columns
from plan_editor.cli.taken_in import facts_told, lines_told
from plan_editor.cli.verb import Said
from plan_editor.commands.inspections_in import ReadyInspections, ready_inspections
from plan_editor.commands.reading import read
from plan_editor.commands.safety import CAUTION
from plan_editor.plan.document import Document
from plan_editor.plan.plan import Plan
from plan_editor.records.intervals import NextLook, next_looks
from plan_editor.records.methods import method_for
from plan_editor.storage.plan_file import PlanFile

_NEVER = "never inspected"


def due(asked: Namespace) -> Said:
    """Say what is unsafe and what ought to be inspected by a day; 1 if there is anything."""
    on = day(asked.on)
    file = read(Path(asked.plan))
    plan = file.plan
    found = sorted(
        (look for look in next_looks(plan, on) if look.date <= on),
        key=lambda look: (not look.standing.unsafe, look.date, look.standing.item.called()),
    )
    facts = {
        "on": on,
        "due": [_facts(look, plan, on) for look in found],
        "unsafe": sum(look.standing.unsafe for look in found),
        "never_inspected": sum(look.standing.latest is None for look in found),
        "remarks": list(file.remarks),
    }
    if not found:
        text = f"Nothing is due to be inspected by {on}."
        return Said(text="\n".join((text, *file.remarks)), facts=facts)
    rows = [_row(look, plan, on) for look in found]
    table = columns((("what", "due", "look at it", "why"), *rows), left=(0, 1, 2, 3))
    counted = "1 thing is" if len(found) == 1 else f"{len(found):,} things are"
    lines = (table, f"{counted} due by {on}.", CAUTION, *file.remarks)
    return Said(text="\n".join(lines), facts=facts, code=1)


def take_in(asked: Namespace) -> Said:
    """Take in a table of inspections as one edit."""
    with PlanFile.open(Path(asked.plan)) as file:
        refuse_if_changed_elsewhere(file)
        document = Document(file.plan, journal=file, author=AUTHOR)
        found = ready_inspections(document.plan, Path(asked.file))
        remarks: tuple[str, ...] = ()
        if found.edit is not None:
            document.apply(found.edit)
            remarks = tuple(file.save())
    return Said(text=_told(found, remarks), facts=_told_facts(found, remarks))


def _row(look: NextLook, plan: Plan, on: str) -> tuple[str, str, str, str]:
    thing = look.standing.item
    method = method_for(plan, thing, on=on)
    when = look.date or (_NEVER if look.standing.latest is None else "no date known")
    return thing.called(), when, str(method.test), look.says


def _facts(look: NextLook, plan: Plan, on: str) -> dict[str, Any]:
    thing = look.standing.item
    method = method_for(plan, thing, on=on)
    latest = look.standing.latest
    return {
        "id": thing.id,
        "kind": thing.kind.name,
        "number": thing.number,
        "called": thing.called(),
        "due": look.date or None,
        "overdue": look.date < on,
        "unsafe": look.standing.unsafe,
        "last": None if latest is None else latest.details.date,
        "result": None if latest is None else str(latest.details.result),
        "method": str(method.test),
        "method_told": method.says,
        "why": look.says,
    }


def _told(found: ReadyInspections, remarks: tuple[str, ...]) -> str:
    lines = lines_told(found.rejected, found.doubtful)
    return "\n".join((found.told, *lines, *remarks))


def _told_facts(found: ReadyInspections, remarks: tuple[str, ...]) -> dict[str, Any]:
    return {
        "read": found.read,
        "new": len(found.new),
        "known": found.known,
        **facts_told(found.rejected, found.doubtful),
        "remarks": list(remarks),
    }
