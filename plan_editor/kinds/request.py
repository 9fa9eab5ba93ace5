"""Burial requests: what a family asks, from the first call until the entry is written."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class Asked(StrEnum):
    """What is to be laid in the ground."""

    COFFIN = "coffin"
    ASHES = "ashes"


class Right(StrEnum):
    """On what the right of burial rests."""

    UNKNOWN = "not yet known"
    PARISHIONER = "parishioner"
    ROLL = "on the electoral roll"
    DIED_HERE = "died in the parish"
    CONSENT = "consent of the incumbent"


class Progress(StrEnum):
    """How far it has come."""

    ASKED = "asked for"
    AGREED = "agreed, space chosen"
    DUG = "dug"
    BURIED = "buried"
    DECLINED = "declined"
    WITHDRAWN = "withdrawn"


def _outer(title: str, high: float) -> float | None:
    side: float | None = field(
        default=None, metadata=about(title, unit="mm", low=100.0, high=high)
    )
    return side


@dataclass(frozen=True, slots=True, kw_only=True)
class RequestDetails:
    """What is recorded of a burial that is asked for."""

    surname: str = field(default="", metadata=about("Surname of the dead", schedule=True))
    forenames: str = field(default="", metadata=about("Forenames", schedule=True))
    asked: str = field(default="", metadata=about("Asked on", date=True, schedule=True))
    sort: Asked = field(default=Asked.COFFIN, metadata=about("Coffin or ashes", schedule=True))
    progress: Progress = field(
        default=Progress.ASKED, metadata=about("Progress", schedule=True)
    )
    right: Right = field(
        default=Right.UNKNOWN,
        metadata=about(
            "Right of burial",
            help="Parishioners, those on the roll and those who die in the parish have it;"
            " of others the incumbent decides.",
            schedule=True,
        ),
    )
    consent: str = field(
        default="", metadata=about("Consent of the incumbent", date=True, help="Its day.")
    )
    abode: str = field(default="", metadata=about("Abode"))
    died: str = field(default="", metadata=about("Died", date=True))
    age: str = field(default="", metadata=about("Age"))
    length_mm: float | None = _outer("Outer length of the coffin", 3000.0)
    width_mm: float | None = _outer("Outer width of the coffin", 1500.0)
    height_mm: float | None = _outer("Outer height of the coffin", 1200.0)
    coffins: int | None = field(
        default=None,
        metadata=about(
            "Depth for coffins", low=1, high=4, help="Room for how many is wanted in all."
        ),
    )
    wished: str = field(
        default="", metadata=about("Day of the burial", date=True, planned=True, schedule=True)
    )
    hour: str = field(default="", metadata=about("Hour"))
    grave: ItemId | None = field(
        default=None,
        metadata=about("Space", refers_to=BURIAL_PLACES, schedule=True),
    )
    reservation: ItemId | None = field(
        default=None, metadata=about("Under reservation", refers_to=("reservation",))
    )
    burial: ItemId | None = field(
        default=None, metadata=about("Entry of the register", refers_to=("burial",))
    )
    applicant: str = field(default="", metadata=about("Asked by", private=True))
    contact: ItemId | None = field(
        default=None, metadata=about("Contact", refers_to=("owner_contact",), private=True)
    )
    director: str = field(default="", metadata=about("Funeral director", private=True))
    remarks: str = field(default="", metadata=about("Remarks", long=True, private=True))


KIND = Kind(
    name="request",
    title="Burial request",
    plural="Burial requests",
    forms=(Form.NONE,),
    details=RequestDetails,
    element="BREQST",
    help="A burial that is asked for, from the first call until the register is written.",
    label="surname",
    names_people=True,
    since="asked",
)
