"""Bins and heaps, and what belongs in them."""

from dataclasses import dataclass, field
from enum import StrEnum

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Look, Pen


class Takes(StrEnum):
    """What belongs in it."""

    RUBBISH = "rubbish"
    FLOWERS = "dead flowers"
    COMPOST = "grass and leaves"
    SOIL = "spare soil"


@dataclass(frozen=True, slots=True, kw_only=True)
class BinDetails:
    """What is recorded of a bin or heap."""

    takes: Takes = field(default=Takes.RUBBISH, metadata=about("Takes", schedule=True))
    emptied_by: str = field(default="", metadata=about("Emptied by", schedule=True))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="bin",
    title="Bin",
    plural="Bins",
    forms=(Form.POINT, Form.RECTANGLE),
    details=BinDetails,
    look=Look(pen=Pen(width=0.25), symbol="bin", symbol_mm=2.5),
    element="BIN",
    legend="Bin or heap",
    order=91,
    help="A bin as a point; a heap or bay as its outline.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING}),
)
