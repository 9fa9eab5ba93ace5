"""Tracing: each step taken to find and tell the family that a stone belongs to."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class Step(StrEnum):
    """What was done, or came back."""

    LETTER = "letter sent"
    NOTICE_ON_STONE = "notice fixed to the stone"
    NOTICE_PUBLIC = "notice in public"
    ENQUIRY = "enquiry made"
    REPLY = "reply"
    NO_REPLY = "came back unanswered"


@dataclass(frozen=True, slots=True, kw_only=True)
class TracingDetails:
    """What is recorded of one step of tracing a family."""

    target: ItemId | None = field(
        default=None,
        metadata=about("Of what", refers_to=("memorial", *BURIAL_PLACES), schedule=True),
    )
    step: Step = field(default=Step.LETTER, metadata=about("Step", schedule=True))
    date: str = field(default="", metadata=about("Date", date=True, schedule=True))
    contact: ItemId | None = field(
        default=None, metadata=about("To or from", refers_to=("owner_contact",), private=True)
    )
    days: int | None = field(
        default=None,
        metadata=about(
            "Runs for",
            unit="days",
            low=1,
            high=400,
            help="28 is the period of public notice of a faculty; empty where none runs.",
            schedule=True,
        ),
    )
    where: str = field(
        default="", metadata=about("Where", help="Such as the church door, or the newspaper.")
    )
    by: str = field(default="", metadata=about("By"))
    says: str = field(default="", metadata=about("What it says", long=True, private=True))


KIND = Kind(
    name="tracing",
    title="Tracing step",
    plural="Tracing steps",
    forms=(Form.NONE,),
    details=TracingDetails,
    element="TRACNG",
    help="A letter, a notice or a reply on the way to the family that a stone belongs to.",
    label="step",
    since="date",
)
