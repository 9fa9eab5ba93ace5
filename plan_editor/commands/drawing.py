"""Which kinds can be drawn, and which tool draws them."""

from functools import cache

from plan_editor.drafting.tool import ToolButton, tools
from plan_editor.errors import CannotUse
from plan_editor.plan.kind import Form, Kind, kinds
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


def forms_of(kind: Kind) -> tuple[Form, ...]:
    """Return the shapes in which a kind can be drawn, the usual one first."""
    return tuple(f for f in kind.forms if f is not Form.NONE)


def draw(session: Session, kind: Kind, form: Form | None = None) -> None:
    """Take up the tool that draws, with a kind to draw, in its usual form unless given."""
    session.take_up(drawing_tool(), kind, form)
