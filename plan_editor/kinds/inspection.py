"""Inspections: what was found when a stone, a tree, a wall or anything else was looked at."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class Test(StrEnum):
    """How it was looked at or tested."""

    VISUAL = "visual"
    HAND = "hand"
    FORCE = "force"
    ENGINEER = "engineer"


class Result(StrEnum):
    """What was found: the three categories in general use, and what was done at once."""

    IMMEDIATE = "immediate action"
    MADE_SAFE = "made safe for now"
    MINOR = "minor fault, look again"
    SOUND = "sound"


_INSPECTED = (
    "memorial",
    "tree",
    "wall",
    "gate",
    "path",
    "steps",
    "fence",
    "hedge",
    "bench",
    "building",
    "vault",
    "notice_board",
    "light",
    "tap",
    "cordon",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class InspectionDetails:
    """What is recorded of one inspection of one thing."""

    target: ItemId | None = field(
        default=None, metadata=about("Of what", refers_to=_INSPECTED, schedule=True)
    )
    date: str = field(default="", metadata=about("Date", date=True, schedule=True))
    test: Test = field(default=Test.VISUAL, metadata=about("Tested by", schedule=True))
    result: Result | None = field(
        default=None,
        metadata=about(
            "Result",
            help="Without one an inspection counts for nothing; of one day the worst counts,"
            " but that it was then made safe.",
            schedule=True,
        ),
    )
    force_n: float | None = field(
        default=None, metadata=about("Force applied", unit="N", low=0.0, high=1000.0)
    )
    inspector: str = field(default="", metadata=about("Inspected by"))
    action: str = field(default="", metadata=about("Action taken or wanted", long=True))
    next_due: str = field(default="", metadata=about("Next due", date=True, planned=True))
    item_no: str = field(
        default="",
        metadata=about(
            "Item of the report",
            help="Its number in the architect's five-yearly report, where it stands there.",
        ),
    )


KIND = Kind(
    name="inspection",
    title="Inspection",
    plural="Inspections",
    forms=(Form.NONE,),
    details=InspectionDetails,
    element="INSPEC",
    help="What was found at a stone, a tree, a wall. Testing is for trained people.",
    since="date",
)
