"""Fences and railings."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Along, Look, Mark, Pen


class FenceSort(StrEnum):
    """What sort of fence it is."""

    POST_AND_RAIL = "post and rail"
    POST_AND_WIRE = "post and wire"
    BOARDED = "boarded"
    RAILING = "iron railing"
    CHAIN = "chain or rope"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class FenceDetails:
    """What is recorded of a fence."""

    sort: FenceSort = field(
        default=FenceSort.POST_AND_RAIL, metadata=about("Sort", schedule=True)
    )
    height_m: float | None = field(
        default=None, metadata=about("Height", unit="m", low=0.0, high=6.0, schedule=True)
    )
    material: str = field(default="", metadata=about("Material", schedule=True))
    kept_by: str = field(
        default="", metadata=about("Kept up by", help="Whose duty it is, as far as is known.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="fence",
    title="Fence",
    plural="Fences",
    forms=(Form.LINE,),
    details=FenceDetails,
    look=Look(pen=Pen(width=0.25), along=Along(mark=Mark.TICKS, every=5.0, size=1.2)),
    element="FENCE",
    legend="Fence or railing",
    order=40,
    help="A fence or railing along its posts.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING, Blocks.WALKING}),
)
