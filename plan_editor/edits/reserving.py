"""The edits that keep a space for somebody by faculty, and make it free again."""

from dataclasses import dataclass, field, replace
from typing import Any

from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.ground.spaces import entries_in, is_space, promised, reservation_of
from plan_editor.kinds import grave, reservation
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.plan import Plan

_ENDS = (Stage.LAPSED, Stage.GIVEN_UP)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReserveSpace:
    """Keep a space for somebody, as a faculty grants it.

    Args:
        space: a grave, vault or ashes plot.
        details: number of the faculty, until when, for whom; space and stage are filled in.
        id: of the reservation.
        called: what the title calls the space.
    """

    space: ItemId
    details: ReservationDetails
    id: ItemId = field(default_factory=new_id)
    called: str = "a space"

    @property
    def title(self) -> str:
        """As the undo menu says it. It does not tell for whom."""
        return f"Reserve {self.called} by faculty"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the reservation as it comes, and the space before and after.

        Raises:
            EditRefused: there is no number of a faculty, or the space is not free.
        """
        (space,) = chosen(plan, (self.space,))
        if not self.details.faculty.strip():
            raise EditRefused(
                "A space is reserved by faculty only, and the number of the faculty is missing."
                " Nothing was changed. Ask the diocesan registry."
            )
        if fault := _why_not(plan, space):
            raise EditRefused(
                f"{fault} Nothing was changed. Choose a free space, or first set right what is"
                " recorded of this one."
            )
        details = replace(self.details, grave=space.id, stage=Stage.GRANTED)
        kept = Item(id=self.id, kind=reservation.KIND, details=details)
        return (Change(None, kept), *_in_state(space, grave.State.RESERVED))


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseSpace:
    """Make a space free that was reserved: the term is over, or it was given up.

    Args:
        reservation: the reservation.
        stage: why: lapsed or given up.
        called: what the title calls the space.
    """

    reservation: ItemId
    stage: Stage = Stage.LAPSED
    called: str = "a space"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Release {self.called}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the reservation and the space, before and after.

        Raises:
            EditRefused: it keeps nothing now, or the reason is neither of the two.
        """
        (kept,) = chosen(plan, (self.reservation,))
        if kept.kind != reservation.KIND or kept.details.stage is not Stage.GRANTED:
            raise EditRefused(
                f"{kept.called()} keeps no space now. Nothing was changed. Choose a reservation"
                " that was granted."
            )
        if self.stage not in _ENDS:
            raise EditRefused(
                "A space is released because the term lapsed or it was given up. Nothing was"
                " changed. Say which."
            )
        after = replace(kept, details=replace(kept.details, stage=self.stage))
        return (Change(kept, after), *_freed(plan, kept))


def _why_not(plan: Plan, space: Item[Any]) -> str:
    if not is_space(space):
        return f"{space.called()} is no grave, vault or ashes plot."
    if (kept := reservation_of(plan, space.id)) is not None:
        return f"{space.called()} is kept already under faculty {kept.details.faculty}."
    if lies := entries_in(plan, space.id):
        return (
            f"{space.called()} is in use by {lies}. If that is wrong, clear “Lies in” on the"
            " card of the entry."
        )
    if promised(plan, space.id):
        return (
            f"{space.called()} is chosen for a burial that is asked for. If that is over, say"
            " so on the card of the burial request."
        )
    return _not_free(space)


def _not_free(space: Item[Any]) -> str:
    called = space.called()
    told = {
        str(
            grave.State.OCCUPIED
        ): f"{called} is in use: it is recorded as “occupied”, though no"
        " entry of the register lies in it. If that is wrong, set its state on its card.",
        str(grave.State.CLOSED): f"{called} is recorded as one that cannot be used.",
        str(grave.State.UNKNOWN): f"It is not recorded whether {called} is free.",
    }
    return told.get(str(space.details.state), "")


def _freed(plan: Plan, kept: Item[ReservationDetails]) -> tuple[Change, ...]:
    space = None if kept.details.grave is None else plan.items[kept.details.grave]
    if space is None or space.details.state != grave.State.RESERVED:
        return ()
    others = (
        r
        for r in plan.of(reservation.KIND)
        if r.id != kept.id and r.details.grave == space.id and r.details.stage is Stage.GRANTED
    )
    return () if any(others) else _in_state(space, grave.State.FREE)


def _in_state(space: Item[Any], state: grave.State) -> tuple[Change, ...]:
    own = type(space.details.state)(str(state))
    if space.details.state == own:
        return ()
    return (Change(space, replace(space, details=replace(space.details, state=own))),)
