"""Spaces reserved by faculty, and released, as menus, sections and the command line ask."""

from plan_editor.commands.today import today
from plan_editor.edits.chosen import called_on
from plan_editor.edits.reserving import ReleaseSpace, ReserveSpace
from plan_editor.errors import CannotUse
from plan_editor.plan.item import ItemId
from plan_editor.plan.kind import kind_named
from plan_editor.plan.plan import Plan

SPACES = ("grave", "ashes_plot", "vault")
"""Names of the kinds that can be reserved; where several bear a number the first is meant."""

CAUTION = (
    "Only a faculty of the consistory court reserves a space; the plan records it and grants"
    " nothing. Where plan and faculty differ the faculty holds."
)


def reserve(plan: Plan, space: ItemId, *, faculty: str, until: str) -> ReserveSpace:
    """Return the edit that reserves a space.

    Args:
        plan: the plan.
        space: what is reserved.
        faculty: its number.
        until: ISO date of its last day.

    Raises:
        CannotUse: that day is over.
    """
    if until < today():
        raise CannotUse(
            f"{until} is over. Nothing was reserved. Give the last day that the faculty names."
        )
    kind = kind_named("reservation")
    assert kind is not None  # noqa: S101  # it is one of ours
    details = kind.details(faculty=faculty.strip(), expires=until)
    return ReserveSpace(space=space, details=details, called=called_on(plan, (space,)))


def release(plan: Plan, reservation: ItemId) -> ReleaseSpace:
    """Return the edit that makes a space free whose reservation lapsed."""
    space = plan.items[reservation].details.grave
    called = called_on(plan, (space,)) if space else "a space"
    return ReleaseSpace(reservation=reservation, called=called)
