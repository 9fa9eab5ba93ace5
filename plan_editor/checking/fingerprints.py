"""What tells a finding again once somebody has let it stand."""

from hashlib import sha256

from plan_editor.checking.rule import Finding
from plan_editor.plan.plan import Plan


def fingerprint(plan: Plan, finding: Finding) -> str:
    """Return the fingerprint of a finding and of its things; it changes once they do.

    Counted in are the finding's own words, and the places, numbers and statuses of its things.
    """
    told = sha256(f"{finding.rule}\n{finding.text}".encode())
    for item in sorted(finding.items):
        there = plan.items[item]
        told.update(f"\n{item}\n{there.number}\n{there.status}\n".encode())
        told.update(b"" if there.shape is None else there.shape.wkb)
    return told.hexdigest()[:32]
