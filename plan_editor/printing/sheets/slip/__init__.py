"""The visitor's slip: who rests there, and the way on foot from the gate."""

from plan_editor.declared import late
from plan_editor.printing.sheet import Sheet, not_loaded

SHEET = Sheet(
    name="slip",
    title="Visitor's slip",
    order=60,
    purpose="For somebody who looks for a grave: who rests there, a sketch, and the way from "
    "the gate in words.",
    compose=late("plan_editor.printing.sheets.slip.made", "compose", not_loaded),
    about=("grave", "ashes_plot", "vault", "burial", "memorial"),
)
