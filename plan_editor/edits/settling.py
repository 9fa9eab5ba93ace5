"""The edits that let findings of the plan check stand, or have them told again."""

from dataclasses import dataclass, replace

from plan_editor.kinds import settled
from plan_editor.kinds.settled import SettledDetails
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class SettleFindings:
    """Let findings stand as they are; what was settled in the same words before is replaced."""

    items: tuple[Item[SettledDetails], ...]

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        many = len(self.items)
        return f"Let {'a finding' if many == 1 else f'{many} findings'} of the check stand"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the settled findings, new or as they were and are."""
        before = {i.details.fingerprint: i for i in plan.of(settled.KIND)}
        coming = {i.details.fingerprint: i for i in self.items}
        return tuple(_settled(before.get(known), i) for known, i in coming.items())


@dataclass(frozen=True, slots=True)
class TellAgain:
    """Have every finding told again that was let stand."""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return "Tell all findings of the check again"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the settled findings as they go."""
        return tuple(Change(item, None) for item in plan.of(settled.KIND))


def settled_item(rule: str, says: str, fingerprint: str, date: str) -> Item[SettledDetails]:
    """Return a finding as it is settled, with an id of its own."""
    details = SettledDetails(rule=rule, says=says, fingerprint=fingerprint, date=date)
    return new_item(settled.KIND, details=details)


def _settled(before: Item[SettledDetails] | None, item: Item[SettledDetails]) -> Change:
    if before is None:
        return Change(None, item)
    return Change(before, replace(before, details=item.details))
