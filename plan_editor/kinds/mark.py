"""Marks: fixed points on the ground that one measures from."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkDetails:
    """What is recorded of a mark; how well its place is known stands in its basis."""

    description: str = field(
        default="",
        metadata=about(
            "How to find it",
            help="So that a stranger can hold a tape to it: NW corner of the tower plinth.",
            schedule=True,
        ),
    )
    permanent: bool = field(
        default=True,
        metadata=about(
            "Permanent",
            help="A corner of masonry or a pin in stone; not a peg that a mower can take.",
            schedule=True,
        ),
    )
    level_m: float | None = field(
        default=None, metadata=about("Level", unit="m", low=-500.0, high=9000.0)
    )
    datum: str = field(
        default="", metadata=about("Level above", help="What the level is measured from.")
    )
    checked: str = field(
        default="",
        metadata=about(
            "Last found in place", date=True, help="The day somebody measured from it."
        ),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="mark",
    title="Mark",
    plural="Marks",
    forms=(Form.POINT,),
    details=MarkDetails,
    look=Look(pen=Pen(width=0.25), symbol="mark", symbol_mm=2.5),
    element="MARK",
    legend="Mark to measure from",
    order=92,
    help="A fixed point that will be there in thirty years. Give it a short name.",
    numbered=True,
    seen="checked",
)
