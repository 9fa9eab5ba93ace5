"""The plan's grid in the window, and the whole plan moved by coordinates that are pasted."""

from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot
from shapely import Point

from plan_editor.commands.placing import picking
from plan_editor.desktop.app import Application
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, mark
from plan_editor.plan.document import Document
from plan_editor.plan.item import Method, new_item
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

# a quarter turn clockwise: what lies north on the plan lies east on the national grid
PASTED = "M1 553112.000 421034.000 0.02\nM2  553112.010 420974.010\nM3 553152.000 421034.000\n"


@pytest.fixture
def local(house: Application, tmp_path: Path) -> PlanWindow:
    """A window on a plan in a local grid: three marks and a grave."""
    path = tmp_path / "local.gpkg"
    with PlanFile.create(path, name="St Elfric, Harrowmere", grid=Grid()) as file:
        places = [(0, 0), (60, 0), (0, 40)]
        marks = (
            new_item(mark.KIND, Point(p), number=f"M {n}") for n, p in enumerate(places, 1)
        )
        stone = new_item(grave.KIND, Rectangle(east=20, north=10, width=1.2, length=2.7))
        Document(file.plan, journal=file).apply(Add((*marks, stone)))
        file.save()
    house.open_plan(path)
    made = house.windows[-1]
    made.resize(1600, 1000)
    made.go("survey")
    return made


def section(window: PlanWindow) -> Any:  # a section, whose parts are pressed
    assert window.body is not None
    panel: Any = window.body.side.panels["survey"]
    panel.open("grid")
    return panel.sections["grid"]


def press(qtbot: QtBot, button: Any) -> None:
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def test_a_plan_is_moved_by_pasted_coordinates_and_back_by_undo(
    qtbot: QtBot, local: PlanWindow
) -> None:
    part = section(local)
    canvas = local.body.ground.canvas  # type: ignore[union-attr]
    assert part.system.text().startswith("Local grid")
    assert part.north.text() == "Where true north lies is not known."
    press(qtbot, part.ask)
    form = part.form
    assert form.typed.toPlainText() == "M1  \nM2  \nM3  "
    assert not form.done.isEnabled()
    form.typed.setPlainText(PASTED)
    assert "turned 89.99" in form.told.text()
    assert form.done.isEnabled()
    form.known_by.setCurrentText("by GNSS")
    before = local.session.document.plan
    press(qtbot, form.done)
    plan = local.session.document.plan
    assert plan.grid == Grid(crs="EPSG:27700", east=553_100.0, north=420_900.0)
    first = next(plan.of(mark.KIND))
    assert plan.grid.to_crs(first.shape.x, first.shape.y) == (553_112.0, 421_034.0)  # type: ignore[union-attr]
    assert (first.basis.method, first.basis.sd_m) == (Method.GNSS, 0.02)
    assert form.isHidden()
    assert local.session.document.undo_title == "Move the plan to EPSG:27700 by 3 marks"
    qtbot.waitUntil(lambda: "EPSG:27700" in part.system.text())
    assert "29.997 m on the grid" in part.scale.text()
    assert "west of grid north" in part.north.text()
    # the view shows the ground where it lies now
    seen = canvas.mapToScene(canvas.viewport().rect()).boundingRect()
    assert seen.contains(first.shape.x, first.shape.y)  # type: ignore[union-attr]
    local.commands.action("undo").trigger()
    assert local.session.document.plan.items == before.items
    assert local.session.document.plan.grid == Grid()
    qtbot.waitUntil(lambda: "Local grid" in part.system.text())
    local.commands.action("redo").trigger()
    assert local.session.document.plan.grid == plan.grid
    local.session.file.save()  # type: ignore[union-attr]
    assert read_plan(local.session.file.path).grid == plan.grid  # type: ignore[union-attr]


def test_coordinates_under_the_pointer_follow_the_move(qtbot: QtBot, local: PlanWindow) -> None:
    canvas = local.body.ground.canvas  # type: ignore[union-attr]
    told: list[str] = []
    canvas.pointer_moved.connect(lambda place, _: told.append(place))
    qtbot.mouseMove(canvas.viewport(), QPoint(300, 300))
    qtbot.waitUntil(lambda: bool(told))
    part = section(local)
    press(qtbot, part.ask)
    part.form.typed.setPlainText(PASTED)
    press(qtbot, part.form.done)
    assert told[-1] == ""
    qtbot.mouseMove(canvas.viewport(), QPoint(320, 320))
    qtbot.waitUntil(
        lambda: told[-1].startswith("E\N{NARROW NO-BREAK SPACE}553") or "553" in told[-1]
    )


def test_what_a_tool_had_begun_is_dropped(qtbot: QtBot, local: PlanWindow) -> None:
    part = section(local)
    press(qtbot, part.ask)
    part.form.typed.setPlainText(PASTED)
    local.session.take_up(picking("Click a place."))
    press(qtbot, part.form.done)
    assert local.session.button.name == "select"


@pytest.mark.parametrize(
    ("typed", "because"),
    [
        ("M1 553112 421034\nM9 553112 420974", "line 2: the plan has no mark “M9”"),
        ("M1 553112 421034\n\nM2 here there", "line 3: “here” is not a number"),
        ("M1 553112 421034", "only one was given"),
        ("M1 553112 421034\nM2 553112 420934", "times as far apart"),
    ],
)
def test_why_it_cannot_be_moved_is_said_while_one_types(
    qtbot: QtBot, local: PlanWindow, typed: str, because: str
) -> None:
    part = section(local)
    press(qtbot, part.ask)
    part.form.typed.setPlainText(typed)
    assert because in part.form.sentence.text()
    assert not part.form.done.isEnabled()
    qtbot.keyClick(part.form, Qt.Key.Key_Escape)
    assert part.form.isHidden()
    assert part.ask.isVisible()


def test_a_plan_without_marks_says_what_it_takes(window: PlanWindow) -> None:
    window.go("survey")
    part = section(window)
    assert part.lacking.isVisible()
    assert part.ask.isHidden()
