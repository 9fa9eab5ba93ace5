"""The section of works: a work and a quote are added, and the running total follows."""

from typing import Any

import pytest
from pytestqt.qtbot import QtBot
from shapely import Point

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.kinds import tree, works
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
