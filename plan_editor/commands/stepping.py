"""From thing to thing in reading order, so that the ground can be gone through by keys."""

import numpy as np
import shapely

from plan_editor.commands.command import Ask
from plan_editor.errors import CannotUse
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.session import Session

LINE_M = 2.0
"""Things whose middles lie within so much from north to south stand in one line, and are read
from west to east: about the pitch of rows of graves."""


def next_thing(session: Session, ask: Ask) -> None:
    """Choose what comes next in reading order, and show it.

    Raises:
        CannotUse: there is nothing that can be chosen.
    """
    _step(session, ask, 1)


def previous_thing(session: Session, ask: Ask) -> None:
    """Choose what came before in reading order, and show it.

    Raises:
        CannotUse: there is nothing that can be chosen.
    """
    _step(session, ask, -1)


def reading_order(plan: Plan) -> tuple[ItemId, ...]:
    """Return everything on the ground, from north to south and in each line west to east.

    Base plans are left out.
    """
    items = [i for i in plan.items.values() if i.shape is not None and not i.kind.pinned]
    if not items:
        return ()
    bounds = shapely.bounds([i.shape for i in items])
    east, north = (bounds[:, 0] + bounds[:, 2]) / 2, (bounds[:, 1] + bounds[:, 3]) / 2
    line = np.floor((north.max() - north) / LINE_M)
    return tuple(items[n].id for n in np.lexsort((east, line)))


def _step(session: Session, ask: Ask, by: int) -> None:
    order = [i for i in reading_order(session.document.plan) if _can_be_chosen(session, i)]
    if not order:
        raise CannotUse("There is nothing on the ground that can be chosen.")
    now = session.chosen[-1] if session.chosen else None
    if now in order:
        place = (order.index(now) + by) % len(order)
    else:
        place = _nearest(session, ask, order)
    session.choose((order[place],))
    ask.show_chosen()


def _nearest(session: Session, ask: Ask, order: list[ItemId]) -> int:
    """Return which of them lies nearest the middle of what is seen."""
    w, s, e, n = ask.in_view()
    items = session.document.plan.items
    far = shapely.distance(
        [items[i].shape for i in order], shapely.Point((w + e) / 2, (s + n) / 2)
    )
    return int(np.argmin(far))


def _can_be_chosen(session: Session, found: ItemId) -> bool:
    item = session.document.plan.items[found]
    return item.kind.name not in session.locked and session.showing.shows(item)
