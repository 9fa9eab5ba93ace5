"""Watercourses: streams, rivers, wet ditches, ponds."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Along, Look, Mark, Pen


class WaterSort(StrEnum):
    """What sort of water it is."""

    STREAM = "stream"
    RIVER = "river"
    WET_DITCH = "ditch that holds water"
    POND = "pond"


@dataclass(frozen=True, slots=True, kw_only=True)
class WatercourseDetails:
    """What is recorded of a watercourse."""

    name: str = field(default="", metadata=about("Name", schedule=True))
    sort: WaterSort = field(default=WaterSort.STREAM, metadata=about("Sort", schedule=True))
    width_m: float | None = field(
        default=1.0,
        metadata=about(
            "Width",
            unit="m",
            low=0.1,
            high=200.0,
            help="Of water drawn along its middle.",
            schedule=True,
        ),
    )
    winter_only: bool = field(
        default=False, metadata=about("Dry in summer", help="It runs in wet months only.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="watercourse",
    title="Watercourse",
    plural="Watercourses",
    forms=(Form.LINE, Form.AREA),
    details=WatercourseDetails,
    look=Look(
        pen=Pen(width=0.25, colour="#2F5D7C"),
        fill="#EAF1F6",
        along=Along(mark=Mark.ARROWS, every=25.0, size=1.8),
        edges_only=True,
    ),
    element="WATER",
    legend="Watercourse, with its flow",
    order=25,
    help="Water along its middle, the way it runs, with its width; or its outline.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING, Blocks.WALKING}),
    width="width_m",
    label="name",
)
