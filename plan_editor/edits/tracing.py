"""The edit that records a step of tracing a family: a letter, a notice, a reply."""

from dataclasses import dataclass, field, replace

from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.kinds import tracing
from plan_editor.kinds.tracing import Step, TracingDetails
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.plan import Plan

_OF = next(d.about.refers_to for d in tracing.KIND.entries() if d.name == "target")
_ANSWERS = (Step.REPLY, Step.NO_REPLY)


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordStep:
    """Record a step of tracing the family that a stone or a grave belongs to.

    Args:
        target: the stone or the grave.
        details: what was done or came back; of what is filled in.
        id: of the new step.
        called: what the title calls the stone; nobody is named in it.
    """

    target: ItemId
    details: TracingDetails
    id: ItemId = field(default_factory=new_id)
    called: str = "a stone"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Record “{self.details.step}” of {self.called}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the step as it comes.

        Raises:
            EditRefused: there is no such stone, no day, or days that an answer cannot run for.
        """
        (stone,) = chosen(plan, (self.target,))
        if stone.kind.name not in _OF:
            raise EditRefused(
                f"{stone.called()} is no stone and no grave. Nothing was changed."
                " Choose the stone."
            )
        if not self.details.date:
            raise EditRefused(
                "A step without its day proves nothing. Nothing was changed. Give the date."
            )
        if self.details.step in _ANSWERS and self.details.days is not None:
            raise EditRefused(
                "An answer runs for no days. Nothing was changed. Leave the days empty."
            )
        details = replace(self.details, target=stone.id)
        return (Change(None, Item(id=self.id, kind=tracing.KIND, details=details)),)
