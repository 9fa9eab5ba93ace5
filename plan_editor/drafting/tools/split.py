"""Split what is chosen by a line drawn across it."""

from plan_editor.drafting.across import Across, Ready
from plan_editor.drafting.figures import Place
from plan_editor.drafting.tool import Answer, Setting, ToolButton
from plan_editor.drafting.workable import flat
from plan_editor.edits.shapes import Split
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId


def _split(ids: tuple[ItemId, ...], called: str, corners: tuple[Place, ...]) -> Edit:
    return Split(ids=ids, cut=corners, called=called)


ACROSS = Across(
    fits=flat,
    choose="Click the line or area that is to be split",
    first="Click where the line across begins: on the edge or before it",
    end="Click the next corner; a double click or Enter splits it",
    closed=False,
    edit=_split,
)


def _start(setting: Setting) -> Answer:
    return Ready(ACROSS).waiting(chosen=bool(setting.chosen))


TOOL = ToolButton(
    name="split",
    title="Split",
    icon="split",
    key="X",
    order=43,
    jobs=frozenset({"survey", "trace", "space"}),
    start=_start,
)
