"""Cut a piece out of what is chosen: drawn, or the ground of a thing that is there."""

from plan_editor.drafting.across import Across, Ready
from plan_editor.drafting.figures import Place
from plan_editor.drafting.tool import Answer, Setting, ToolButton
from plan_editor.drafting.workable import areal
from plan_editor.edits.shapes import CutOut
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import ItemId


def _cut(ids: tuple[ItemId, ...], called: str, corners: tuple[Place, ...]) -> Edit:
    return CutOut(ids=ids, piece=corners, called=called)


def _by(ids: tuple[ItemId, ...], called: str, thing: ItemId) -> Edit:
    return CutOut(ids=ids, by=thing, called=called)


ACROSS = Across(
    fits=areal,
    choose="Click the area that a piece is to be cut out of",
    first="Click the first corner of the piece that is to be cut out",
    end="Click the next corner; the first one, a double click or Enter cuts it out",
    closed=True,
    edit=_cut,
    by=_by,
)


def _start(setting: Setting) -> Answer:
    return Ready(ACROSS).waiting(chosen=bool(setting.chosen))


TOOL = ToolButton(
    name="cut_out",
    title="Cut out",
    icon="cut_out",
    key="C",
    order=45,
    jobs=frozenset({"survey", "trace", "space"}),
    start=_start,
)
