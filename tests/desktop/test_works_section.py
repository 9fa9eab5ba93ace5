"""The section of works: a work and a quote are added, and the running total follows."""

from dataclasses import replace
from typing import Any

import pytest
from pytestqt.qtbot import QtBot
from shapely import Point

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.kinds import inspection, tree, works
from plan_editor.plan.item import new_item

YEW = new_item(tree.KIND, Point(0, 0), number="T 1")


@pytest.fixture
def shown(window: PlanWindow, qtbot: QtBot) -> Any:
    window.session.apply(Add((YEW,)))
    window.show()
    window.go("safety")
    assert window.body is not None
    panel = window.body.side.panels["safety"]
    panel.open("works")
    return panel.sections["works"]


def rows(shown: Any) -> list[list[str]]:
    model = shown.works.model()
    return [[model.index(r, c).data() for c in range(3)] for r in range(model.rowCount())]


def test_a_work_is_added_to_what_is_chosen_and_a_quote_to_it(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    window.session.choose((YEW.id,))
    shown.add.click()
    assert shown.works.isHidden()
    assert shown.form.rows["target"].text == "Tree T 1"
    shown.form.record.click()
    assert "Say what is to be done" in shown.form.sentence
    shown.form.rows["what"].show_text("Crown-lift")
    shown.form.record.click()
    qtbot.waitUntil(lambda: rows(shown) == [["Crown-lift, Tree T 1", "–", "£0"]])
    shown.works.selectRow(0)
    shown.quote.click()
    shown.form.rows["amount"].show_text("450")
    shown.form.record.click()
    qtbot.waitUntil(lambda: rows(shown) == [["Crown-lift, Tree T 1", "£450", "£450"]])


def test_without_a_work_no_quote_is_offered(shown: Any, window: PlanWindow) -> None:
    assert not shown.quote.isEnabled()
    shown.add.click()
    assert shown.form.rows["target"].text == ""
    shown.form.cancel.click()
    assert not shown.works.isHidden()
    assert not window.session.document.plan.count(works.KIND)


def test_the_items_of_the_report_are_a_list_of_their_own(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    details = works.WorksDetails(what="Repoint", item_no="3.1", progress=works.Progress.DONE)
    window.session.apply(Add((new_item(works.KIND, details=details),)))
    shown.which.setCurrentIndex(1)
    qtbot.waitUntil(lambda: rows(shown) == [["Repoint", "–", "£0"]])


def test_a_work_is_made_of_what_the_latest_inspection_found_and_not_twice(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    assert not shown.make.isEnabled()
    window.session.choose((YEW.id,))
    assert not shown.make.isEnabled()
    details = inspection.InspectionDetails(
        target=YEW.id,
        date="2026-04-14",
        result=inspection.Result.MINOR,
        action="Cut out the dead wood",
    )
    found = new_item(inspection.KIND, details=details)
    window.session.apply(Add((found,)))
    window.session.choose((YEW.id,))
    qtbot.waitUntil(shown.make.isEnabled)
    label = shown._told.text()
    assert label == "Tree T 1: minor fault, look again, 14 April 2026. Cut out the dead wood"
    shown.make.click()
    qtbot.waitUntil(lambda: rows(shown) == [["Cut out the dead wood, Tree T 1", "–", "£0"]])
    (work,) = window.session.document.plan.of(works.KIND)
    assert (work.details.inspection, window.session.chosen) == (found.id, (work.id,))
    # once more shows the one that there is
    window.session.choose((YEW.id,))
    assert "A work was made of it already." in shown._told.text()
    shown.make.click()
    assert window.session.document.plan.count(works.KIND) == 1
    assert window.session.chosen == (work.id,)
    # an inspection itself may be chosen; one that found nothing offers nothing
    window.session.choose((found.id,))
    assert shown.make.isEnabled()
    sound = replace(details, date="2026-05-01", result=inspection.Result.SOUND)
    window.session.apply(Add((new_item(inspection.KIND, details=sound),)))
    window.session.choose((YEW.id,))
    assert not shown.make.isEnabled()
