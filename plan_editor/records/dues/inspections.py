"""Things to be looked at again, things never looked at, and what is unsafe still."""

from plan_editor.plan.plan import Plan
from plan_editor.records.due import Due, SortOfDue
from plan_editor.records.intervals import NextLook, next_looks

NAME = "inspections"


def find(plan: Plan, on: str) -> tuple[Due, ...]:
    """Return the next inspection of everything that has one, and what waits to be made safe."""
    return tuple(_due(look) for look in next_looks(plan, on))


def _due(look: NextLook) -> Due:
    thing = look.standing.item
    wanted = "Make safe" if look.standing.unsafe else "Inspect"
    name = thing.called()
    return Due(
        sort=NAME,
        key=thing.id,
        date=look.date,
        title=f"{wanted} {name[:1].lower()}{name[1:]}",
        says=look.says,
        item=thing.id,
    )


DUE = SortOfDue(
    name=NAME,
    title="Inspections",
    task=True,
    find=find,
    source="What the inspector says; else the plan's own intervals, then common practice. The"
    " insurer and the diocese may ask for more.",
)
