"""The mowing map: where not to go, what to trim by hand, what to leave uncut until when."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="mowing",
    title="Mowing map",
    order=10,
    purpose="One page for the mowing team: where not to go, where to trim by hand, what to "
    "leave uncut until when.",
    compose=late("plan_editor.printing.sheets.mowing.made", "compose", not_loaded),
)
