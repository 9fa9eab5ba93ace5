"""Places that are kept to come back to: kept as they are seen, and found by their names."""

from plan_editor.commands.command import Ask, Part
from plan_editor.edits.basic import Add
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.kind import Kind, kinds
from plan_editor.session import Session


def kept_places(session: Session) -> tuple[Item, ...]:
    """Return the places that are kept, in the order of their names."""
    there = (i for kind in _kinds() for i in session.document.plan.of(kind))
    return tuple(sorted(there, key=lambda i: str(getattr(i.details, i.kind.label)).casefold()))


def keep_place(session: Session, ask: Ask) -> None:
    """Keep what is seen of the ground, and ask on the card what it is called.

    Raises:
        PlanEditorError: it cannot be kept.
    """
    west, south, east, north = ask.in_view()
    middle = round((west + east) / 2, 3), round((south + north) / 2, 3)
    across = round(min(east - west, north - south), 3)
    for kind in _kinds():
        name = f"Place {session.document.plan.count(kind) + 1}"
        details = kind.details(**{kind.label: name, kind.view: (*middle, across)})
        item = new_item(kind, details=details)
        session.apply(Add((item,)))
        session.choose((item.id,))
    ask.reach(Part.CARD)


def _kinds() -> tuple[Kind, ...]:
    return tuple(k for k in kinds() if k.view)
