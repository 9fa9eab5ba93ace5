"""Grass: how each piece of it is kept, and until when it is left alone."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind, LookWhen
from plan_editor.plan.look import Hatch, Look, Pattern, Pen

_EDGE = Pen(width=0.18, colour="#44662F", dash=(1.0, 1.0))
_MARK = Pen(width=0.18, colour="#44662F")


class Regime(StrEnum):
    """How grass is kept."""

    SHORT = "short"
    SPRING = "spring meadow"
    SUMMER = "summer meadow"
    ROUGH = "rough"
    BY_HAND = "hand-trim only"


@dataclass(frozen=True, slots=True, kw_only=True)
class GrassDetails:
    """What is recorded of a piece of grass."""

    regime: Regime = field(default=Regime.SHORT, metadata=about("Kept as", schedule=True))
    uncut_from: str = field(
        default="",
        metadata=about(
            "Leave uncut from",
            date=True,
            planned=True,
            help="The first day of this year's rest.",
        ),
    )
    uncut_until: str = field(
        default="",
        metadata=about(
            "Leave uncut until",
            date=True,
            planned=True,
            help="No machine before this day; cut and carry off from then on.",
            schedule=True,
        ),
    )
    name: str = field(default="", metadata=about("Name", schedule=True))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


def _hatched(regime: Regime, legend: str, fill: str, hatch: Hatch) -> LookWhen:
    return LookWhen(
        detail="regime",
        value=regime,
        look=Look(pen=_EDGE, fill=fill, hatch=hatch),
        legend=legend,
    )


KIND = Kind(
    name="grass",
    title="Grass",
    plural="Grass",
    forms=(Form.AREA,),
    details=GrassDetails,
    look=Look(pen=_EDGE),
    looks=(
        _hatched(
            Regime.SPRING,
            "Spring meadow",
            "#F3F6EA",
            Hatch(pattern=Pattern.DOTS, spacing=3.0, size=0.4, pen=_MARK),
        ),
        _hatched(
            Regime.SUMMER,
            "Summer meadow",
            "#EDF3E2",
            Hatch(pattern=Pattern.STROKES, spacing=3.0, size=1.2, pen=_MARK),
        ),
        _hatched(
            Regime.ROUGH,
            "Rough grass",
            "#E8EFDB",
            Hatch(pattern=Pattern.CROSSES, spacing=4.0, size=1.2, pen=_MARK),
        ),
        _hatched(
            Regime.BY_HAND,
            "Trim by hand only",
            "#F7F4E6",
            Hatch(pattern=Pattern.LINES, angle_deg=0.0, spacing=1.0, pen=_MARK),
        ),
    ),
    element="GRASS",
    legend="Short grass",
    order=10,
    help="A piece of grass that is kept in one way.",
    label="name",
)
