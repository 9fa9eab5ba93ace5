"""Paths: an area, or a centre line with a width."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class PathDetails:
    """What is recorded of a path."""

    width_m: float | None = field(
        default=1.5,
        metadata=about(
            "Width",
            unit="m",
            low=0.2,
            high=20.0,
            help="Of a path drawn along its middle.",
            schedule=True,
        ),
    )
    surface: str = field(default="", metadata=about("Surface", schedule=True))
    name: str = field(default="", metadata=about("Name"))
    public: bool = field(default=False, metadata=about("Public right of way"))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="path",
    title="Path",
    plural="Paths",
    forms=(Form.LINE, Form.AREA),
    details=PathDetails,
    look=Look(pen=Pen(width=0.18, dash=(2.0, 1.0)), fill="#F4F0E4", edges_only=True),
    element="PATH",
    legend="Path",
    order=20,
    help="A path along its middle, with its width; or its outline.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING}),
    width="width_m",
    label="name",
)
