"""Taps and butts, where water is fetched."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class TapDetails:
    """What is recorded of a tap."""

    fed_by: str = field(
        default="", metadata=about("Fed by", help="The main, a butt, a spring.", schedule=True)
    )
    drinkable: bool = field(
        default=False, metadata=about("Fit to drink", help="Only where it is known.")
    )
    winter: str = field(
        default="",
        metadata=about("In winter", help="Where it is turned off and drained before frost."),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="tap",
    title="Tap",
    plural="Taps",
    forms=(Form.POINT,),
    details=TapDetails,
    look=Look(pen=Pen(width=0.25, colour="#2F5D7C"), symbol="tap", symbol_mm=2.5),
    element="TAP",
    legend="Tap",
    order=91,
    help="Where water is fetched.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING}),
)
