"""Settled findings: what the plan check found and somebody has looked at and let stand."""

from dataclasses import dataclass, field

from plan_editor.plan.detail import about
from plan_editor.plan.kind import Form, Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class SettledDetails:
    """What is recorded of a finding that was let stand."""

    rule: str = field(default="", metadata=about("Rule", made=True))
    says: str = field(
        default="",
        metadata=about("Finding", long=True, made=True, help="As the plan check had it."),
    )
    fingerprint: str = field(
        default="",
        metadata=about(
            "Fingerprint",
            made=True,
            help="Of the finding and its things: once these change, it is told again.",
        ),
    )
    reason: str = field(
        default="",
        metadata=about(
            "Why it stands",
            long=True,
            help="So that nobody need look again: two burials, one over the other, 1894.",
        ),
    )
    date: str = field(default="", metadata=about("Looked at", date=True))


KIND = Kind(
    name="settled",
    title="Settled finding",
    plural="Settled findings",
    forms=(Form.NONE,),
    details=SettledDetails,
    element="SETTLD",
    help="Something that the plan check found and that is right as it is.",
    label="rule",
)
