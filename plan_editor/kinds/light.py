"""Lights along paths and at doors."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Look, Pen


class Stands(StrEnum):
    """What it is fixed to."""

    POST = "post"
    BOLLARD = "bollard"
    BUILDING = "building"
    GROUND = "set in the ground"
    TREE = "tree"


@dataclass(frozen=True, slots=True, kw_only=True)
class LightDetails:
    """What is recorded of a light."""

    stands: Stands = field(default=Stands.POST, metadata=about("Fixed to", schedule=True))
    height_m: float | None = field(
        default=None, metadata=about("Height", unit="m", low=0.0, high=30.0, schedule=True)
    )
    switched: str = field(
        default="", metadata=about("Switched", help="Where and how: a key, a clock, dusk.")
    )
    fed_from: str = field(
        default="",
        metadata=about("Fed from", help="A cable runs to it; draw that as a buried service."),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="light",
    title="Light",
    plural="Lights",
    forms=(Form.POINT,),
    details=LightDetails,
    look=Look(pen=Pen(width=0.25), symbol="light", symbol_mm=2.5),
    element="LIGHT",
    legend="Light",
    order=91,
    help="A lamp on a post, a wall or in the ground.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING}),
)
