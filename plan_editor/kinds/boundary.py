"""The boundary: how far the churchyard reaches, and whether it is open for burials."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import Look, Pen


class Open(StrEnum):
    """Whether people may still be buried there."""

    OPEN = "open"
    CLOSED = "closed by Order in Council"
    FULL = "full, not closed by order"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundaryDetails:
    """What is recorded of the boundary of a churchyard."""

    name: str = field(default="", metadata=about("Name", schedule=True))
    burials: Open = field(default=Open.UNKNOWN, metadata=about("For burials", schedule=True))
    closed: str = field(
        default="", metadata=about("Closed", date=True, help="The date of the order.")
    )
    consecrated: str = field(default="", metadata=about("Consecrated", date=True))
    title_number: str = field(
        default="",
        metadata=about(
            "Title number",
            help="At the land registry, where the ground is registered. A title plan shows"
            " general boundaries only.",
        ),
    )
    kept_by: str = field(
        default="",
        metadata=about(
            "Kept up by",
            help="The parochial church council, or the council that took over a closed ground.",
        ),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="boundary",
    title="Boundary",
    plural="Boundaries",
    forms=(Form.AREA, Form.LINE),
    details=BoundaryDetails,
    look=Look(pen=Pen(width=0.7, dash=(10.0, 2.0, 2.0, 2.0))),
    element="BOUND",
    legend="Boundary of the churchyard",
    order=41,
    help="How far the churchyard reaches. Close it to an area, and free ground can be counted.",
    label="name",
    seen="consecrated",
)
