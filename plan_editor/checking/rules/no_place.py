"""Things that should have a place on the plan, and have none."""

from collections.abc import Iterator

from plan_editor.checking.rule import Finding, Rule, Severity
from plan_editor.checking.words import named
from plan_editor.plan.kind import kinds
from plan_editor.plan.plan import Plan

NAME = "no_place"


def find(plan: Plan) -> Iterator[Finding]:
    """Find what is drawn, but not yet."""
    drawn = (i for kind in kinds() if kind.drawn for i in plan.of(kind))
    for item in drawn:
        if item.shape is None:
            yield Finding(
                rule=NAME,
                severity=Severity.REMARK,
                items=(item.id,),
                place=None,
                text=f"{named((item,))} has no place on the plan yet.",
            )


RULE = Rule(
    name=NAME,
    title="No place yet",
    help="Base plans that are not placed, and anything else that is drawn and has no place.",
    source="Follows from what a plan keeps.",
    find=find,
    order=140,
)
