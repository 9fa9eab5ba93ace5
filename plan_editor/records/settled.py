"""Findings of the plan check that somebody has looked at and let stand."""

from plan_editor.kinds import settled
from plan_editor.plan.plan import Plan


def settled_fingerprints(plan: Plan) -> frozenset[str]:
    """Return the fingerprints of the findings that were let stand."""
    return frozenset(i.details.fingerprint for i in plan.of(settled.KIND))
