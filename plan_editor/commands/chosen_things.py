"""What can be done with what is chosen: duplicate it, make it another kind, lock its kind."""

from plan_editor.commands.clipboard import ASIDE_M, on_ground
from plan_editor.commands.command import Ask
from plan_editor.edits.chosen import called
from plan_editor.edits.copying import Duplicate
from plan_editor.edits.kind_changes import ChangeKind, kinds_for, lost
from plan_editor.errors import CannotUse
from plan_editor.plan.kind import Kind, kind_named
from plan_editor.session import Session

LOSE = "Change it all the same"


def duplicate(session: Session, ask: Ask) -> None:
    """Lay copies of what is chosen a little aside, and choose them.

    Raises:
        CannotUse: nothing on the ground is chosen.
        EditRefused: the plan cannot take them.
    """
    items = on_ground(session)
    if not items:
        raise CannotUse("Nothing on the ground is chosen. Choose what is to be duplicated.")
    ids = tuple(i.id for i in items)
    edit = Duplicate(ids=ids, east=ASIDE_M, north=-ASIDE_M, called=called(items))
    session.apply(edit)
    session.choose(edit.copies)
    ask.show_chosen()


def change_kind(session: Session, ask: Ask) -> None:
    """Ask for another kind, say what would be lost, and make what is chosen into it.

    Raises:
        CannotUse: no other kind has that form.
        EditRefused: something points to it that may not point to the other kind.
    """
    items = on_ground(session)
    kinds = kinds_for(items)
    if not kinds:
        raise CannotUse(
            "No other kind has the form of what is chosen. Nothing was changed. Choose things"
            " of one form."
        )
    number = ask.one_of(f"Make {called(items)} into", tuple(k.title for k in kinds))
    if number is None:
        return
    kind = kinds[number]
    gone = lost(items, kind)
    if gone and ask.which(_said(gone, kind), (LOSE,)) != 0:
        return
    ids = tuple(i.id for i in items)
    edit = ChangeKind(ids=ids, kind=kind, called=called(items))
    session.apply(edit)
    session.choose(edit.became)


def lock(session: Session, ask: Ask) -> None:
    """Lock the kinds of what is chosen."""
    items = session.document.plan.items
    names = {items[i].kind.name for i in session.chosen}
    session.lock(session.locked | names)
    ask.tell(f"{_titles(session)} locked. The Edit menu unlocks them.")


def unlock(session: Session, ask: Ask) -> None:
    """Unlock every kind."""
    session.lock(())
    ask.tell("No kind is locked now.")


def _titles(session: Session) -> str:
    known = (kind_named(name) for name in session.locked)
    titles = sorted(k.plural.lower() for k in known if k is not None)
    listed = ", ".join(titles)
    return f"{listed[:1].upper()}{listed[1:]} are"


def _said(gone: tuple[str, ...], kind: Kind) -> str:
    told = ", ".join(f"“{title}”" for title in gone)
    return f"What is recorded as {told} has no place in {kind.one} and would be lost."
