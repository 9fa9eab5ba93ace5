"""Hedges: along their middle, with a width; or their outline."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Along, Look, Mark, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class HedgeDetails:
    """What is recorded of a hedge."""

    width_m: float | None = field(
        default=1.0,
        metadata=about(
            "Width",
            unit="m",
            low=0.2,
            high=10.0,
            help="Of a hedge drawn along its middle.",
            schedule=True,
        ),
    )
    height_m: float | None = field(
        default=None, metadata=about("Height", unit="m", low=0.0, high=20.0, schedule=True)
    )
    species: str = field(default="", metadata=about("Species", schedule=True))
    cut: str = field(
        default="",
        metadata=about("When it is cut", help="Such as after nesting, or each autumn."),
    )
    kept_by: str = field(
        default="", metadata=about("Kept up by", help="Whose duty it is, as far as is known.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="hedge",
    title="Hedge",
    plural="Hedges",
    forms=(Form.LINE, Form.AREA),
    details=HedgeDetails,
    look=Look(
        pen=Pen(width=0.25, colour="#3F6B35"),
        fill="#EDF3E2",
        along=Along(mark=Mark.SCALLOPS, every=2.5, size=1.0),
        edges_only=True,
    ),
    element="HEDGE",
    legend="Hedge",
    order=40,
    help="A hedge along its middle, with its width; or its outline.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING, Blocks.WALKING}),
    width="width_m",
    label="species",
)
