"""The section of families: a stone chosen, a step recorded, a notice printed."""

from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import inspection, memorial, tracing, wording
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.tracing import Step
from plan_editor.plan.item import new_item


@pytest.fixture
def shown(window: PlanWindow, qtbot: QtBot) -> Any:
    stone = new_item(
        memorial.KIND, Rectangle(east=0, north=0, width=0.8, length=0.2), number="C 14"
    )
    told = InspectionDetails(target=stone.id, date="2020-02-01", result=Result.IMMEDIATE)
    window.session.apply(Add((stone, new_item(inspection.KIND, details=told))))
    window.show()
    window.go("safety")
    assert window.body is not None
    panel = window.body.side.panels["safety"]
    panel.open("families")
    found = panel.sections["families"]
    qtbot.waitUntil(lambda: found.stones.model().rowCount() == 1)
    return found


def test_a_step_is_recorded_for_the_chosen_stone(shown: Any, window: PlanWindow) -> None:
    assert shown.add.isHidden()
    shown.stones.selectRow(0)
    assert not shown.add.isHidden()
    shown.add.click()
    assert shown.stones.isHidden()
    assert shown.form.rows["step"].text == "enquiry made"
    shown.form.record.click()
    (step,) = window.session.document.plan.of(tracing.KIND)
    assert step.details.step is Step.ENQUIRY
    assert not shown.stones.isHidden()


def test_a_step_that_proves_nothing_is_told_in_the_form(shown: Any, window: PlanWindow) -> None:
    shown.stones.selectRow(0)
    shown.add.click()
    shown.form.rows["date"].show_text("")
    shown.form.record.click()
    assert "without its day" in shown.form.sentence
    assert not window.session.document.plan.count(tracing.KIND)
    shown.form.cancel.click()
    assert shown.form.isHidden()


def test_a_notice_is_printed_of_the_chosen_stone(
    shown: Any, window: PlanWindow, script: Any, tmp_path: Any, qtbot: QtBot
) -> None:
    out = tmp_path / "notice.pdf"
    script.files.append(out)
    shown.stones.selectRow(0)
    shown.prints["notice"].click()
    qtbot.waitUntil(out.exists, timeout=20000)


def test_the_words_are_kept_with_the_plan_and_shown(shown: Any, window: PlanWindow) -> None:
    shown.stones.selectRow(0)
    shown.words.click()
    plan = window.session.document.plan
    (chosen,) = window.session.chosen
    assert plan.items[chosen].kind == wording.KIND
    shown.stones.selectRow(0)
    shown.words.click()
    assert window.session.document.plan.count(wording.KIND) == 3
