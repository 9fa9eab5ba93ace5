"""Grass that is left alone until a day, and may be cut and carried off from then on."""

from plan_editor.kinds import grass
from plan_editor.plan.plan import Plan
from plan_editor.records.days import last_day
from plan_editor.records.due import Due, SortOfDue


def find(plan: Plan, on: str) -> tuple[Due, ...]:
    """Return a due for each piece of grass with a day until which it is left alone."""
    del on
    return tuple(
        Due(
            sort="uncut_until",
            key=piece.id,
            date=last_day(piece.details.uncut_until),
            title=f"{piece.called()}: uncut until this day",
            says=f"{piece.details.regime.capitalize()}: no machine before this day; cut and"
            " carry off from then on.",
            item=piece.id,
        )
        for piece in plan.of(grass.KIND)
        if piece.details.uncut_until
    )


DUE = SortOfDue(
    name="uncut_until",
    title="Grass left uncut",
    task=False,
    find=find,
    source="The day that the parish set for each piece of grass.",
)
