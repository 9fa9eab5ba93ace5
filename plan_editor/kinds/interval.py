"""Intervals: after how long things of a kind are looked at again in this parish."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind


class After(StrEnum):
    """After what result."""

    ANY = "any"
    IMMEDIATE = "immediate action"
    MADE_SAFE = "made safe for now"
    MINOR = "minor fault, look again"
    SOUND = "sound"


@dataclass(frozen=True, slots=True, kw_only=True)
class IntervalDetails:
    """What is recorded of an interval; it takes the place of the shipped one."""

    of: str = field(
        default="",
        metadata=about("Of what", help="A kind: memorial, tree, wall, gate.", schedule=True),
    )
    after: After = field(default=After.ANY, metadata=about("After", schedule=True))
    months: int | None = field(
        default=None,
        metadata=about("Look again after", unit="months", low=0, high=600, schedule=True),
    )
    source: str = field(default="", metadata=about("Source", long=True, schedule=True))


KIND = Kind(
    name="interval",
    title="Interval of inspection",
    plural="Intervals of inspection",
    forms=(Form.NONE,),
    details=IntervalDetails,
    element="INTERV",
    help="After how long things of a kind are looked at again, and on whose word.",
    label="of",
)
