"""Survey: base plans, marks, field books, points, the grid."""

from functools import partial

from plan_editor.desktop.jobs import Job
from plan_editor.desktop.sections_column import SectionsColumn

JOB = Job(
    name="survey",
    title="Survey",
    icon="survey",
    order=10,
    help="Lay old plans under the ground, place them, and measure.",
    panel=partial(SectionsColumn, "survey"),
)
