"""The verb that writes schedules."""

from argparse import Namespace
from pathlib import Path

from plan_editor.cli.dates import day
from plan_editor.cli.table import columns
from plan_editor.cli.verb import Said
from plan_editor.commands.schedules import make_schedule, schedule_named
from plan_editor.errors import CannotUse
from plan_editor.records.schedule import Asked, schedules


def schedule(asked: Namespace) -> Said:
    """Write a schedule, or say which there are."""
    if asked.list:
        return _listed()
    if not asked.name or not asked.plan or not asked.out:
        raise CannotUse(
            "Write which schedule, of which plan, into which file: schedule trees PLAN -o"
            " trees.pdf. Or schedule --list to see which there are."
        )
    title = schedule_named(asked.name).title
    wanted = Asked(on=day(asked.on), contacts=asked.contacts)
    made, lines = make_schedule(
        Path(asked.plan), asked.name, wanted, Path(asked.out), maker=asked.maker
    )
    on = f", {made.pages} {'page' if made.pages == 1 else 'pages'} {made.paper}"
    many = "1 line" if lines == 1 else f"{lines} lines"
    text = f"{made.path}: {title}, {many}{on if made.paper else ''}."
    facts = {
        "file": str(made.path),
        "schedule": asked.name,
        "on": wanted.on,
        "lines": lines,
        "contacts": wanted.contacts,
        "revision": made.revision,
        "paper": made.paper or None,
        "pages": made.pages or None,
        "remarks": list(made.remarks),
    }
    return Said(text="\n".join((text, *made.remarks)), facts=facts)


def _listed() -> Said:
    found = schedules()
    text = columns([(s.name, s.title, s.purpose) for s in found], left=(0, 1, 2))
    facts = [
        {
            "name": s.name,
            "title": s.title,
            "purpose": s.purpose,
            "columns": [h.title for h in s.headings],
            "note": s.note,
        }
        for s in found
    ]
    return Said(text=text, facts={"schedules": facts})
