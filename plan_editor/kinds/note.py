"""Notes: words on the plan."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteDetails:
    """What is recorded of a note."""

    text: str = field(default="", metadata=about("Words", long=True, schedule=True))
    height_mm: float = field(
        default=2.5,
        metadata=about(
            "Height of capitals", unit="mm", low=1.0, high=30.0, help="On paper, at any scale."
        ),
    )
    bearing_deg: float = field(
        default=90.0,
        metadata=about(
            "Runs along bearing",
            unit="°",
            low=0.0,
            high=360.0,
            help="90 runs west to east, as words do on a plan with north up.",
        ),
    )


KIND = Kind(
    name="note",
    title="Note",
    plural="Notes",
    forms=(Form.POINT,),
    details=NoteDetails,
    look=Look(pen=Pen(width=0.25), symbol="note", symbol_mm=2.0),
    element="NOTE",
    legend="Note",
    order=95,
    help="Words on the plan, beside a point.",
    label="text",
)
