"""Cut, copy and paste, between plans and windows, through the clipboard of the system."""

from collections.abc import Iterable
from typing import Any

import shapely

from plan_editor.commands.command import Ask
from plan_editor.edits.basic import Remove
from plan_editor.edits.chosen import called, called_on
from plan_editor.edits.copying import Paste, outward, shifted
from plan_editor.errors import CannotUse
from plan_editor.exchange.clippings import Clipping, clipping_text, read_clipping
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.session import Session

ASIDE_M = 0.5
"""A copy that would lie on what it was copied from lies so far east and south of it."""

IN_THE_MIDDLE = "Lay them in the middle of what is seen"


def on_ground(session: Session) -> tuple[Item[Any], ...]:
    """Return what is chosen and lies on the ground; no base plans."""
    items = session.document.plan.items
    there = (items[i] for i in session.chosen if i in items)
    return tuple(i for i in there if i.shape is not None and not i.kind.pinned)


def copy(session: Session, ask: Ask) -> None:
    """Put what is chosen on the clipboard, and say what stays behind.

    Raises:
        CannotUse: nothing on the ground is chosen.
    """
    items = _wanted(session)
    plan = session.document.plan
    ask.put_on_clipboard(clipping_text(items, plan.grid, plan.name))
    ask.tell(f"{_capital(called(items))} copied.{_left_behind(items)}")


def cut(session: Session, ask: Ask) -> None:
    """Put what is chosen on the clipboard and remove it here.

    Raises:
        CannotUse: nothing on the ground is chosen.
        EditRefused: something else points to it; the clipboard is as it was.
    """
    items = _wanted(session)
    plan = session.document.plan
    text = clipping_text(items, plan.grid, plan.name)
    ids = tuple(i.id for i in items)
    session.apply(Remove(ids=ids, called=called_on(plan, ids)))
    ask.put_on_clipboard(text)
    ask.tell(f"{_capital(called(items))} cut.{_left_behind(items)}")


def paste(session: Session, ask: Ask) -> None:
    """Bring in what the clipboard holds: to its true place, or to the middle of the view.

    Raises:
        CannotRead: it holds nothing that was copied from a plan.
        EditRefused: the plan cannot take it.
    """
    plan = session.document.plan
    clipping = read_clipping(ask.clipboard())
    if clipping.fits(plan.grid, plan.name):
        items = _beside_themselves(plan, clipping.in_place(plan.grid))
    elif ask.which(_elsewhere(clipping), (IN_THE_MIDDLE,)) == 0:
        w, s, e, n = ask.in_view()
        items = clipping.about((w + e) / 2, (s + n) / 2)
    else:
        return
    edit = Paste(items=items)
    session.apply(edit)
    session.choose(edit.pasted)
    ask.show_chosen()
    ask.tell(f"{_capital(called(items))} pasted.{_renumbered(session, edit)}")


def copy_place(session: Session, ask: Ask) -> None:
    """Put the coordinates of the pointer's place on the clipboard, as two numbers.

    Raises:
        CannotUse: the pointer is not on the ground.
    """
    if (place := ask.pointed_at()) is None:
        raise CannotUse("The pointer is not on the ground. Point at a place first.")
    east, north = session.document.plan.grid.to_crs(*place)
    ask.put_on_clipboard(f"{east:.3f}\t{north:.3f}")
    ask.tell(f"Copied: E {east:.3f}, N {north:.3f}.")


def _wanted(session: Session) -> tuple[Item[Any], ...]:
    if items := on_ground(session):
        return items
    raise CannotUse("Nothing on the ground is chosen. Choose what is to be copied first.")


def _left_behind(items: tuple[Item[Any], ...]) -> str:
    told = ""
    if count := outward(items, {i.id for i in items}):
        what = "1 reference leads" if count == 1 else f"{count} references lead"
        told = f" {what} to things that do not come along, and is left out."
        told = told if count == 1 else told.replace("and is", "and are")
    if any(_private(i) for i in items):
        told += " What concerns living people is left out."
    return told


def _private(item: Item[Any]) -> bool:
    return any(
        d.about.private and getattr(item.details, d.name) != d.default
        for d in item.kind.entries()
    )


def _elsewhere(clipping: Clipping) -> str:
    whence = f"“{clipping.plan[:60]}”" if clipping.plan else "another plan"
    system = "a local grid" if clipping.crs == "local" else clipping.crs[:40]
    return (
        f"These things come from {whence}, which lies in {system}; this plan does not. Their"
        " true place here is not known."
    )


def _beside_themselves(plan: Plan, items: tuple[Item[Any], ...]) -> tuple[Item[Any], ...]:
    """Return items moved a little where one of them would hide what it was copied from."""
    there: set[tuple[str, tuple[float, ...]]] = set()
    for name in {i.kind.name for i in items}:
        there |= _boxes(plan.by_kind.get(name, {}).values())
    return shifted(items, ASIDE_M, -ASIDE_M) if there & _boxes(items) else items


def _boxes(items: Iterable[Item[Any]]) -> set[tuple[str, tuple[float, ...]]]:
    """Return the kind and the box, to the millimetre, of each of some items."""
    placed = [i for i in items if i.shape is not None]
    boxes = shapely.bounds([i.shape for i in placed]).reshape(-1, 4).round(3).tolist()
    return {(i.kind.name, tuple(box)) for i, box in zip(placed, boxes, strict=True)}


def _renumbered(session: Session, edit: Paste) -> str:
    plan = session.document.plan
    bare = sum(
        1
        for before, new in zip(edit.items, edit.pasted, strict=True)
        if before.number and not plan.items[new].number
    )
    if not bare:
        return ""
    what = "One number is" if bare == 1 else f"{bare} numbers are"
    return f" {what} taken here, and left out."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
