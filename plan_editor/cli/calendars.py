"""The verb that writes the calendar."""

from argparse import Namespace
from pathlib import Path

from plan_editor.cli.dates import day
from plan_editor.cli.verb import Said
from plan_editor.commands.calendars import make_calendar


def calendar(asked: Namespace) -> Said:
    """Write what is due as a calendar."""
    on = day(asked.on)
    made, count = make_calendar(Path(asked.plan), on, Path(asked.out))
    many = "1 event" if count == 1 else f"{count} events"
    facts = {
        "file": str(made.path),
        "on": on,
        "events": count,
        "revision": made.revision,
        "remarks": list(made.remarks),
    }
    return Said(text="\n".join((f"{made.path}: {many}.", *made.remarks)), facts=facts)
