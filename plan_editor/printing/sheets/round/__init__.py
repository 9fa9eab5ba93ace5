"""The round of an inspection: what is due in walking order, with boxes to tick."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="round",
    title="Round of inspection",
    order=40,
    purpose="For whoever inspects: what is due, numbered on a map in walking order, and a "
    "table with boxes to tick.",
    compose=late("plan_editor.printing.sheets.round.made", "compose", not_loaded),
)
