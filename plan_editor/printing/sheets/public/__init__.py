"""A notice in public that the family of a stone is looked for."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="public",
    title="Notice in public",
    order=71,
    purpose="One page for the church door or the board: whose family is looked for, until when."
    " In the parish's own words where it has any.",
    compose=late("plan_editor.printing.notices", "in_public", not_loaded),
    about=("memorial",),
)
