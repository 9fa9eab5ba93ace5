"""The Print menu: every sheet, and every drawing that another program reads."""

from collections.abc import Callable

from plan_editor.commands.command import Ask, Command, Menu
from plan_editor.exchange.format import formats
from plan_editor.printing.sheet import sheets
from plan_editor.session import Session

Run = Callable[[Session, Ask], None]


def _printing(name: str) -> Run:
    def run(session: Session, ask: Ask) -> None:
        del session
        ask.print_sheet(name)

    return run


def _writing(name: str) -> Run:
    def run(session: Session, ask: Ask) -> None:
        del session
        ask.write_drawing(name)

    return run


def _is_open(session: Session) -> bool:
    return session.is_open


MENU = Menu(
    title="Print",
    order=60,
    commands=(
        *(
            Command(
                name=f"print_{sheet.name}",
                title=f"{sheet.title}…",
                keys="Ctrl+P" if number == 0 else "",
                icon="print" if number == 0 else "",
                run=_printing(sheet.name),
                enabled=_is_open,
            )
            for number, sheet in enumerate(sheets())
        ),
        None,
        *(
            Command(
                name=f"write_{one.name}",
                title=f"Write a {one.title[:1].lower()}{one.title[1:]}…",
                run=_writing(one.name),
                enabled=_is_open,
            )
            for one in formats()
            if one.write is not None
        ),
    ),
)
