"""Buildings: the church, its porch, the hall, a shed."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Hatch, Look, Pattern, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildingDetails:
    """What is recorded of a building."""

    name: str = field(default="", metadata=about("Name", schedule=True))
    use: str = field(default="", metadata=about("Used as", schedule=True))
    height_m: float | None = field(
        default=None,
        metadata=about(
            "Height", unit="m", low=0.0, high=150.0, help="To the ridge or parapet."
        ),
    )
    foundation_m: float | None = field(
        default=None,
        metadata=about(
            "Depth of its foundation",
            unit="m",
            low=0.0,
            high=10.0,
            help="Old churches often stand on very little; a deep hole can undermine them.",
        ),
    )
    list_entry: str = field(
        default="",
        metadata=about(
            "List entry number",
            help="Its number on the National Heritage List, where it has one.",
        ),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="building",
    title="Building",
    plural="Buildings",
    forms=(Form.AREA,),
    details=BuildingDetails,
    look=Look(
        pen=Pen(width=0.5),
        hatch=Hatch(pattern=Pattern.LINES, angle_deg=45.0, spacing=2.0, pen=Pen(width=0.18)),
    ),
    element="BUILDG",
    legend="Building",
    order=30,
    help="The outside of a building's walls at the ground.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING, Blocks.WALKING}),
    label="name",
)
