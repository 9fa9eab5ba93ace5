"""Works: what is to be done or was done, to what, with whose leave."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind

_WORKED_ON = (
    "memorial",
    *BURIAL_PLACES,
    "tree",
    "hedge",
    "wall",
    "fence",
    "gate",
    "path",
    "steps",
    "building",
    "drain",
    "service",
    "cordon",
    "bench",
    "grass",
    "zone",
    "notice_board",
    "light",
    "tap",
)


class Priority(StrEnum):
    """How soon it is wanted."""

    NOW = "at once"
    YEAR = "within a year"
    FIVE_YEARS = "within five years"
    DESIRABLE = "when there is money"


class Leave(StrEnum):
    """What leave it takes: the Faculty Jurisdiction Rules tell which; ask the archdeacon."""

    UNKNOWN = "not yet known"
    NONE = "none"
    LIST_A = "List A: none, on conditions"
    LIST_B = "List B: the archdeacon's consent"
    FACULTY = "faculty"


class Progress(StrEnum):
    """How far it has come."""

    WANTED = "wanted"
    LEAVE_ASKED = "leave asked for"
    ORDERED = "ordered"
    DONE = "done"
    DROPPED = "dropped"


@dataclass(frozen=True, slots=True, kw_only=True)
class WorksDetails:
    """What is recorded of a piece of work."""

    what: str = field(default="", metadata=about("What", schedule=True))
    target: ItemId | None = field(
        default=None, metadata=about("To what", refers_to=_WORKED_ON, schedule=True)
    )
    progress: Progress = field(
        default=Progress.WANTED, metadata=about("Progress", schedule=True)
    )
    leave: str = field(
        default="",
        metadata=about(
            "Leave",
            help="The faculty, the archdeacon's consent or the list item it rests on.",
            schedule=True,
        ),
    )
    leave_needed: Leave = field(
        default=Leave.UNKNOWN, metadata=about("Leave needed", schedule=True)
    )
    leave_given: str = field(default="", metadata=about("Leave given", date=True))
    priority: Priority | None = field(default=None, metadata=about("Priority", schedule=True))
    inspection: ItemId | None = field(
        default=None, metadata=about("After which inspection", refers_to=("inspection",))
    )
    item_no: str = field(
        default="",
        metadata=about(
            "Item of the report",
            help="Its number in the architect's five-yearly report, where it stands there.",
        ),
    )
    estimate: float | None = field(
        default=None,
        metadata=about("Estimate", unit="£", low=0.0, high=10_000_000.0, schedule=True),
    )
    due: str = field(default="", metadata=about("Due", date=True, planned=True, schedule=True))
    done: str = field(default="", metadata=about("Done", date=True, schedule=True))
    done_by: str = field(default="", metadata=about("Done by"))
    cost: float | None = field(
        default=None, metadata=about("Cost", unit="£", low=0.0, high=10_000_000.0)
    )
    papers: str = field(default="", metadata=about("Where the papers are"))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="works",
    title="Work",
    plural="Works",
    forms=(Form.NONE,),
    details=WorksDetails,
    element="WORKS",
    help="A line of the log-book: an alteration, repair or event, wanted or done.",
    label="what",
)
