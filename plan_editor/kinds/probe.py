"""Probes: what a rod or a spade met, and how deep."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class Means(StrEnum):
    """What was used."""

    ROD = "probing rod"
    TRIAL_HOLE = "trial hole"
    DIGGING = "digging the grave"
    INSTRUMENT = "instrument"


class Met(StrEnum):
    """What was met."""

    NOTHING = "nothing"
    BURIAL = "coffin or remains"
    MASONRY = "brick or stone"
    ROOTS = "roots"
    ROCK = "rock"
    WATER = "water"
    SERVICE = "cable or pipe"
    UNSURE = "something, unsure what"


@dataclass(frozen=True, slots=True, kw_only=True)
class ProbeDetails:
    """What is recorded of one probing of one space."""

    grave: ItemId | None = field(
        default=None,
        metadata=about("Space", refers_to=BURIAL_PLACES, schedule=True),
    )
    date: str = field(default="", metadata=about("Date", date=True, schedule=True))
    means: Means = field(default=Means.ROD, metadata=about("By", schedule=True))
    met: Met | None = field(
        default=None,
        metadata=about(
            "Met",
            help="Stop where remains are met; they may not be moved without leave.",
            schedule=True,
        ),
    )
    depth_m: float | None = field(
        default=None,
        metadata=about(
            "At a depth of",
            unit="m",
            low=0.0,
            high=6.0,
            help="Where nothing was met, how deep was tried.",
            schedule=True,
        ),
    )
    spot: str = field(
        default="", metadata=about("Where in the space", help="Such as head end, north side.")
    )
    prober: str = field(default="", metadata=about("Probed by"))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="probe",
    title="Probe",
    plural="Probes",
    forms=(Form.NONE,),
    details=ProbeDetails,
    element="PROBE",
    help="What probing or digging met. Have services located before a rod goes in.",
    since="date",
)
