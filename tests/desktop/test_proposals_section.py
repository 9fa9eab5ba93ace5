"""Looking for graves in a scan from the panel, and what becomes of what is found."""

import shutil
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot
from shapely import box

from plan_editor.desktop.app import Application
from plan_editor.desktop.sections.proposals import ABOUT
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add, Remove
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.proposals import Proposal
from plan_editor.kinds import base_plan, grave
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.item import Basis, Item, new_item
from plan_editor.resources import sample

LEFT = Qt.MouseButton.LeftButton
OPENED_MS = 60_000


SCAN = replace(
    new_item(
        base_plan.KIND,
        box(0.0, 0.0, 100.0, 100.0),
        details=BasePlanDetails(
            name="Plan of 1962",
            digest="0" * 64,
            extent=(0.0, 0.0, 1000.0, 1000.0),
            fit=(0.1, 0.0, 0.0, 0.0, -0.1, 100.0),
            shown=False,
        ),
    ),
    basis=Basis(sd_m=0.08),
)


@pytest.fixture
def section(window: PlanWindow) -> Any:
    window.session.apply(Add((SCAN,)))
    return opened(window)


def opened(window: PlanWindow) -> Any:
    """Return the section, open in its panel."""
    window.go("trace")
    assert window.body is not None
    panel = window.body.side.panels["trace"]
    panel.open("proposals")
    return panel.sections["proposals"]


@pytest.fixture
def sample_window(house: Application, tmp_path: Path, qtbot: QtBot) -> PlanWindow:
    """Return the sample without the graves of row A, with its scan brought in."""
    path = tmp_path / "harrowmere.gpkg"
    shutil.copyfile(sample("harrowmere.gpkg"), path)
    house.open_plan(path)
    made = house.windows[-1]
    made.resize(1600, 1000)
    items = made.session.document.plan.items.values()
    gone = {i.id for i in items if i.kind is grave.KIND and i.number.startswith("A ")}
    for _ in range(2):  # their stones, and the inspections of those
        gone |= {i.id for i in items if gone & _told(i)}
    made.session.apply(Remove(ids=tuple(gone)))
    return made


def _told(item: Item[Any]) -> set[Any]:
    values = (getattr(item.details, f.name) for f in fields(item.details))
    return {v for value in values for v in (value if isinstance(value, tuple) else (value,))}


def found(count: int = 3) -> tuple[Proposal, ...]:
    """Return some that lie where there is nothing, each less sure than the one before."""
    return tuple(
        Proposal(
            rectangle=Rectangle(east=70.0, north=50.0 + 1.5 * n, width=1.2, length=2.4),
            score=0.9 - 0.3 * n,
            base_plan=SCAN.id,
        )
        for n in range(count)
    )


def test_looking_is_stopped_and_then_the_graves_of_a_row_are_found_and_drawn_by_key(
    qtbot: QtBot, sample_window: PlanWindow
) -> None:
    window, section = sample_window, opened(sample_window)
    qtbot.mouseClick(section.look, LEFT)
    assert window.background.goes_on(ABOUT)
    qtbot.mouseClick(section.stop, LEFT)
    assert not window.background.goes_on(ABOUT)
    assert not section.said.isVisible()
    told: list[float] = []
    section.progress.valueChanged.connect(told.append)
    qtbot.mouseClick(section.look, LEFT)
    assert not section.look.isEnabled()
    assert section.progress.isVisible()
    qtbot.waitUntil(section.go.isEnabled, timeout=OPENED_MS)
    assert told == sorted(told)
    assert len(told) > 1
    assert section.look.isEnabled()
    assert not section.progress.isVisible()
    there = len(section.waiting())
    assert there >= 10
    qtbot.mouseClick(section.go, LEFT)
    assert window.session.button.name == "proposals"
    plan = window.session.document.plan
    assert window.body is not None
    canvas = window.body.ground.canvas
    while (course := window.session.answer.tool.course).at is not None:  # type: ignore[attr-defined]  # of that tool
        QTest.keyClick(canvas, Qt.Key.Key_O if len(course.its_row()) > 1 else Qt.Key.Key_A)
    drawn = window.session.document.plan.count(grave.KIND) - plan.count(grave.KIND)
    assert drawn == there


def test_the_least_score_says_how_many_there_are(window: PlanWindow, section: Any) -> None:
    section._show(found())
    assert section.said.text() == "3 found, 2 of them to go through"
    section.least.setText("0.2")
    assert section.said.text() == "3 found, 3 of them to go through"
    section.least.setText("much")
    assert "is no score" in section._fault.text()
    assert not section.go.isEnabled()
    section._go()
    assert window.session.button.name == "select"
    section.least.setText("")
    assert not section._fault.isVisible()


def test_all_above_are_accepted_as_one_step(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    section._show(found())
    before = window.session.document.plan.count(grave.KIND)
    qtbot.mouseClick(section.accept, LEFT)
    assert window.session.document.plan.count(grave.KIND) == before + 2
    qtbot.waitUntil(lambda: not section.go.isEnabled())
    window.session.document.undo()
    assert window.session.document.plan.count(grave.KIND) == before


def test_what_was_left_out_does_not_come_back_in_another_search(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    section._show(found())
    qtbot.mouseClick(section.go, LEFT)
    assert window.body is not None
    QTest.keyClick(window.body.ground.canvas, Qt.Key.Key_L)
    assert len(window.session.left_out) == 1
    qtbot.waitUntil(lambda: section.said.text() == "3 found, 1 of them to go through")
    section._show(found())
    assert section.said.text() == "2 found, 1 of them to go through"


def test_the_view_follows_the_one_in_hand(window: PlanWindow, section: Any) -> None:
    section._show(found())
    assert window.body is not None
    canvas = window.body.ground.canvas
    canvas.look_at((0.0, 0.0, 20.0, 20.0))
    section._go()
    at = canvas.mapFromScene(*found()[0].rectangle.centre)
    assert canvas.viewport().rect().contains(at)


def test_without_a_scan_it_says_what_is_wanted(window: PlanWindow) -> None:
    section = opened(window)
    assert not section._inside.isVisible()
    assert "Lay an old plan under the ground" in section._empty.text()
    section._look()
    assert not window.background.goes_on(ABOUT)
