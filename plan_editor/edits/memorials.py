"""The edit that puts a memorial on the plan that was applied for, once it is fixed."""

from dataclasses import dataclass, field, replace
from typing import Any

from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.standing import standing_on
from plan_editor.kinds import application, memorial
from plan_editor.kinds.application import ApplicationDetails, AskedFor, Decision, Shape
from plan_editor.kinds.memorial import Anchor, MemorialDetails, MemorialForm
from plan_editor.plan.change import Change
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Basis, Item, ItemId, Method, Status, new_id
from plan_editor.plan.plan import Plan

_NEW = (AskedFor.NEW, AskedFor.REPLACEMENT)
_LEAVE = (Decision.ALLOWED, Decision.FACULTY_GRANTED)
_UPRIGHT = (Shape.HEADSTONE, Shape.CROSS)


@dataclass(frozen=True, slots=True, kw_only=True)
class FixStone:
    """Put the memorial that was applied for on the plan, now that it is fixed.

    It stands at the head of its grave until somebody measures it.

    Args:
        application: what was asked for, and allowed.
        fixed: ISO date.
        id: of the new memorial.
        called: what the title calls the grave.
    """

    application: ItemId
    fixed: str
    id: ItemId = field(default_factory=new_id)
    called: str = "a grave"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Fix the memorial on {self.called}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the memorial as it comes; the application, and one replaced, as they change.

        A memorial that is replaced stays as one that is to be removed.

        Raises:
            EditRefused: leave was not given, no stone is asked for, one was fixed already, or
                day, form, grave or sizes are missing.
        """
        asked = _allowed(plan, self.application)
        if not self.fixed:
            raise EditRefused(
                "The day on which it was fixed is missing. Nothing was changed. Give it."
            )
        stone = self._stone(plan, asked.details)
        details = replace(asked.details, memorial=stone.id, fixed=self.fixed)
        return (
            Change(None, stone),
            Change(asked, replace(asked, details=details)),
            *_replaced(plan, asked.details.memorial),
        )

    def _stone(self, plan: Plan, asked: ApplicationDetails) -> Item[MemorialDetails]:
        space = None if asked.grave is None else plan.items[asked.grave]
        place = None if space is None else standing_on(space, asked)
        if space is None or place is None:
            raise EditRefused(
                "Where the memorial stands cannot be told: its grave, drawn as a rectangle, and"
                " its sizes are wanted. Nothing was changed. Complete the application, or draw"
                " the stone by hand."
            )
        return _memorial(self.id, asked, place, _number(plan, space), self.fixed)


def _allowed(plan: Plan, id_: ItemId) -> Item[ApplicationDetails]:
    (asked,) = chosen(plan, (id_,))
    if asked.kind != application.KIND:
        raise EditRefused(
            f"{asked.called()} is no application. Nothing was changed. Choose the application."
        )
    details: ApplicationDetails = asked.details
    if details.asked_for not in _NEW or details.fixed:
        what = "was fixed already" if details.fixed else f"is for “{details.asked_for}”"
        raise EditRefused(
            f"The application {what}: no stone joins the plan by it. Nothing was changed."
            " Enter what was done on the stone itself."
        )
    if details.decision not in _LEAVE:
        raise EditRefused(
            f"The application is recorded as “{details.decision}”. Nothing was changed. A"
            " memorial is fixed only when it is allowed or a faculty is granted: record that"
            " first."
        )
    if details.form is Shape.UNKNOWN:
        raise EditRefused("The form of the memorial is not told. Nothing was changed. Say it.")
    return asked


def _memorial(
    id_: ItemId, asked: ApplicationDetails, place: Rectangle, number: str, fixed: str
) -> Item[MemorialDetails]:
    height = asked.height_mm if asked.form in _UPRIGHT else None
    founded = asked.foundation_width_mm is not None or asked.foundation_depth_mm is not None
    details = MemorialDetails(
        form=MemorialForm(str(asked.form)),
        height_m=None if height is None else height / 1000,
        material=asked.material,
        anchor=Anchor.FOUNDATION if founded else Anchor.UNKNOWN,
        grave=asked.grave,
        erected=fixed,
        inscription=asked.inscription,
    )
    source = "the application, at the grave as drawn"
    basis = Basis(method=Method.COMPUTED, source=source, date=fixed)
    bare = Item(id=id_, kind=memorial.KIND, details=details, number=number, basis=basis)
    return bare.on(place)


def _number(plan: Plan, space: Item[Any]) -> str:
    """Return the grave's own number, unless another memorial bears it."""
    taken = {spoken(m.number) for m in plan.of(memorial.KIND)}
    return "" if spoken(space.number) in taken else space.number


def _replaced(plan: Plan, old: ItemId | None) -> tuple[Change, ...]:
    if old is None:
        return ()
    stone = plan.items[old]
    return (Change(stone, replace(stone, status=Status.TO_BE_REMOVED)),)
