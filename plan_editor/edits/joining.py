"""The edit that joins lines end to end, or areas that touch."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import Any

from plan_editor.edits.chosen import chosen, things
from plan_editor.edits.laying import laid_as_before, spot, workable
from plan_editor.errors import EditRefused
from plan_editor.geometry.joining import Gap, joined_areas, joined_lines
from plan_editor.geometry.lengths import as_metres
from plan_editor.plan.change import Change
from plan_editor.plan.checks import pointing_at
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """Join things of one kind: the first stays, with number and details, and has it all.

    What referred to the others refers to the first.
    """

    ids: tuple[ItemId, ...]
    called: str = ""

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Join {self.called or things(self.ids)}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the first with all of it, the others as they go, and what referred to them.

        Raises:
            EditRefused: one is not on the plan or is a point, they are fewer than two, of
                several kinds, lines and areas at once, or do not touch.
        """
        items = [workable(i) for i in chosen(plan, self.ids)]
        _refuse_unlike([i for i, _ in items])
        (first, _), *others = items
        join = joined_lines if first.form is Form.LINE else joined_areas
        whole = join([s for _, s in items])
        if isinstance(whole, Gap):
            raise EditRefused(_parting(plan, whole, first.form))
        gone = {i.id for i, _ in others}
        joined = laid_as_before(plan, first, whole)
        referring = {i.id: i for i, _, _ in pointing_at(plan, gone)}
        return (
            Change(first, joined),
            *(Change(i, None) for i, _ in others),
            *(Change(i, _led(i, gone, first.id)) for i in referring.values()),
        )


def _refuse_unlike(items: list[Item[Any]]) -> None:
    if len(items) < 2:
        raise EditRefused(
            "There is nothing to join it to. Nothing was changed. Choose two things or more."
        )
    if len({i.kind for i in items}) > 1:
        raise EditRefused(
            "Things of several kinds cannot be joined. Nothing was changed. Make them one kind"
            " first."
        )
    if len({i.form is Form.LINE for i in items}) > 1:
        raise EditRefused(
            "Lines and areas cannot be joined. Nothing was changed. Choose one sort only."
        )


def _parting(plan: Plan, gap: Gap, form: Form) -> str:
    what = "ends" if form is Form.LINE else "edges"
    place = spot(plan, gap.place)
    if gap.metres == 0.0:
        return (
            f"They have no edge in common: they meet at {place} only in a corner. Nothing was"
            " changed. Reshape one of them to lie along the other first."
        )
    return (
        f"They do not touch: the nearest {what} lie {as_metres(gap.metres)} apart at {place}."
        " Nothing was changed. Bring them together first."
    )


def _led(item: Item[Any], gone: Collection[ItemId], to: ItemId) -> Item[Any]:
    """Return an item that refers to what is left instead of to what went."""
    names = (d.name for d in item.kind.references())
    told = {name: to for name in names if getattr(item.details, name) in gone}
    return replace(item, details=replace(item.details, **told))
