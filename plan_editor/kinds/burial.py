"""Burials: the entries of the burial register, and where each is believed to lie."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class BurialSort(StrEnum):
    """What was laid in the ground."""

    COFFIN = "coffin"
    ASHES = "ashes"
    UNKNOWN = "unknown"


class Belief(StrEnum):
    """How surely the entry belongs to its grave."""

    CERTAIN = "certain"
    PROBABLE = "probable"
    DOUBTFUL = "doubtful"


@dataclass(frozen=True, slots=True, kw_only=True)
class BurialDetails:
    """What is recorded of a burial: the columns of the register, and the grave."""

    surname: str = field(default="", metadata=about("Surname", schedule=True))
    forenames: str = field(default="", metadata=about("Forenames", schedule=True))
    sort: BurialSort = field(
        default=BurialSort.UNKNOWN, metadata=about("Coffin or ashes", schedule=True)
    )
    abode: str = field(default="", metadata=about("Abode", help="As the register has it."))
    died: str = field(default="", metadata=about("Died", date=True))
    buried: str = field(
        default="",
        metadata=about(
            "Buried", date=True, help="The year, or year and month, is enough.", schedule=True
        ),
    )
    age: str = field(
        default="",
        metadata=about(
            "Age", help="As the register has it: 82, 3 weeks, infant.", schedule=True
        ),
    )
    minister: str = field(default="", metadata=about("Officiating minister"))
    cremated_at: str = field(
        default="", metadata=about("Cremated at", help="For ashes, where it is known.")
    )
    book: str = field(
        default="",
        metadata=about("Register", help="Which book, where there is more than one."),
    )
    place_written: str = field(
        default="",
        metadata=about("Place as written", help="The register's own words on where it is."),
    )
    grave: ItemId | None = field(
        default=None,
        metadata=about("Lies in", refers_to=BURIAL_PLACES, schedule=True),
    )
    belief: Belief | None = field(
        default=None,
        metadata=about("Certain of the grave", help="Empty as long as nobody has judged it."),
    )
    depth_m: float | None = field(
        default=None,
        metadata=about(
            "Depth of the lid",
            unit="m",
            low=0.0,
            high=5.0,
            help="From the turf to the top of the coffin, as dug.",
        ),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="burial",
    title="Burial",
    plural="Burials",
    forms=(Form.NONE,),
    details=BurialDetails,
    element="BURIAL",
    help="One entry of the burial register; its number is the number of the entry.",
    label="surname",
    since="buried",
)
