"""Reservations: spaces kept for somebody by faculty."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class Stage(StrEnum):
    """How far it has come."""

    ASKED = "asked for"
    GRANTED = "granted"
    USED = "used"
    LAPSED = "lapsed"
    GIVEN_UP = "given up"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReservationDetails:
    """What is recorded of a reservation."""

    grave: ItemId | None = field(
        default=None,
        metadata=about("Space", refers_to=BURIAL_PLACES, schedule=True),
    )
    stage: Stage = field(
        default=Stage.ASKED,
        metadata=about(
            "Stage",
            help="Only a faculty keeps a particular space; a promise does not.",
            schedule=True,
        ),
    )
    faculty: str = field(
        default="", metadata=about("Faculty", help="Its reference.", schedule=True)
    )
    asked: str = field(default="", metadata=about("Asked for", date=True))
    granted: str = field(default="", metadata=about("Granted", date=True, schedule=True))
    expires: str = field(
        default="",
        metadata=about(
            "Expires",
            date=True,
            planned=True,
            help="The day on which the faculty says that it ends.",
            schedule=True,
        ),
    )
    term_years: float | None = field(
        default=None,
        metadata=about(
            "Term",
            unit="years",
            low=0.0,
            high=200.0,
            help="As the faculty has it; many last 30 years at most.",
            schedule=True,
        ),
    )
    held_for: str = field(
        default="", metadata=about("Kept for", private=True, help="Name of the person.")
    )
    contact: ItemId | None = field(
        default=None, metadata=about("Contact", refers_to=("owner_contact",), private=True)
    )
    papers: str = field(default="", metadata=about("Where the papers are"))
    remarks: str = field(default="", metadata=about("Remarks", long=True, private=True))


KIND = Kind(
    name="reservation",
    title="Reservation",
    plural="Reservations",
    forms=(Form.NONE,),
    details=ReservationDetails,
    element="RESERV",
    help="A space kept for somebody. It takes a faculty; ask the diocesan registry.",
    label="faculty",
    since="asked",
    until="expires",
)
