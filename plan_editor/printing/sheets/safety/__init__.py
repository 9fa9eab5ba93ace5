"""The map of what is unsafe: where to keep off, what was found, what was done about it."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="safety",
    title="Safety map",
    order=30,
    purpose="For wardens and whoever puts up a barrier: what is unsafe, how far to keep off, "
    "since when, and what was done.",
    compose=late("plan_editor.printing.sheets.safety.made", "compose", not_loaded),
)
