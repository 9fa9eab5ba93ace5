"""Drains and dry ditches."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind, LookWhen
from plan_editor.plan.look import Along, Look, Mark, Pen

_BLUE = "#2F5D7C"
_ARROWS = Along(mark=Mark.ARROWS, every=20.0, size=1.5)


class DrainSort(StrEnum):
    """What sort of drain it is."""

    FIELD = "field drain"
    DRY_DITCH = "dry ditch"
    RAINWATER = "rainwater drain"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class DrainDetails:
    """What is recorded of a drain."""

    sort: DrainSort = field(default=DrainSort.FIELD, metadata=about("Sort", schedule=True))
    depth_m: float | None = field(
        default=None,
        metadata=about(
            "Depth",
            unit="m",
            low=0.0,
            high=6.0,
            help="From the turf to its top. Buried field drains usually lie about 0.7 m down.",
            schedule=True,
        ),
    )
    bore_mm: float | None = field(
        default=None, metadata=about("Bore", unit="mm", low=20.0, high=2000.0)
    )
    leads_to: str = field(default="", metadata=about("Leads to", help="Where it empties."))
    working: bool = field(default=True, metadata=about("Carries water"))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="drain",
    title="Drain",
    plural="Drains",
    forms=(Form.LINE,),
    details=DrainDetails,
    look=Look(pen=Pen(width=0.25, colour=_BLUE, dash=(3.0, 1.0)), along=_ARROWS),
    looks=(
        LookWhen(
            detail="sort",
            value=DrainSort.DRY_DITCH,
            look=Look(pen=Pen(width=0.25, colour=_BLUE, dash=(6.0, 1.0, 1.0, 1.0))),
            legend="Dry ditch",
        ),
    ),
    element="DRAIN",
    legend="Drain, with its fall",
    order=26,
    help="A drain, drawn the way its water runs.",
    blocks=frozenset({Blocks.DIGGING}),
)
