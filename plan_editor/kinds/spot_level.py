"""Spot levels: the height of the ground at a point."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotLevelDetails:
    """What is recorded of a spot level."""

    level_m: float | None = field(
        default=None,
        metadata=about("Level", unit="m", low=-500.0, high=9000.0, schedule=True),
    )
    datum: str = field(
        default="",
        metadata=about(
            "Above",
            help="What it is measured from: the national datum, or a step called 10.00.",
            schedule=True,
        ),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="spot_level",
    title="Spot level",
    plural="Spot levels",
    forms=(Form.POINT,),
    details=SpotLevelDetails,
    look=Look(pen=Pen(width=0.18), symbol="spot_level", symbol_mm=1.5),
    element="LEVEL",
    legend="Spot level, in metres",
    order=90,
    help="The height of the ground at a point.",
    label="level_m",
)
