"""Trace: what to draw, rows of graves, and what is found in a scan."""

from functools import partial

from plan_editor.desktop.jobs import Job
from plan_editor.desktop.sections_column import SectionsColumn

JOB = Job(
    name="trace",
    title="Trace",
    icon="trace",
    order=20,
    help="Draw what is on the ground: over an old plan, or by typed lengths.",
    panel=partial(SectionsColumn, "trace"),
)
