"""Memorials: stones, crosses, ledgers and tombs, and what holds them up."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Blocks, Form, Kind, LookWhen
from plan_editor.plan.look import Hatch, Look, Pattern, Pen

_FLAT = Hatch(pattern=Pattern.LINES, angle_deg=45.0, spacing=0.8, pen=Pen(width=0.18))


class MemorialForm(StrEnum):
    """What sort of memorial it is."""

    HEADSTONE = "headstone"
    CROSS = "cross"
    LEDGER = "ledger"
    KERB = "kerb"
    CHEST_TOMB = "chest tomb"
    TABLE_TOMB = "table tomb"
    OBELISK = "obelisk"
    TABLET = "tablet"
    VASE = "vase"
    OTHER = "other"


class Anchor(StrEnum):
    """What holds it up; once fixed it cannot be seen."""

    UNKNOWN = "unknown"
    NONE = "none"
    SUNK = "sunk in the ground"
    GROUND_ANCHOR = "ground anchor"
    FOUNDATION = "foundation slab"


@dataclass(frozen=True, slots=True, kw_only=True)
class MemorialDetails:
    """What is recorded of a memorial; whether it is safe follows from its latest inspection."""

    form: MemorialForm = field(
        default=MemorialForm.HEADSTONE, metadata=about("Form", schedule=True)
    )
    height_m: float | None = field(
        default=None,
        metadata=about(
            "Height above ground",
            unit="m",
            low=0.0,
            high=10.0,
            help="From the turf to the top; clearances follow from it.",
            schedule=True,
        ),
    )
    material: str = field(default="", metadata=about("Material", schedule=True))
    anchor: Anchor = field(default=Anchor.UNKNOWN, metadata=about("Held up by"))
    grave: ItemId | None = field(
        default=None,
        metadata=about("Stands on grave", refers_to=BURIAL_PLACES),
    )
    erected: str = field(default="", metadata=about("Erected", date=True))
    list_entry: str = field(
        default="",
        metadata=about(
            "List entry number",
            help="Its number on the National Heritage List, where it has one.",
        ),
    )
    war_grave: bool = field(default=False, metadata=about("War grave", schedule=True))
    inscription: str = field(default="", metadata=about("Inscription", long=True))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="memorial",
    title="Memorial",
    plural="Memorials",
    forms=(Form.RECTANGLE,),
    details=MemorialDetails,
    look=Look(pen=Pen(width=0.35), solid=True, face=True),
    looks=(
        LookWhen(
            detail="form",
            value=MemorialForm.LEDGER,
            look=Look(pen=Pen(width=0.25), hatch=_FLAT, face=True),
            legend="Ledger lying flat",
        ),
        LookWhen(
            detail="form",
            value=MemorialForm.KERB,
            look=Look(pen=Pen(width=0.35), face=True),
            legend="Kerb",
        ),
    ),
    element="MEMOR",
    legend="Memorial",
    order=70,
    help="A stone, cross or tomb. Draw along its face, then give its thickness.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING}),
    numbered=True,
    # 900 mm broad and 150 mm thick, the largest that many dioceses allow without more
    usual_m=(0.9, 0.15),
    since="erected",
)
