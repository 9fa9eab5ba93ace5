"""Every control can be reached by keys and has a name; the prompt is in nobody's way."""

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QGraphicsView,
    QLineEdit,
    QPlainTextEdit,
    QScrollArea,
    QWidget,
)
from shapely import LineString, box
from strategies import kind_of, plain

from plan_editor.desktop.canvas.furniture import Prompt
from plan_editor.desktop.jobs import jobs
from plan_editor.desktop.sections_column import SectionsColumn
from plan_editor.desktop.window import PlanWindow
from plan_editor.drafting.tool import Act, Setting, tools
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.kind import kinds

ITEMS = (
    plain(kind_of("grave"), 1).on(Rectangle(east=1.0, north=2.0, width=1.2, length=2.7)),
    plain(kind_of("fence"), 2).at(LineString([(0, 0), (10, 0)])),
    plain(kind_of("grass"), 3).at(box(0, 0, 50, 50)),
)

CONTROLS = (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QGraphicsView,
    QLineEdit,
    QPlainTextEdit,
)


def controls(window: PlanWindow) -> list[QWidget]:
    found = [w for sort in CONTROLS for w in window.findChildren(sort)]
    return [w for w in found if w.isVisible() and not _within(w)]


def _within(widget: QWidget) -> bool:
    """A part that Qt itself puts into a control, which speaks for it."""
    parent = widget.parentWidget()
    return isinstance(parent, (QComboBox, QLineEdit, QAbstractSpinBox, QAbstractItemView))


def nameless(window: PlanWindow) -> list[str]:
    return [
        f"{type(w).__name__} in {type(w.parentWidget()).__name__}"
        for w in controls(window)
        if not (w.accessibleName() or getattr(w, "text", str)())
    ]


def out_of_reach(window: PlanWindow) -> list[str]:
    """Return controls that keys cannot be taken to; those that are greyed come later."""
    return [
        f"{type(w).__name__} “{w.accessibleName()}”"
        for w in controls(window)
        if w.isEnabled()
        and not w.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not isinstance(w, QScrollArea)
    ]


@pytest.mark.parametrize("job", [j.name for j in jobs()])
def test_every_control_of_a_job_has_a_name_and_can_be_reached(
    window: PlanWindow, job: str
) -> None:
    window.session.apply(Add(ITEMS))
    body = window.body
    assert body is not None
    body.side.card.place_fold.open(True)
    window.go(job)
    panel = body.side.panels[job]
    names = tuple(panel.folds) if isinstance(panel, SectionsColumn) else ("",)
    seen = 0
    for name in names:
        if isinstance(panel, SectionsColumn):
            panel.open(name)
        for chosen in ((), (ITEMS[0].id,), (ITEMS[1].id,), tuple(i.id for i in ITEMS)):
            window.session.choose(chosen)
            seen += len(controls(window))
            assert nameless(window) == []
            assert out_of_reach(window) == []
    assert seen > 50


@pytest.mark.parametrize("tool", tools(), ids=lambda t: t.name)
def test_a_tool_says_from_the_start_what_the_next_click_does(tool) -> None:  # type: ignore[no-untyped-def]
    for kind in (None, *(k for k in kinds() if k.drawn)):
        assert tool.start(Setting(kind=kind)).prompt


def test_the_prompt_makes_way_for_what_is_drawn_beneath_it(window: PlanWindow) -> None:
    body = window.body
    assert body is not None
    canvas = body.ground.canvas
    prompt = next(p for p in canvas.viewport().findChildren(Prompt) if p.isVisible())
    low = prompt.y()
    assert low > canvas.viewport().height() / 2
    over = QPointF(prompt.geometry().center())
    canvas.act_at(Act.MOVE, over, Qt.KeyboardModifier.NoModifier)
    assert prompt.y() < canvas.viewport().height() / 2
    assert not prompt.geometry().contains(over.toPoint())
    canvas.act_at(Act.MOVE, QPointF(50, 50), Qt.KeyboardModifier.NoModifier)
    assert prompt.y() == low


def test_a_long_prompt_takes_more_lines_and_stays_on_the_ground(window: PlanWindow) -> None:
    body = window.body
    assert body is not None
    glass = body.ground.canvas.viewport()
    prompt = next(p for p in glass.findChildren(Prompt) if p.isVisible())
    one = prompt.height()
    prompt.say("Click the corner of the wall by the gate. " * 12)
    assert prompt.height() > one
    assert prompt.width() < 0.7 * glass.width()
