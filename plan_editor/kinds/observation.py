"""Observations: the lines of a field book, as they were read on the tape."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import BURIAL_PLACES, about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind

_MEASURED = (
    *BURIAL_PLACES,
    "bench",
    "bin",
    "boundary",
    "building",
    "cordon",
    "drain",
    "fence",
    "gate",
    "grass",
    "hedge",
    "light",
    "mark",
    "memorial",
    "note",
    "notice_board",
    "path",
    "section",
    "service",
    "spot_level",
    "steps",
    "tap",
    "tree",
    "wall",
    "watercourse",
    "well",
    "zone",
)


class Measure(StrEnum):
    """What sort of line it is."""

    TIE = "tie"
    OFFSET = "offset"
    LEG = "leg"
    CHECK = "check"


class Side(StrEnum):
    """On which hand a point lies of one who stands at the first end and looks to the other."""

    UNKNOWN = "unknown"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class ObservationDetails:
    """What is recorded of one line of a field book; distances as read, the tape held level."""

    measure: Measure = field(default=Measure.TIE, metadata=about("Measured as", schedule=True))
    book: str = field(
        default="", metadata=about("Field book", help="Its name, and the page.", schedule=True)
    )
    book_line: int | None = field(
        default=None, metadata=about("Line of the book", low=1, high=100_000)
    )
    date: str = field(default="", metadata=about("Date", date=True, schedule=True))
    from_mark: ItemId | None = field(
        default=None, metadata=about("From mark", refers_to=("mark",), schedule=True)
    )
    to_mark: ItemId | None = field(
        default=None,
        metadata=about(
            "To mark",
            refers_to=("mark",),
            help="The far end of a base line, a leg or a check between marks.",
            schedule=True,
        ),
    )
    from_point: str = field(
        default="",
        metadata=about(
            "From point", help="What the book calls where the tape began, if it is no mark."
        ),
    )
    to_point: str = field(
        default="",
        metadata=about("To point", help="What the book calls the far end, if it is no mark."),
    )
    back_mark: ItemId | None = field(
        default=None,
        metadata=about(
            "Back sight",
            refers_to=("mark",),
            help="The mark that an included angle was turned from.",
        ),
    )
    back_point: str = field(
        default="",
        metadata=about(
            "Back point", help="What the book calls the back sight, if it is no mark."
        ),
    )
    point: str = field(
        default="",
        metadata=about("Point", help="What the book calls what was measured.", schedule=True),
    )
    target: ItemId | None = field(
        default=None, metadata=about("Thing measured", refers_to=_MEASURED)
    )
    corner: int | None = field(
        default=None,
        metadata=about(
            "Corner",
            low=1,
            high=999,
            help="Of the thing measured: 1 and 2 are the ends of a grave's head line.",
        ),
    )
    distance_m: float | None = field(
        default=None,
        metadata=about(
            "Distance",
            unit="m",
            low=0.0,
            high=2000.0,
            help="Of a tie, leg or check; of an offset, how far along the base line.",
            schedule=True,
        ),
    )
    offset_m: float | None = field(
        default=None,
        metadata=about(
            "Offset",
            unit="m",
            low=-500.0,
            high=500.0,
            help="Square to the base line; to the right of it, looking along, is more than 0.",
            schedule=True,
        ),
    )
    bearing_deg: float | None = field(
        default=None,
        metadata=about(
            "Bearing",
            unit="°",
            low=0.0,
            high=360.0,
            help="Clockwise from grid north, where a compass or instrument was used.",
        ),
    )
    compass: bool = field(
        default=False,
        metadata=about(
            "By compass",
            help="All compass bearings of a book are off by one angle, which is found.",
        ),
    )
    angle_deg: float | None = field(
        default=None,
        metadata=about(
            "Included angle",
            unit="°",
            low=0.0,
            high=360.0,
            help="Clockwise from the back sight to the point.",
        ),
    )
    slope_deg: float | None = field(
        default=None,
        metadata=about(
            "Slope",
            unit="°",
            low=-60.0,
            high=60.0,
            help="Of the tape, where it was not held level; the distance is along the slope.",
        ),
    )
    rise_m: float | None = field(
        default=None,
        metadata=about(
            "Rise",
            unit="m",
            low=-100.0,
            high=100.0,
            help="Height of the far end over the near one, where the tape was not held level.",
        ),
    )
    side: Side = field(
        default=Side.UNKNOWN,
        metadata=about(
            "Side",
            help="Of the line between the two marks that a point is tied to, from the first.",
        ),
    )
    sd_m: float | None = field(
        default=None,
        metadata=about(
            "Standard deviation",
            unit="m",
            low=0.0001,
            high=10.0,
            help="How far two readings of this distance usually differ, roughly.",
        ),
    )
    angle_sd_deg: float | None = field(
        default=None,
        metadata=about(
            "Standard deviation of the angle",
            unit="°",
            low=0.0001,
            high=10.0,
            help="Of the bearing or the included angle.",
        ),
    )
    left_out: bool = field(
        default=False, metadata=about("Left out", help="Kept, but not used in the sums.")
    )
    observer: str = field(default="", metadata=about("Measured by"))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="observation",
    title="Observation",
    plural="Observations",
    forms=(Form.NONE,),
    details=ObservationDetails,
    element="OBSERV",
    help="One line of a field book: a tie, an offset, a leg or a check.",
    label="point",
)
