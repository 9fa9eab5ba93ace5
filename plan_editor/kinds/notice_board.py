"""Notice boards and signs."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class NoticeBoardDetails:
    """What is recorded of a notice board or sign."""

    says: str = field(default="", metadata=about("What it says", long=True, schedule=True))
    facing_deg: float | None = field(
        default=None,
        metadata=about(
            "Faces", unit="°", low=0.0, high=360.0, help="The bearing from it to its reader."
        ),
    )
    put_up: str = field(default="", metadata=about("Put up", date=True))
    kept_by: str = field(default="", metadata=about("Kept up by"))
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="notice_board",
    title="Notice board",
    plural="Notice boards",
    forms=(Form.POINT, Form.LINE),
    details=NoticeBoardDetails,
    look=Look(pen=Pen(width=0.25), symbol="notice_board", symbol_mm=2.5),
    element="NOTICE",
    legend="Notice board",
    order=91,
    help="A board or sign: one point, or a line along its face.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING}),
    since="put_up",
    facing="facing_deg",
)
