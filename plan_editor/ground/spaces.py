"""Spaces for burials: who lies there, for whom one is kept, whether one more may be laid."""

from typing import Any

from plan_editor.kinds import ashes_plot, burial, grave, request, reservation
from plan_editor.kinds.burial import BurialDetails, BurialSort
from plan_editor.kinds.request import Asked, Progress, RequestDetails
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan

_MOST_TOLD = 6
_PROMISED = (Progress.AGREED, Progress.DUG)


def is_space(item: Item[Any]) -> bool:
    """Return whether something is a space for burials."""
    return item.kind.holds_burials


def burials_in(plan: Plan, space: ItemId) -> tuple[Item[BurialDetails], ...]:
    """Return the entries of the register that lie in a space. Cost: a pass over the entries."""
    return tuple(b for b in plan.of(burial.KIND) if b.details.grave == space)


def entries_in(plan: Plan, space: ItemId) -> str:
    """Return by which entries of the register a space is in use, in words; ``""`` by none.

    ``entry 12 of the register``; what bears no number is only counted.
    """
    found = burials_in(plan, space)
    numbers = [b.number for b in found if b.number]
    if not found:
        return ""
    if len(numbers) < len(found) or len(found) > _MOST_TOLD:
        return (
            "1 entry of the register"
            if len(found) == 1
            else f"{len(found)} entries of the register"
        )
    listed = " and ".join(filter(None, (", ".join(numbers[:-1]), numbers[-1])))
    return f"{'entry' if len(found) == 1 else 'entries'} {listed} of the register"


def promised(plan: Plan, space: ItemId) -> tuple[Item[RequestDetails], ...]:
    """Return the requests for which a space was chosen and which are not buried yet."""
    return tuple(
        r
        for r in plan.of(request.KIND)
        if r.details.grave == space and r.details.progress in _PROMISED
    )


def reservation_of(
    plan: Plan, space: ItemId, *, but: ItemId | None = None
) -> Item[ReservationDetails] | None:
    """Return the reservation by which a space is kept, or None; also one that has run out.

    Args:
        plan: the plan.
        space: the space.
        but: a reservation that is left out of account.
    """
    return next(
        (
            r
            for r in plan.of(reservation.KIND)
            if r.details.grave == space and r.details.stage is Stage.GRANTED and r.id != but
        ),
        None,
    )


def why_not(plan: Plan, space: Item[Any], wanted: Item[RequestDetails]) -> str:
    """Return why a space cannot be had as is asked, as a sentence; ``""`` if it can."""
    return (
        _why_not_of_its_sort(space, wanted.details.sort)
        or why_not_kept(plan, space, wanted.details.reservation)
        or _why_full(plan, space, wanted)
    )


def why_not_kept(plan: Plan, space: Item[Any], under: ItemId | None) -> str:
    """Return for whom a space is kept, as a sentence; ``""`` for nobody.

    Args:
        plan: the plan.
        space: the space.
        under: the reservation that is being used.
    """
    kept = reservation_of(plan, space.id, but=under)
    if kept is not None:
        until = f" until {kept.details.expires}" if kept.details.expires else ""
        return f"{space.called()} is kept under faculty {kept.details.faculty}{until}."
    used = under is not None and reservation_of(plan, space.id) is not None
    if not used and space.details.state == grave.State.RESERVED:
        return f"{space.called()} is recorded as reserved, and no reservation says for whom."
    return ""


def _why_not_of_its_sort(space: Item[Any], sort: Asked) -> str:
    called = space.called()
    if not is_space(space):
        return f"{called} is no grave, vault or ashes plot."
    if space.kind == ashes_plot.KIND and sort is Asked.COFFIN:
        return f"{called} has room for ashes only."
    if space.details.state == grave.State.CLOSED:
        return f"{called} is recorded as one that cannot be used."
    if space.details.state == grave.State.UNKNOWN:
        return f"It is not recorded whether {called} is free."
    return ""


def _why_full(plan: Plan, space: Item[Any], wanted: Item[RequestDetails]) -> str:
    for_ashes = space.kind == ashes_plot.KIND
    if wanted.details.sort is Asked.ASHES and not for_ashes:
        return ""  # ashes are laid over coffins
    lying = sum(
        for_ashes or b.details.sort is not BurialSort.ASHES for b in burials_in(plan, space.id)
    )
    coming = sum(
        for_ashes or r.details.sort is Asked.COFFIN
        for r in promised(plan, space.id)
        if r.id != wanted.id
    )
    room = _room(space)
    if room is None:
        lies = entries_in(plan, space.id)
        why = f"by {lies}" if lies else f"recorded as “{space.details.state}”"
        return (
            f"{space.called()} is in use ({why}), and it is not recorded for how many it has"
            " room. Record that on its card if one more may be laid."
        )
    if lying + coming < room:
        return ""
    others = f" and {coming} more asked for" if coming else ""
    return f"{space.called()} is full: room for {room}, {lying} laid{others}."


def _room(space: Item[Any]) -> int | None:
    details = space.details
    room: int | None = details.interments if space.kind == ashes_plot.KIND else details.coffins
    # what nobody was laid in has room for one
    return 1 if room is None and details.state != grave.State.OCCUPIED else room
