"""The Edit menu: undo, redo, remove, choose."""

from plan_editor.commands.chosen_things import change_kind, duplicate, lock, unlock
from plan_editor.commands.clipboard import copy, copy_place, cut, paste
from plan_editor.commands.command import Ask, Command, Menu, Part
from plan_editor.commands.joining import join, joinable, simplify, thinnable
from plan_editor.commands.stepping import next_thing, previous_thing
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


def _history(session: Session, ask: Ask) -> None:
    del session
    ask.unfold("history")


def _remove(session: Session, ask: Ask) -> None:
    del ask
    ids = session.chosen
    session.apply(Remove(ids=ids, called=called_on(session.document.plan, ids)))


def _choose_all(session: Session, ask: Ask) -> None:
    del ask
    items = session.document.plan.items.values()
    session.choose(
        i.id
        for i in items
        if i.kind.drawn and not i.kind.pinned and i.kind.name not in session.locked
    )


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


def _may_edit(session: Session) -> bool:
    return session.may_edit


def _is_open(session: Session) -> bool:
    return session.is_open


def _chosen(session: Session) -> bool:
    return bool(session.chosen)


def _chosen_to_edit(session: Session) -> bool:
    return session.may_edit and bool(session.chosen)


def _open_menu(session: Session, ask: Ask) -> None:
    del session
    ask.open_menu()


CLIPBOARD = (
    Command(
        name="cut", title="Cut", keys="Ctrl+X", run=cut, enabled=_chosen_to_edit, beside=20
    ),
    Command(name="copy", title="Copy", keys="Ctrl+C", run=copy, enabled=_chosen, beside=21),
    Command(
        name="paste", title="Paste", keys="Ctrl+V", run=paste, enabled=_may_edit, beside=22
    ),
    Command(
        name="duplicate",
        title="Duplicate",
        keys="Ctrl+D",
        run=duplicate,
        enabled=_chosen_to_edit,
        beside=23,
    ),
    Command(
        name="copy_place",
        title="Copy the coordinates of the pointer's place",
        keys="Ctrl+Shift+C",
        run=copy_place,
        enabled=_is_open,
        beside=50,
    ),
)

KINDS = (
    Command(
        name="change_kind",
        title="Make it into another kind…",
        keys="Ctrl+K",
        run=change_kind,
        enabled=_chosen_to_edit,
        beside=30,
    ),
    Command(
        name="lock",
        title="Lock everything of this kind",
        keys="Ctrl+Shift+L",
        run=lock,
        enabled=_chosen,
        beside=40,
    ),
    Command(
        name="unlock",
        title="Unlock every kind",
        run=unlock,
        enabled=lambda s: bool(s.locked),
        beside=41,
    ),
)

SHAPES = (
    Command(
        name="join",
        title="Join what is chosen",
        keys="Ctrl+J",
        run=join,
        enabled=joinable,
        beside=32,
    ),
    Command(
        name="simplify",
        title="Simplify outlines…",
        run=simplify,
        enabled=thinnable,
        beside=33,
    ),
)

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
        Command(
            name="history",
            title="What was done…",
            keys="Ctrl+H",
            run=_history,
            enabled=_is_open,
        ),
        Command(name="cancel", title="Stop drawing", run=_cancel, enabled=_is_open),
        None,
        Command(
            name="remove",
            title="Remove what is chosen",
            keys="Del",
            icon="delete",
            run=_remove,
            enabled=_chosen_to_edit,
            beside=31,
        ),
        Command(
            name="describe",
            title="Fill in the card",
            keys="F2",
            run=_describe,
            enabled=_chosen,
            beside=10,
        ),
        None,
        *CLIPBOARD,
        None,
        *KINDS,
        None,
        *SHAPES,
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
            name="next_thing",
            title="Choose the next thing on the ground",
            keys="Ctrl+Right",
            run=next_thing,
            enabled=_is_open,
        ),
        Command(
            name="previous_thing",
            title="Choose the one before it",
            keys="Ctrl+Left",
            run=previous_thing,
            enabled=_is_open,
        ),
        Command(
            name="menu_here",
            title="What can be done at the pointer",
            keys="Shift+F10",
            run=_open_menu,
            enabled=_is_open,
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
