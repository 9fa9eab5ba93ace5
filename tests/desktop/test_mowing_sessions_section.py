"""The section of mowing sessions: record them, see the rates, take them over."""

from typing import Any

import pytest
from pytestqt.qtbot import QtBot
from shapely import box

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.kinds import grass, parish, visit
from plan_editor.kinds.visit import VisitDetails
from plan_editor.plan.item import new_item

LAWN = new_item(grass.KIND, box(0, 0, 40, 25))


@pytest.fixture
def shown(window: PlanWindow) -> Any:
    sessions = (
        new_item(
            visit.KIND, details=VisitDetails(date=f"2026-0{n}-01", grass=LAWN.id, mowing_h=1.0)
        )
        for n in (3, 4)
    )
    window.session.apply(Add((LAWN, *sessions)))
    window.show()
    window.go("safety")
    assert window.body is not None
    panel = window.body.side.panels["safety"]
    panel.open("mowing_sessions")
    return panel.sections["mowing_sessions"]


def test_a_third_session_tells_a_rate_and_it_is_taken_over(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    qtbot.waitUntil(
        lambda: shown.basis.text().startswith("A rate wants 3 sessions"), timeout=20000
    )
    assert not shown.take.isEnabled()
    shown.add.click()
    assert shown.sessions.isHidden()
    shown.form.rows["grass"].show_text("Grass")
    shown.form.rows["mowing_h"].show_text("1")
    shown.form.record.click()
    qtbot.waitUntil(shown.take.isEnabled, timeout=20000)
    assert shown.sessions.model().rowCount() == 3
    shown.sessions.selectRow(0)
    assert window.session.document.plan.items[window.session.chosen[0]].kind == visit.KIND
    shown.take.click()
    (figures,) = window.session.document.plan.of(parish.KIND)
    assert figures.details.mowing_m2_h == 1000.0


def test_a_session_without_its_date_is_told_in_the_form(shown: Any) -> None:
    shown.add.click()
    shown.form.rows["date"].show_text("")
    shown.form.record.click()
    assert "Give the date" in shown.form.sentence
    shown.form.cancel.click()
    assert not shown.sessions.isHidden()
