"""Kept places: pieces of the ground that somebody wants to come back to, by a name."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPlaceDetails:
    """What is recorded of a kept place."""

    name: str = field(
        default="", metadata=about("Name", help="As you would look for it: By the west gate.")
    )
    seen: tuple[float, ...] = field(
        default=(),
        metadata=about(
            "What is seen",
            made=True,
            group=3,
            most=3,
            help="East and north of the middle, and metres across.",
        ),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="kept_place",
    title="Kept place",
    plural="Kept places",
    forms=(Form.NONE,),
    details=KeptPlaceDetails,
    element="PLACE",
    help="A piece of the ground to come back to. Look at it, then keep it.",
    label="name",
    view="seen",
)
