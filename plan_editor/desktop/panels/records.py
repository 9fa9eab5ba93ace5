"""Records: who lies where, what is asked for, and every entry of the register."""

from functools import partial

from plan_editor.desktop.jobs import Job
from plan_editor.desktop.sections_column import SectionsColumn

JOB = Job(
    name="records",
    title="Records",
    icon="records",
    order=30,
    help="Burials, inspections, applications and the other entries of the register.",
    panel=partial(SectionsColumn, "records"),
)
