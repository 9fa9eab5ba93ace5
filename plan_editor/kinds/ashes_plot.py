"""Ashes plots: a small space for the ashes of one or more people."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind, LookWhen
from plan_editor.plan.look import Across, Look, Pen


class State(StrEnum):
    """What an ashes plot may be used for."""

    OCCUPIED = "occupied"
    FREE = "free"
    RESERVED = "reserved"
    CLOSED = "cannot be used"
    UNKNOWN = "unknown"


class Laid(StrEnum):
    """How ashes are laid in the ground."""

    UNKNOWN = "unknown"
    LOOSE = "loose"
    CONTAINER = "in a container"


@dataclass(frozen=True, slots=True, kw_only=True)
class AshesPlotDetails:
    """What is recorded of an ashes plot."""

    state: State = field(default=State.UNKNOWN, metadata=about("State", schedule=True))
    interments: int | None = field(
        default=None,
        metadata=about(
            "Room for", low=1, high=12, help="For the ashes of how many people.", schedule=True
        ),
    )
    laid: Laid = field(default=Laid.UNKNOWN, metadata=about("Laid", schedule=True))
    depth_m: float | None = field(
        default=None, metadata=about("Depth as dug", unit="m", low=0.1, high=2.0)
    )
    dug: str = field(
        default="", metadata=about("Dug or re-opened", date=True, help="The last time.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="ashes_plot",
    title="Ashes plot",
    plural="Ashes plots",
    forms=(Form.RECTANGLE,),
    details=AshesPlotDetails,
    look=Look(pen=Pen(width=0.25), fill="#F1ECDD"),
    looks=(
        LookWhen(
            detail="state",
            value=State.FREE,
            look=Look(pen=Pen(width=0.25, dash=(2.0, 1.0))),
            legend="Ashes plot, free",
        ),
        LookWhen(
            detail="state",
            value=State.RESERVED,
            look=Look(pen=Pen(width=0.25), across=Across.ONE),
            legend="Ashes plot, reserved",
        ),
        LookWhen(
            detail="state",
            value=State.CLOSED,
            look=Look(pen=Pen(width=0.25), across=Across.TWO),
            legend="Ashes plot that cannot be used",
        ),
        LookWhen(
            detail="state",
            value=State.UNKNOWN,
            look=Look(pen=Pen(width=0.25, dash=(0.3, 0.8))),
            legend="Ashes plot, state unknown",
        ),
    ),
    element="ASHES",
    legend="Ashes plot",
    order=61,
    help="A small space for ashes, often 0.6 m square. Draw one side, then give the other.",
    blocks=frozenset({Blocks.DIGGING}),
    numbered=True,
    holds_burials=True,
    # 600 mm square, the grid in common use
    usual_m=(0.6, 0.6),
    seen="dug",
)
