"""Quotes: what somebody asks for a piece of work."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteDetails:
    """What is recorded of a quote."""

    works: ItemId | None = field(
        default=None, metadata=about("For which work", refers_to=("works",), schedule=True)
    )
    firm: str = field(default="", metadata=about("From", private=True))
    date: str = field(default="", metadata=about("Date", date=True, schedule=True))
    amount: float | None = field(
        default=None,
        metadata=about("Amount", unit="£", low=0.0, high=10_000_000.0, schedule=True),
    )
    valid_until: str = field(default="", metadata=about("Holds until", date=True, planned=True))
    accepted: bool = field(default=False, metadata=about("Accepted", schedule=True))
    remarks: str = field(default="", metadata=about("Remarks", long=True, private=True))


KIND = Kind(
    name="quote",
    title="Quote",
    plural="Quotes",
    forms=(Form.NONE,),
    details=QuoteDetails,
    element="QUOTES",
    help="What somebody asks for a piece of work.",
    since="date",
)
