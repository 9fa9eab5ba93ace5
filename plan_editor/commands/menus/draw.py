"""The Draw menu: every tool, and every kind that can be drawn."""

from collections.abc import Callable

from plan_editor.commands.command import Ask, Command, Menu, Part
from plan_editor.commands.drawing import draw, drawn_kinds
from plan_editor.drafting.tool import ToolButton, tools
from plan_editor.plan.kind import Kind
from plan_editor.session import Session

Run = Callable[[Session, Ask], None]


def _taking(tool: ToolButton) -> Run:
    def run(session: Session, ask: Ask) -> None:
        session.take_up(tool)
        ask.reach(Part.GROUND)

    return run


def _drawing(kind: Kind) -> Run:
    def run(session: Session, ask: Ask) -> None:
        draw(session, kind)
        ask.reach(Part.GROUND)

    return run


def _is_open(session: Session) -> bool:
    return session.is_open


def _may_edit(session: Session) -> bool:
    return session.may_edit


MENU = Menu(
    title="Draw",
    order=40,
    commands=(
        *(
            Command(
                name=f"tool_{tool.name}",
                title=tool.title,
                keys=tool.key,
                icon=tool.icon,
                run=_taking(tool),
                enabled=_may_edit if tool.edits else _is_open,
            )
            for tool in tools()
            if not tool.draws
        ),
        None,
        Menu(
            title="What to draw",
            commands=tuple(
                Command(
                    name=f"draw_{kind.name}",
                    title=kind.title,
                    run=_drawing(kind),
                    enabled=_may_edit,
                )
                for kind in drawn_kinds()
            ),
        ),
    ),
)
