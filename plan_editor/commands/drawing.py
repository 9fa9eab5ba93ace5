"""Which kinds can be drawn, and which tool draws them."""

from functools import cache

from plan_editor.drafting.tool import ToolButton, tools
from plan_editor.errors import CannotUse
from plan_editor.plan.kind import Kind, kinds
from plan_editor.session import Session


@cache
def drawn_kinds() -> tuple[Kind, ...]:
    """Return the kinds that are drawn by hand, in the order of their titles."""
    return tuple(
        sorted((k for k in kinds() if k.drawn and not k.pinned), key=lambda k: k.title)
    )


def drawing_tool() -> ToolButton:
    """Return the tool that draws any kind.

    Raises:
        CannotUse: there is none.
    """
    for tool in tools():
        if tool.draws:
            return tool
    raise CannotUse("There is no tool that draws. Nothing was changed.")


def draw(session: Session, kind: Kind) -> None:
    """Take up the tool that draws, with a kind to draw."""
    session.take_up(drawing_tool(), kind)
