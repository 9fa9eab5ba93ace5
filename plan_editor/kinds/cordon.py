"""Cordons: barriers actually put up round what is unsafe: a stone, a tree, a wall."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import Blocks, Form, Kind
from plan_editor.plan.look import Hatch, Look, Pattern, Pen

_RUST = "#9A3B22"
_UNSAFE = (
    "memorial",
    "tree",
    "wall",
    "building",
    "vault",
    "gate",
    "fence",
    "path",
    "steps",
    "hedge",
    "bench",
    "notice_board",
    "light",
    "tap",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class CordonDetails:
    """What is recorded of a barrier that stands on the ground."""

    target: ItemId | None = field(
        default=None,
        metadata=about("Put up for", refers_to=_UNSAFE, schedule=True),
    )
    since: str = field(default="", metadata=about("Since", date=True, schedule=True))
    notice: str = field(
        default="",
        metadata=about(
            "Notice fixed on",
            date=True,
            help="A dated notice that says why, and whom to ask.",
            schedule=True,
        ),
    )
    barrier: str = field(
        default="",
        metadata=about(
            "Barrier",
            help="A discreet fence with a notice is kinder to the bereaved than tape.",
            schedule=True,
        ),
    )
    looked_at: str = field(
        default="",
        metadata=about("Last looked at", date=True, help="Whether it still stands."),
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="cordon",
    title="Cordon",
    plural="Cordons",
    forms=(Form.AREA,),
    details=CordonDetails,
    look=Look(
        pen=Pen(width=0.5, colour=_RUST, dash=(3.0, 1.5)),
        hatch=Hatch(
            pattern=Pattern.LINES,
            angle_deg=45.0,
            spacing=5.0,
            pen=Pen(width=0.18, colour=_RUST),
        ),
    ),
    element="CORDON",
    legend="Fenced off: keep out",
    order=75,
    help="The barrier as it stands on the ground. Draw it where it is, not where it should be.",
    blocks=frozenset({Blocks.DIGGING, Blocks.MOWING, Blocks.WALKING}),
    since="since",
    seen="looked_at",
)
