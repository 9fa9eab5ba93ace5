"""Joining what is chosen, and leaving out corners of it that hardly matter."""

from typing import Any

import shapely

from plan_editor.commands.command import Ask
from plan_editor.edits.chosen import called
from plan_editor.edits.joining import Join
from plan_editor.edits.shapes import Simplify
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form
from plan_editor.session import Session

MOST_CM = 1000


def joinable(session: Session) -> bool:
    """Return whether two things or more are chosen, all lines or all areas of one kind."""
    items = _chosen(session)
    alike = len({(i.kind, i.form is Form.LINE) for i in items}) == 1
    return session.may_edit and len(items) > 1 and alike and all(map(_flat, items))


def join(session: Session, ask: Ask) -> None:
    """Join what is chosen; the first one chosen keeps number and details.

    Raises:
        EditRefused: they do not touch.
    """
    del ask
    items = _chosen(session)
    session.apply(Join(ids=tuple(i.id for i in items), called=called(items)))
    session.choose((items[0].id,))


def thinnable(session: Session) -> bool:
    """Return whether lines and areas are chosen, of which one at least could spare a corner."""
    items = _chosen(session)
    corners = (shapely.get_num_coordinates(i.shape) for i in items)
    spare = any(
        n > (2 if i.form is Form.LINE else 4) for i, n in zip(items, corners, strict=True)
    )
    return session.may_edit and spare and all(map(_flat, items))


def simplify(session: Session, ask: Ask) -> None:
    """Ask how far a corner may lie off, and leave out those of what is chosen that do not.

    Raises:
        EditRefused: no corner would go, or an outline would cross itself.
    """
    items = _chosen(session)
    centimetres = ask.number(
        "How far may an outline move, in centimetres? Edges that are shared stay shared.",
        1,
        MOST_CM,
    )
    if centimetres is None:
        return
    before = _corners(session)
    ids = tuple(i.id for i in items)
    session.apply(Simplify(ids=ids, tolerance=centimetres / 100.0, called=called(items)))
    ask.tell(f"{before - _corners(session)} of {before} corners were left out.")


def _chosen(session: Session) -> tuple[Item[Any], ...]:
    items = session.document.plan.items
    return tuple(items[i] for i in session.chosen)


def _flat(item: Item[Any]) -> bool:
    return item.form not in (Form.NONE, Form.POINT) and not item.kind.pinned


def _corners(session: Session) -> int:
    """Return how many corners what is chosen has; where a ring closes counts once."""
    shapes = [i.shape for i in _chosen(session) if i.shape is not None]
    rings = sum(
        len(shapely.get_rings(part)) if part.geom_type == "Polygon" else 0
        for part in shapely.get_parts(shapes)
    )
    return int(shapely.get_num_coordinates(shapes).sum()) - rings
