"""Vaults and brick-lined graves: built chambers under the ground."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind, LookWhen
from plan_editor.plan.look import Across, Hatch, Look, Pattern, Pen

_HATCH = Hatch(pattern=Pattern.CROSSED, spacing=3.0)


class State(StrEnum):
    """What a vault may be used for."""

    OCCUPIED = "occupied"
    FREE = "free"
    RESERVED = "reserved"
    CLOSED = "cannot be used"
    UNKNOWN = "unknown"


class Construction(StrEnum):
    """How it is built."""

    UNKNOWN = "unknown"
    BRICK_LINED = "brick-lined grave"
    CHAMBER = "chamber under the ground"
    RAISED = "chamber partly above the ground"
    UNDER_CHURCH = "chamber under the church"


@dataclass(frozen=True, slots=True, kw_only=True)
class VaultDetails:
    """What is recorded of a vault."""

    state: State = field(default=State.UNKNOWN, metadata=about("State", schedule=True))
    construction: Construction = field(
        default=Construction.UNKNOWN, metadata=about("Built as", schedule=True)
    )
    coffins: int | None = field(
        default=None, metadata=about("Room for coffins", low=1, high=60, schedule=True)
    )
    depth_m: float | None = field(
        default=None, metadata=about("Depth of its floor", unit="m", low=0.3, high=8.0)
    )
    cover_m: float | None = field(
        default=None,
        metadata=about(
            "Earth over its roof",
            unit="m",
            low=0.0,
            high=5.0,
            help="A roof near the turf may not carry a machine; ask before one goes over it.",
        ),
    )
    entrance: str = field(
        default="", metadata=about("Entrance", help="Where it is opened, and how.")
    )
    sealed: str = field(default="", metadata=about("Sealed", date=True))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="vault",
    title="Vault",
    plural="Vaults",
    forms=(Form.RECTANGLE,),
    details=VaultDetails,
    look=Look(pen=Pen(width=0.35), fill="#F1ECDD", hatch=_HATCH),
    looks=(
        LookWhen(
            detail="state",
            value=State.FREE,
            look=Look(pen=Pen(width=0.35, dash=(2.0, 1.0)), hatch=_HATCH),
            legend="Vault with room",
        ),
        LookWhen(
            detail="state",
            value=State.RESERVED,
            look=Look(pen=Pen(width=0.35), hatch=_HATCH, across=Across.ONE),
            legend="Vault, reserved",
        ),
        LookWhen(
            detail="state",
            value=State.CLOSED,
            look=Look(pen=Pen(width=0.35), hatch=_HATCH, across=Across.TWO),
            legend="Vault that cannot be used",
        ),
        LookWhen(
            detail="state",
            value=State.UNKNOWN,
            look=Look(pen=Pen(width=0.35, dash=(0.3, 0.8)), hatch=_HATCH),
            legend="Vault, state unknown",
        ),
    ),
    element="VAULT",
    legend="Vault",
    order=60,
    help="A built chamber or brick-lined grave. Draw along its head end, then give its length.",
    blocks=frozenset({Blocks.DIGGING}),
    numbered=True,
    holds_burials=True,
    seen="sealed",
)
