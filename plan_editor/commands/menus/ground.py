"""The Ground menu: look the plan through, and show one section of it alone."""

from plan_editor.commands.command import Ask, Command, Menu
from plan_editor.commands.ground_pieces import (
    has_piece,
    is_partly_shown,
    only_in_hand,
    show_all_pieces,
)
from plan_editor.session import Session


def _check(session: Session, ask: Ask) -> None:
    del session
    ask.unfold("check")


def _sections(session: Session, ask: Ask) -> None:
    del session
    ask.unfold("ground_sections")


def _all(session: Session, ask: Ask) -> None:
    del ask
    show_all_pieces(session)


def _is_open(session: Session) -> bool:
    return session.is_open


MENU = Menu(
    title="Ground",
    order=46,
    commands=(
        Command(
            name="check_plan",
            title="Check the plan",
            keys="Ctrl+Shift+K",
            run=_check,
            enabled=_is_open,
        ),
        None,
        Command(
            name="ground_sections",
            title="What lies in each section",
            run=_sections,
            enabled=_is_open,
        ),
        Command(
            name="only_section",
            title="Show only this section",
            keys="Ctrl+Shift+O",
            run=only_in_hand,
            enabled=has_piece,
        ),
        Command(
            name="all_sections",
            title="Show everything again",
            run=_all,
            enabled=is_partly_shown,
        ),
    ),
)
