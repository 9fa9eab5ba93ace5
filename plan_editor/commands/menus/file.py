"""The File menu: new, open, lay under the ground, save, close."""

from plan_editor.commands.backdrops import drawing_suffixes
from plan_editor.commands.command import Ask, Command, Menu
from plan_editor.commands.laying import SCANS
from plan_editor.session import Session

PLAN = ".gpkg"


def _new(session: Session, ask: Ask) -> None:
    del session
    ask.new_plan()


def _open(session: Session, ask: Ask) -> None:
    del session
    if (path := ask.file_to_open("Open a plan", (PLAN,))) is not None:
        ask.open_plan(path)


def _lay(session: Session, ask: Ask) -> None:
    del session
    suffixes = (*SCANS, *sorted(drawing_suffixes()))
    if (path := ask.file_to_open("Lay a file under the ground", suffixes)) is not None:
        ask.lay(path)


def _save(session: Session, ask: Ask) -> None:
    del session
    ask.save()


def _save_as(session: Session, ask: Ask) -> None:
    suggested = _suggested(session, "")
    if (path := ask.file_to_write("Save as", PLAN, suggested)) is not None:
        ask.save_as(path)


def _save_copy(session: Session, ask: Ask) -> None:
    suggested = _suggested(session, " copy")
    if (path := ask.file_to_write("Save a copy", PLAN, suggested)) is not None:
        ask.save_copy(path)


def _dated_copies(session: Session, ask: Ask) -> None:
    file = session.file
    if file is None:
        return
    now = f"They go to {file.copies_folder}." if file.copies_folder else "None are kept now."
    question = f"A dated copy can be kept at every Save, the last ten of them. {now}"
    match ask.which(question, ("Choose a folder", "Keep none")):
        case 0:
            if (folder := ask.folder("Where dated copies go")) is not None:
                file.keep_copies_in(str(folder))
                ask.save()
        case 1:
            file.keep_copies_in("")
            ask.save()
        case _:
            return


def _suggested(session: Session, more: str) -> str:
    return f"{session.file.path.stem}{more}{PLAN}" if session.file is not None else PLAN


def _close(session: Session, ask: Ask) -> None:
    del session
    ask.close()


def _quit(session: Session, ask: Ask) -> None:
    del session
    ask.quit()


def _may_edit(session: Session) -> bool:
    return session.may_edit


def _may_save(session: Session) -> bool:
    return session.may_edit and session.may_write


def _may_write(session: Session) -> bool:
    return session.may_write


MENU = Menu(
    title="File",
    order=10,
    commands=(
        Command(name="new", title="New plan…", keys="Ctrl+N", run=_new),
        Command(name="open", title="Open…", keys="Ctrl+O", icon="open", run=_open),
        None,
        Command(
            name="lay",
            title="Lay an old plan under the ground…",
            keys="Ctrl+L",
            icon="base_plan",
            run=_lay,
            enabled=_may_edit,
        ),
        None,
        Command(
            name="save", title="Save", keys="Ctrl+S", icon="save", run=_save, enabled=_may_save
        ),
        Command(
            name="save_as",
            title="Save as…",
            keys="Ctrl+Shift+S",
            run=_save_as,
            enabled=_may_write,
        ),
        Command(name="save_copy", title="Save a copy…", run=_save_copy, enabled=_may_write),
        Command(
            name="dated_copies", title="Dated copies…", run=_dated_copies, enabled=_may_save
        ),
        None,
        Command(name="close", title="Close", keys="Ctrl+W", run=_close),
        Command(name="quit", title="Quit", keys="Ctrl+Q", run=_quit),
    ),
)
