"""Graves: a space for one or more coffins, used, free or kept back."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind, LookWhen
from plan_editor.plan.look import Across, Look, Pen


class State(StrEnum):
    """What a grave space may be used for."""

    OCCUPIED = "occupied"
    FREE = "free"
    RESERVED = "reserved"
    CLOSED = "cannot be used"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class GraveDetails:
    """What is recorded of a grave."""

    state: State = field(default=State.UNKNOWN, metadata=about("State", schedule=True))
    coffins: int | None = field(
        default=None,
        metadata=about(
            "Depth for coffins",
            low=1,
            high=4,
            help="For how many coffins it was or may be dug.",
        ),
    )
    depth_m: float | None = field(
        default=None, metadata=about("Depth as dug", unit="m", low=0.3, high=4.0)
    )
    dug: str = field(
        default="",
        metadata=about(
            "Dug or re-opened",
            date=True,
            help="The last time; a fresh grave settles for months.",
        ),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="grave",
    title="Grave",
    plural="Graves",
    forms=(Form.RECTANGLE,),
    details=GraveDetails,
    look=Look(pen=Pen(width=0.25), fill="#F1ECDD", head_bar=True),
    looks=(
        LookWhen(
            detail="state",
            value=State.FREE,
            look=Look(pen=Pen(width=0.25, dash=(2.0, 1.0)), head_bar=True),
            legend="Grave space, free",
        ),
        LookWhen(
            detail="state",
            value=State.RESERVED,
            look=Look(pen=Pen(width=0.25), head_bar=True, across=Across.ONE),
            legend="Grave space, reserved",
        ),
        LookWhen(
            detail="state",
            value=State.CLOSED,
            look=Look(pen=Pen(width=0.25), head_bar=True, across=Across.TWO),
            legend="Grave space that cannot be used",
        ),
        LookWhen(
            detail="state",
            value=State.UNKNOWN,
            look=Look(pen=Pen(width=0.25, dash=(0.3, 0.8)), head_bar=True),
            legend="Grave space, state unknown",
        ),
    ),
    element="GRAVE",
    legend="Grave",
    order=60,
    help="A space for one or more coffins. Draw along its head end, then give its length.",
    blocks=frozenset({Blocks.DIGGING}),
    numbered=True,
    holds_burials=True,
    # 4 ft by 9 ft, the usual full-earth plot: Stockton-on-Tees council, burial regulations
    usual_m=(1.22, 2.74),
    seen="dug",
)
