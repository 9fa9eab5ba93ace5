"""What needs doing this month, on paper for the meeting and whoever does it."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="month",
    title="This month",
    order=50,
    purpose="What needs doing this month, overdue first, and how much the twelve months to come"
    " hold: for the meeting and whoever does it.",
    compose=late("plan_editor.printing.sheets.month.made", "compose", not_loaded),
)
