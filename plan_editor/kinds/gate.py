"""Gates: the ways in, and how wide they are."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Look, Pen


class GateSort(StrEnum):
    """What sort of gate it is."""

    HAND = "hand gate"
    PAIR = "pair of gates"
    FIELD = "field gate"
    KISSING = "kissing gate"
    LYCHGATE = "lychgate"
    STILE = "stile"
    GAP = "gap without a gate"


@dataclass(frozen=True, slots=True, kw_only=True)
class GateDetails:
    """What is recorded of a gate."""

    name: str = field(default="", metadata=about("Name", schedule=True))
    sort: GateSort = field(default=GateSort.HAND, metadata=about("Sort", schedule=True))
    clear_width_m: float | None = field(
        default=None,
        metadata=about(
            "Clear width",
            unit="m",
            low=0.2,
            high=8.0,
            help="Between the posts when it stands open: what can be brought in.",
            schedule=True,
        ),
    )
    facing_deg: float | None = field(
        default=None,
        metadata=about(
            "Opens towards",
            unit="°",
            low=0.0,
            high=360.0,
            help="The bearing to which it swings.",
        ),
    )
    locked: bool = field(default=False, metadata=about("Kept locked"))
    key_kept: str = field(default="", metadata=about("Where the key is", private=True))
    kept_by: str = field(
        default="", metadata=about("Kept up by", help="Whose duty it is, as far as is known.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="gate",
    title="Gate",
    plural="Gates",
    forms=(Form.POINT, Form.LINE),
    details=GateDetails,
    look=Look(pen=Pen(width=0.25), symbol="gate", symbol_mm=3.0),
    element="GATE",
    legend="Gate",
    order=42,
    help="A gate: one point in its middle, or a line from post to post.",
    blocks=frozenset({Blocks.DIGGING}),
    label="name",
    facing="facing_deg",
)
