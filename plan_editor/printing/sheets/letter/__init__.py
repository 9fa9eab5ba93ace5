"""A letter to the family of an unsafe stone."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="letter",
    title="Letter to a family",
    order=72,
    purpose="A letter about an unsafe stone. Name and address stand on it only where the names"
    " of living people are asked for; else there are lines to write on.",
    compose=late("plan_editor.printing.sheets.letter.made", "compose", not_loaded),
    about=("memorial", "owner_contact"),
)
