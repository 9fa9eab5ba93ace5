"""The plan of the ground: everything that is known, with numbers."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="ground",
    title="Plan of the ground",
    order=20,
    purpose="Everything on the plan with its numbers, and schedules of what there is and of "
    "memorials that are unsafe.",
    compose=late("plan_editor.printing.sheets.ground.made", "compose", not_loaded),
)
