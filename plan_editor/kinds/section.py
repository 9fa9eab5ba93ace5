"""Sections: the parts into which the ground is divided by name."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import Look, Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionDetails:
    """What is recorded of a section of the ground."""

    name: str = field(
        default="",
        metadata=about(
            "Name", help="As the register calls it: C, or North of the path.", schedule=True
        ),
    )
    prefix: str = field(
        default="",
        metadata=about("Numbers begin with", help="C for graves numbered C 1, C 2 and so on."),
    )
    opened: str = field(
        default="", metadata=about("First used", date=True, help="The year is enough.")
    )
    remarks: str = field(default="", metadata=about("Remarks", long=True))


KIND = Kind(
    name="section",
    title="Section",
    plural="Sections",
    forms=(Form.AREA,),
    details=SectionDetails,
    look=Look(pen=Pen(width=0.18, dash=(8.0, 2.0, 1.0, 2.0))),
    element="SECTN",
    legend="Section of the ground",
    order=5,
    help="A part of the ground that the register calls by a name.",
    label="name",
    since="opened",
)
