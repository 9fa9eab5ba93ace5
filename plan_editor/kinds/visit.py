"""Visits: sessions of mowing and trimming, and how long they took."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Form, Kind


class Mown(StrEnum):
    """How what was mown is kept, where the session was of no single piece of grass."""

    SHORT = "short"
    SPRING = "spring meadow"
    SUMMER = "summer meadow"
    ROUGH = "rough"


def _hours(title: str, told: str) -> float | None:
    hours: float | None = field(
        default=None,
        metadata=about(title, unit="h", low=0.0, high=500.0, help=told, schedule=True),
    )
    return hours


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitDetails:
    """What is recorded of a mowing session."""

    date: str = field(default="", metadata=about("Date", date=True, schedule=True))
    grass: ItemId | None = field(
        default=None,
        metadata=about(
            "Where", refers_to=("grass",), help="Empty for the whole ground.", schedule=True
        ),
    )
    regime: Mown | None = field(
        default=None,
        metadata=about(
            "Kept as",
            help="What was mown, where no piece is named; empty for all that did not rest.",
            schedule=True,
        ),
    )
    people: int | None = field(
        default=None, metadata=about("People", low=1, high=200, schedule=True)
    )
    minutes: float | None = field(
        default=None,
        metadata=about(
            "Lasted",
            unit="min",
            low=0.0,
            high=2000.0,
            help="By the clock, mowing and trimming together, where they were not told apart.",
            schedule=True,
        ),
    )
    mowing_h: float | None = _hours("Mowing", "All people together.")
    trimming_h: float | None = _hours("Trimming", "All people together.")
    raking_h: float | None = _hours("Raking and carting", "All people together.")
    machine: str = field(
        default="", metadata=about("Machine", help="With its cut, such as 0.53 m push mower.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="visit",
    title="Mowing session",
    plural="Mowing sessions",
    forms=(Form.NONE,),
    details=VisitDetails,
    element="VISIT",
    help="One session of mowing and trimming. Your own hours make the best estimate.",
    since="date",
)
