"""The Help menu."""

from collections.abc import Callable

from plan_editor.commands.command import Ask, Command, Menu
from plan_editor.session import Session


def _reading(page: str) -> Callable[[Session, Ask], None]:
    def run(session: Session, ask: Ask) -> None:
        del session
        ask.read_page(page)

    return run


def _print_keys(session: Session, ask: Ask) -> None:
    del session
    ask.print_keys()


MENU = Menu(
    title="Help",
    order=90,
    commands=(
        Command(name="help_keys", title="Keys", keys="F1", run=_reading("keys")),
        Command(
            name="print_keys",
            title="Print the keys…",
            run=_print_keys,
            enabled=lambda s: s.is_open,
        ),
        Command(name="help_cautions", title="Cautions", run=_reading("cautions")),
        Command(name="help_about", title="About this program", run=_reading("about")),
    ),
)
