"""The edit that says in which graves entries of the burial register lie."""

from collections import Counter
from dataclasses import dataclass, replace

from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.kinds import burial
from plan_editor.kinds.burial import Belief
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """An entry and the grave that it belongs to, with how surely it does."""

    entry: ItemId
    grave: ItemId
    belief: Belief = Belief.PROBABLE


@dataclass(frozen=True, slots=True)
class AcceptMatches:
    """Record in which graves entries of the register lie, and how surely."""

    matches: tuple[Match, ...]

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        many = len(self.matches)
        return f"Match {'an entry' if many == 1 else f'{many} entries'} with the ground"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the entries before and after.

        Raises:
            EditRefused: something of it is not on the plan, is no entry or no grave, is named
                twice, or the entry has another grave by now.
        """
        counts = Counter(m.entry for m in self.matches)
        if any(n > 1 for n in counts.values()):
            raise EditRefused(
                "One entry was matched with two graves. Nothing was changed. Choose one."
            )
        return tuple(_change(plan, m) for m in self.matches)


def _change(plan: Plan, match: Match) -> Change:
    entry, lies_in = _both(plan, match)
    if entry.kind != burial.KIND:
        raise EditRefused(
            f"{entry.called()} is no entry of the burial register. Nothing was changed."
            " Choose a burial."
        )
    if not lies_in.kind.holds_burials:
        raise EditRefused(
            f"Nobody is buried in {lies_in.called()}. Nothing was changed. Choose a grave, a"
            " vault or an ashes plot."
        )
    if entry.details.grave not in (None, lies_in.id):
        other = plan.items[entry.details.grave].called()
        raise EditRefused(
            f"{entry.called()} belongs to {other} already. Nothing was changed. Clear “Lies in”"
            " on its card first, if that is wrong."
        )
    details = replace(entry.details, grave=lies_in.id, belief=match.belief)
    return Change(entry, replace(entry, details=details))


def _both(plan: Plan, match: Match) -> tuple[Item, Item]:
    (entry,) = chosen(plan, (match.entry,))
    (lies_in,) = chosen(plan, (match.grave,))
    return entry, lies_in
