"""Wells, springs and boreholes."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind, LookWhen
from plan_editor.plan.look import Look, Pen

_PEN = Pen(width=0.25, colour="#2F5D7C")


class WellSort(StrEnum):
    """What sort of source it is."""

    WELL = "well"
    SPRING = "spring"
    BOREHOLE = "borehole"


class WaterUse(StrEnum):
    """What its water is used for."""

    UNKNOWN = "unknown"
    SUPPLY = "drinking or making food"
    OTHER = "something else"
    NONE = "nothing"


@dataclass(frozen=True, slots=True, kw_only=True)
class WellDetails:
    """What is recorded of a well, spring or borehole."""

    name: str = field(default="", metadata=about("Name", schedule=True))
    sort: WellSort = field(default=WellSort.WELL, metadata=about("Sort", schedule=True))
    use: WaterUse = field(
        default=WaterUse.UNKNOWN,
        metadata=about(
            "Water used for",
            help="Screening distances for new ground are far greater where people drink it.",
            schedule=True,
        ),
    )
    diameter_m: float | None = field(
        default=None, metadata=about("Diameter", unit="m", low=0.05, high=10.0)
    )
    water_m: float | None = field(
        default=None,
        metadata=about(
            "Depth to the water",
            unit="m",
            low=0.0,
            high=200.0,
            help="From the ground to the water, when last measured.",
        ),
    )
    measured: str = field(default="", metadata=about("Water measured", date=True))
    covered: bool = field(
        default=False, metadata=about("Safely covered", help="So that nobody can fall in.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="well",
    title="Well or spring",
    plural="Wells and springs",
    forms=(Form.POINT,),
    details=WellDetails,
    look=Look(pen=_PEN, symbol="well", symbol_mm=3.0),
    looks=(
        LookWhen(
            detail="sort",
            value=WellSort.SPRING,
            look=Look(pen=_PEN, symbol="spring", symbol_mm=3.0),
            legend="Spring",
        ),
    ),
    element="WELL",
    legend="Well or borehole",
    order=27,
    help="A well, spring or borehole, on the ground or near it.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING, Blocks.WALKING}),
    width="diameter_m",
    label="name",
    seen="measured",
)
