"""Zones: ground to which something applies that cannot be seen."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind, LookWhen
from plan_editor.plan.look import Hatch, Look, Pattern, Pen

_RUST = "#9A3B22"
_STRAW = "#8A6410"
_MOSS = "#44662F"
_SLATE = "#2F5D7C"


class ZoneSort(StrEnum):
    """What applies there."""

    CONSECRATED = "consecrated ground"
    UNCONSECRATED = "unconsecrated ground"
    ASHES = "ashes area"
    NO_DIG = "no digging"
    ARCHAEOLOGY = "archaeology"
    WILDLIFE = "wildlife area"
    PROTECTED_SITE = "protected nature site"
    ANCIENT_WOODLAND = "ancient woodland"
    WET = "wet ground"
    CLOSED = "closed for burials"
    SET_ASIDE = "set aside"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneDetails:
    """What is recorded of a zone."""

    sort: ZoneSort = field(default=ZoneSort.SET_ASIDE, metadata=about("Sort", schedule=True))
    name: str = field(default="", metadata=about("Name", schedule=True))
    set_by: str = field(
        default="",
        metadata=about(
            "Set by",
            help="The faculty, sentence of consecration, order or minute; where it is kept.",
            schedule=True,
        ),
    )
    since: str = field(default="", metadata=about("Since", date=True))
    until: str = field(
        default="",
        metadata=about("Until", date=True, planned=True, help="Empty where it has no end."),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


def _zone(sort: ZoneSort, legend: str, pen: Pen, hatch: Hatch | None = None) -> LookWhen:
    return LookWhen(detail="sort", value=sort, look=Look(pen=pen, hatch=hatch), legend=legend)


def _lines(angle_deg: float, spacing: float, colour: str) -> Hatch:
    return Hatch(angle_deg=angle_deg, spacing=spacing, pen=Pen(width=0.18, colour=colour))


def _marks(pattern: Pattern, size: float, colour: str) -> Hatch:
    return Hatch(pattern=pattern, spacing=5.0, size=size, pen=Pen(width=0.18, colour=colour))


KIND = Kind(
    name="zone",
    title="Zone",
    plural="Zones",
    forms=(Form.AREA,),
    details=ZoneDetails,
    look=Look(pen=Pen(width=0.25, dash=(4.0, 1.0, 1.0, 1.0))),
    looks=(
        _zone(
            ZoneSort.CONSECRATED,
            "Consecrated ground",
            Pen(width=0.35, dash=(6.0, 1.0, 1.0, 1.0)),
        ),
        _zone(
            ZoneSort.UNCONSECRATED,
            "Unconsecrated ground",
            Pen(width=0.35, dash=(6.0, 1.0, 1.0, 1.0, 1.0, 1.0)),
            _lines(90.0, 8.0, "#566268"),
        ),
        _zone(
            ZoneSort.ASHES,
            "Ashes area",
            Pen(width=0.25, dash=(3.0, 1.0)),
            _marks(Pattern.DOTS, 0.5, "#566268"),
        ),
        _zone(
            ZoneSort.NO_DIG,
            "No digging",
            Pen(width=0.35, colour=_RUST, dash=(3.0, 1.0)),
            _lines(135.0, 3.0, _RUST),
        ),
        _zone(
            ZoneSort.ARCHAEOLOGY,
            "Archaeology",
            Pen(width=0.25, colour=_STRAW, dash=(3.0, 1.0)),
            Hatch(pattern=Pattern.CROSSED, spacing=6.0, pen=Pen(width=0.18, colour=_STRAW)),
        ),
        _zone(
            ZoneSort.WILDLIFE,
            "Wildlife area",
            Pen(width=0.25, colour=_MOSS, dash=(3.0, 1.0)),
            _marks(Pattern.STROKES, 2.0, _MOSS),
        ),
        _zone(
            ZoneSort.PROTECTED_SITE,
            "Protected nature site",
            Pen(width=0.5, colour=_MOSS, dash=(4.0, 1.0, 1.0, 1.0)),
        ),
        _zone(
            ZoneSort.ANCIENT_WOODLAND,
            "Ancient woodland",
            Pen(width=0.35, colour=_MOSS, dash=(4.0, 1.0, 1.0, 1.0)),
            _marks(Pattern.CROSSES, 2.0, _MOSS),
        ),
        _zone(
            ZoneSort.WET,
            "Wet ground",
            Pen(width=0.25, colour=_SLATE, dash=(3.0, 1.0)),
            _lines(0.0, 4.0, _SLATE),
        ),
        _zone(
            ZoneSort.CLOSED,
            "Closed for burials",
            Pen(width=0.35, dash=(3.0, 1.0)),
            _lines(45.0, 6.0, "#566268"),
        ),
    ),
    element="ZONE",
    legend="Ground set aside",
    order=8,
    help="Ground to which something applies: consecration, no digging, an ashes area.",
    label="name",
    since="since",
    until="until",
)
