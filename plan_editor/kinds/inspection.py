"""Inspections: what was found when a memorial was looked at or tested."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class Test(StrEnum):
    """How a memorial was tested."""

    VISUAL = "visual"
    HAND = "hand"
    FORCE = "force"
    ENGINEER = "engineer"


class Result(StrEnum):
    """What was found: the three categories in general use."""

    IMMEDIATE = "immediate action"
    MINOR = "minor fault, look again"
    SOUND = "sound"


@dataclass(frozen=True, slots=True, kw_only=True)
class InspectionDetails:
    """What is recorded of one inspection of one memorial."""

    memorial: ItemId | None = field(
        default=None, metadata=about("Memorial", refers_to=("memorial",), schedule=True)
    )
    date: str = field(default="", metadata=about("Date", date=True, schedule=True))
    test: Test = field(default=Test.VISUAL, metadata=about("Tested by", schedule=True))
    result: Result | None = field(
        default=None,
        metadata=about(
            "Result",
            help="Without one an inspection counts for nothing; of one day the worst counts.",
            schedule=True,
        ),
    )
    force_n: float | None = field(
        default=None, metadata=about("Force applied", unit="N", low=0.0, high=1000.0)
    )
    inspector: str = field(default="", metadata=about("Inspected by"))
    action: str = field(default="", metadata=about("Action taken or wanted", long=True))
    next_due: str = field(default="", metadata=about("Next due", date=True))


KIND = Kind(
    name="inspection",
    title="Inspection",
    plural="Inspections",
    forms=(Form.NONE,),
    details=InspectionDetails,
    element="INSPEC",
    help="What was found at a memorial. Testing is for trained people.",
    since="date",
)
