"""The parish's own figures, as they stand on a plan."""

from plan_editor.kinds import parish
from plan_editor.kinds.parish import ParishDetails
from plan_editor.plan.plan import Plan


def parish_figures(plan: Plan) -> ParishDetails:
    """Return the figures of the plan's parish; common practice where none are on it."""
    first = next(plan.of(parish.KIND), None)
    return ParishDetails() if first is None else first.details
