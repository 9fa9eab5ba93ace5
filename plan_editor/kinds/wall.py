"""Walls: along their middle, with a thickness; or their outline."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class WallDetails:
    """What is recorded of a wall."""

    width_m: float | None = field(
        default=0.45,
        metadata=about(
            "Thickness",
            unit="m",
            low=0.05,
            high=5.0,
            help="Of a wall drawn along its middle.",
            schedule=True,
        ),
    )
    height_m: float | None = field(
        default=None, metadata=about("Height", unit="m", low=0.0, high=20.0, schedule=True)
    )
    material: str = field(default="", metadata=about("Material", schedule=True))
    retaining: bool = field(
        default=False,
        metadata=about(
            "Holds up higher ground",
            help="Digging near the foot of such a wall can bring it down.",
            schedule=True,
        ),
    )
    foundation_m: float | None = field(
        default=None,
        metadata=about(
            "Depth of its foundation",
            unit="m",
            low=0.0,
            high=6.0,
            help="Below the ground on the lower side, if it has ever been seen.",
        ),
    )
    list_entry: str = field(
        default="",
        metadata=about(
            "List entry number",
            help="Its number on the National Heritage List, where it has one.",
        ),
    )
    kept_by: str = field(
        default="", metadata=about("Kept up by", help="Whose duty it is, as far as is known.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="wall",
    title="Wall",
    plural="Walls",
    forms=(Form.LINE, Form.AREA),
    details=WallDetails,
    look=Look(pen=Pen(width=0.35)),
    element="WALL",
    legend="Wall",
    order=40,
    help="A wall along its middle, with its thickness; or its outline.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING, Blocks.WALKING}),
    width="width_m",
)
