"""A notice to be fixed to an unsafe stone: large, dated, and whom to ask."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="notice",
    title="Notice on a stone",
    order=70,
    purpose="One page to fix to an unsafe stone: what was found, until when, whom to ask. In"
    " the parish's own words where it has any.",
    compose=late("plan_editor.printing.notices", "on_stone", not_loaded),
    about=("memorial",),
)
