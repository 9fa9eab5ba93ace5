"""The Row menu: what can be done with the row of graves in which something stands."""

from plan_editor.commands.command import Ask, Command, Menu
from plan_editor.commands.rows import choose_row, even_out, has_row, put_in_line, turn_to_row
from plan_editor.session import Session


def _show(session: Session, ask: Ask) -> None:
    del session
    ask.unfold("rows")


MENU = Menu(
    title="Row",
    order=45,
    commands=(
        Command(
            name="choose_row",
            title="Choose the whole row",
            keys="Ctrl+R",
            run=choose_row,
            enabled=has_row,
            beside=12,
        ),
        None,
        Command(name="even_out", title="Space the row evenly", run=even_out, enabled=has_row),
        Command(name="put_in_line", title="Put it in line", run=put_in_line, enabled=has_row),
        Command(
            name="turn_to_row",
            title="Turn what is chosen to the row",
            run=turn_to_row,
            enabled=has_row,
        ),
        None,
        Command(
            name="number_row",
            title="Number, copy or carry on the row…",
            keys="Ctrl+Shift+R",
            run=_show,
            enabled=has_row,
        ),
    ),
)
