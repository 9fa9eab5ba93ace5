"""Safety: what wants doing first, inspections, families, works, and the ground to keep off."""

from functools import partial

from plan_editor.desktop.jobs import Job
from plan_editor.desktop.sections_column import SectionsColumn

JOB = Job(
    name="safety",
    title="Safety",
    icon="safety",
    order=40,
    help="Stones by their latest inspection, and the ground to keep off.",
    panel=partial(SectionsColumn, "safety"),
    hides=frozenset({"observation", "dimension", "spot_level", "service", "drain"}),
    zones=True,
)
