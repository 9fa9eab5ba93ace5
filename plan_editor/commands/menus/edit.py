"""The Edit menu: undo, redo, remove, choose."""

from plan_editor.commands.command import Ask, Command, Menu, Part
from plan_editor.drafting.tool import Act, Pointer
from plan_editor.edits.basic import Remove
from plan_editor.edits.chosen import called_on
from plan_editor.session import Session


def _undo(session: Session, ask: Ask) -> None:
    del ask
    session.cancel()
    session.document.undo()


def _redo(session: Session, ask: Ask) -> None:
    del ask
    session.cancel()
    session.document.redo()


def _undo_title(session: Session) -> str:
    return f"Undo: {title}" if (title := session.document.undo_title) else "Undo"


def _redo_title(session: Session) -> str:
    return f"Redo: {title}" if (title := session.document.redo_title) else "Redo"


def _remove(session: Session, ask: Ask) -> None:
    del ask
    ids = session.chosen
    session.apply(Remove(ids=ids, called=called_on(session.document.plan, ids)))


def _choose_all(session: Session, ask: Ask) -> None:
    del ask
    items = session.document.plan.items.values()
    session.choose(i.id for i in items if i.kind.drawn and not i.kind.pinned)


def _choose_none(session: Session, ask: Ask) -> None:
    del ask
    session.choose(())


def _cancel(session: Session, ask: Ask) -> None:
    del ask
    session.point(Pointer(act=Act.CANCEL))


def _describe(session: Session, ask: Ask) -> None:
    del session
    ask.reach(Part.CARD)


def _find(session: Session, ask: Ask) -> None:
    del session
    ask.reach(Part.FIND)


MENU = Menu(
    title="Edit",
    order=20,
    commands=(
        Command(
            name="undo",
            title="Undo",
            keys="Ctrl+Z",
            icon="undo",
            run=_undo,
            enabled=lambda s: s.may_edit and s.document.undo_title is not None,
            title_now=_undo_title,
        ),
        Command(
            name="redo",
            title="Redo",
            keys="Ctrl+Shift+Z",
            icon="redo",
            run=_redo,
            enabled=lambda s: s.may_edit and s.document.redo_title is not None,
            title_now=_redo_title,
        ),
        Command(name="cancel", title="Stop drawing", run=_cancel, enabled=lambda s: s.is_open),
        None,
        Command(
            name="remove",
            title="Remove what is chosen",
            keys="Del",
            icon="delete",
            run=_remove,
            enabled=lambda s: s.may_edit and bool(s.chosen),
        ),
        Command(
            name="describe",
            title="Fill in the card",
            keys="F2",
            run=_describe,
            enabled=lambda s: bool(s.chosen),
        ),
        None,
        Command(
            name="find",
            title="Find a name, number or command",
            keys="Ctrl+F",
            run=_find,
            enabled=lambda s: s.is_open,
        ),
        Command(
            name="choose_all",
            title="Choose everything",
            keys="Ctrl+A",
            run=_choose_all,
            enabled=lambda s: s.is_open,
        ),
        Command(
            name="choose_none",
            title="Choose nothing",
            keys="Ctrl+Shift+A",
            run=_choose_none,
            enabled=lambda s: bool(s.chosen),
        ),
    ),
)
