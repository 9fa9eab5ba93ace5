"""Remains moved: an event in the life of a grave, by faculty or licence; no entry is lost."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class RemovalDetails:
    """What is recorded of remains that were moved."""

    burial: ItemId | None = field(
        default=None, metadata=about("Entry", refers_to=("burial",), schedule=True)
    )
    lay_in: ItemId | None = field(
        default=None, metadata=about("Lay in", refers_to=BURIAL_PLACES, schedule=True)
    )
    moved_to: ItemId | None = field(
        default=None, metadata=about("Moved to", refers_to=BURIAL_PLACES, schedule=True)
    )
    elsewhere: str = field(
        default="", metadata=about("Elsewhere", help="Where, if not in this churchyard.")
    )
    date: str = field(default="", metadata=about("Moved on", date=True, schedule=True))
    faculty: str = field(
        default="",
        metadata=about(
            "Faculty or licence", help="Remains may not be moved without.", schedule=True
        ),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="removal",
    title="Remains moved",
    plural="Remains moved",
    forms=(Form.NONE,),
    details=RemovalDetails,
    element="REMVAL",
    help="Remains that were moved by faculty or licence. The entry of the register stays.",
    label="faculty",
    since="date",
)
