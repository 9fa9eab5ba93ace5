"""The answer to an application for a memorial."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="memorial",
    title="Answer to an application",
    order=75,
    purpose="For the family and the mason: what complies with the parish's regulations, what "
    "takes a faculty, and what is not told.",
    compose=late("plan_editor.printing.sheets.memorial.made", "compose", not_loaded),
    about=("application",),
)
