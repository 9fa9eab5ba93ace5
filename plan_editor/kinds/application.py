"""Applications: what somebody asks leave to put up, add or take away."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class AskedFor(StrEnum):
    """What is asked for."""

    NEW = "new memorial"
    INSCRIPTION = "added inscription"
    REPLACEMENT = "replacement"
    REPAIR = "repair"
    REMOVAL = "removal"
    OTHER = "other"


class Shape(StrEnum):
    """What sort of memorial is asked for."""

    UNKNOWN = "not told"
    HEADSTONE = "headstone"
    CROSS = "cross"
    LEDGER = "ledger"
    TABLET = "tablet"
    OTHER = "other"


class Decision(StrEnum):
    """What came of it."""

    WAITING = "waiting"
    ALLOWED = "allowed under the regulations"
    FACULTY_NEEDED = "faculty needed"
    FACULTY_GRANTED = "faculty granted"
    REFUSED = "refused"
    WITHDRAWN = "withdrawn"


def _side(title: str, high: float, told: str = "") -> float | None:
    side: float | None = field(
        default=None,
        metadata=about(title, unit="mm", low=1.0, high=high, help=told, schedule=True),
    )
    return side


def _beneath(title: str, told: str = "") -> float | None:
    side: float | None = field(
        default=None, metadata=about(title, unit="mm", low=1.0, high=10_000.0, help=told)
    )
    return side


@dataclass(frozen=True, slots=True, kw_only=True)
class ApplicationDetails:
    """What is recorded of an application for a memorial."""

    asked_for: AskedFor = field(
        default=AskedFor.NEW, metadata=about("Asked for", schedule=True)
    )
    grave: ItemId | None = field(
        default=None,
        metadata=about("Grave", refers_to=BURIAL_PLACES, schedule=True),
    )
    memorial: ItemId | None = field(
        default=None,
        metadata=about(
            "Memorial", refers_to=("memorial",), help="The stone concerned, once it stands."
        ),
    )
    received: str = field(default="", metadata=about("Received", date=True, schedule=True))
    applicant: str = field(default="", metadata=about("Applicant", private=True))
    contact: ItemId | None = field(
        default=None, metadata=about("Contact", refers_to=("owner_contact",), private=True)
    )
    mason: str = field(default="", metadata=about("Mason", private=True))
    form: Shape = field(default=Shape.UNKNOWN, metadata=about("Form", schedule=True))
    height_mm: float | None = _side(
        "Height", 10_000.0, "Of a ledger or a tablet its length, as it lies."
    )
    width_mm: float | None = _side("Width", 10_000.0)
    thickness_mm: float | None = _side("Thickness", 5_000.0)
    material: str = field(default="", metadata=about("Material", schedule=True))
    base_width_mm: float | None = _beneath("Width of the base", "Empty where it has none.")
    base_depth_mm: float | None = _beneath("Base from front to back")
    vase: bool = field(default=False, metadata=about("The base holds a vase"))
    foundation_width_mm: float | None = _beneath("Width of the foundation")
    foundation_depth_mm: float | None = _beneath("Foundation from front to back")
    kerbs: bool = field(
        default=False,
        metadata=about("Kerbs", help="Or rails, chains, chippings round the grave."),
    )
    lettering: str = field(
        default="", metadata=about("Lettering", help="How it is cut, and its colour.")
    )
    inscription: str = field(default="", metadata=about("Inscription", long=True))
    decision: Decision = field(
        default=Decision.WAITING,
        metadata=about(
            "Decision",
            help="What falls outside the diocese's own regulations takes a faculty.",
            schedule=True,
        ),
    )
    decided: str = field(default="", metadata=about("Decided", date=True, schedule=True))
    decided_by: str = field(default="", metadata=about("Decided by"))
    fixed: str = field(default="", metadata=about("Fixed", date=True))
    remarks: str = field(default="", metadata=about("Remarks", long=True, private=True))


KIND = Kind(
    name="application",
    title="Application",
    plural="Applications",
    forms=(Form.NONE,),
    details=ApplicationDetails,
    element="APPLIC",
    help="What a family asks leave to put up, add or take away.",
    label="asked_for",
    since="received",
)
