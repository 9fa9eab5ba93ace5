"""Steps: how many, how high, and whether there is something to hold on to."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Hatch, Look, Pattern, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class StepsDetails:
    """What is recorded of a flight of steps."""

    count: int | None = field(
        default=None, metadata=about("Number of steps", low=1, high=200, schedule=True)
    )
    rise_mm: float | None = field(
        default=None,
        metadata=about("Height of a step", unit="mm", low=20.0, high=500.0, schedule=True),
    )
    handrail: bool = field(default=False, metadata=about("Handrail", schedule=True))
    material: str = field(default="", metadata=about("Material"))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="steps",
    title="Steps",
    plural="Steps",
    forms=(Form.RECTANGLE,),
    details=StepsDetails,
    look=Look(
        pen=Pen(width=0.25),
        hatch=Hatch(pattern=Pattern.LINES, angle_deg=90.0, spacing=1.5, pen=Pen(width=0.18)),
    ),
    element="STEPS",
    legend="Steps",
    order=21,
    help="A flight of steps. Draw along the edge of the lowest, then give the length.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING}),
)
