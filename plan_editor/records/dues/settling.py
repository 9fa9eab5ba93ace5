"""Graves that have settled: from that day they may be levelled, mown over and bear a stone."""

from plan_editor.ground.parish import parish_figures
from plan_editor.plan.plan import Plan
from plan_editor.records.due import Due, SortOfDue
from plan_editor.records.settling import settled_on, settling_graves

NAME = "settling"


def find(plan: Plan, on: str) -> tuple[Due, ...]:
    """Return the day on which each grave has settled that settles still."""
    months = parish_figures(plan).settling_months
    return tuple(
        Due(
            sort=NAME,
            key=space.id,
            date=settled_on(plan, space),
            title=f"{space.called()} has settled",
            says=f"Dug {space.details.dug}; {months} months. It may be levelled, and a stone"
            " that is allowed may be fixed. Look first whether it still sinks.",
            item=space.id,
        )
        for space in settling_graves(plan, on)
    )


DUE = SortOfDue(
    name=NAME,
    title="Graves that have settled",
    task=False,
    find=find,
    source="The parish's own figure; 6 to 12 months are common in diocesan regulations.",
)
