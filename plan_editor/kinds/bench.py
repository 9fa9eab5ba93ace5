"""Benches."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchDetails:
    """What is recorded of a bench."""

    given_for: str = field(
        default="",
        metadata=about("Given in memory of", help="As its plate says.", schedule=True),
    )
    material: str = field(default="", metadata=about("Material", schedule=True))
    fixed: bool = field(
        default=True, metadata=about("Fixed to the ground", help="Or it can be carried away.")
    )
    facing_deg: float | None = field(
        default=None,
        metadata=about(
            "Faces",
            unit="°",
            low=0.0,
            high=360.0,
            help="The bearing that one looks to who sits on it.",
        ),
    )
    placed: str = field(default="", metadata=about("Placed", date=True, schedule=True))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="bench",
    title="Bench",
    plural="Benches",
    forms=(Form.POINT, Form.RECTANGLE),
    details=BenchDetails,
    look=Look(pen=Pen(width=0.25), symbol="bench", symbol_mm=3.0),
    element="BENCH",
    legend="Bench",
    order=91,
    help="A seat: one point in its middle, or its outline.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING}),
    since="placed",
    facing="facing_deg",
)
