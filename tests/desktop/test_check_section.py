"""The section of the plan check: list, jump, mend, let stand."""

from typing import Any

import pytest
import shapely
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, section
from plan_editor.plan.item import Basis, new_item

SPIKED = ((0, 0), (20, 0), (20, 10), (35.0, 10.004), (20, 10.008), (20, 30), (0, 30))
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def shown(window: PlanWindow, qtbot: QtBot) -> Any:
    """The section, open, over a plan with two spikes and two graves over one another."""
    graves = [
        new_item(
            grave.KIND,
            Rectangle(east=90.0, north=n, width=1.22, length=2.74),
            number=f"A {n:.0f}",
            basis=Basis(sd_m=0.02),
        )
        for n in (0.0, 1.0)
    ]
    spiked = [
        new_item(section.KIND, shapely.affinity.translate(shapely.Polygon(SPIKED), e))
        for e in (0.0, 40.0)
    ]
    window.session.apply(Add((*graves, *spiked)))
    window.show()
    window.go("trace")
    assert window.body is not None
    panel = window.body.side.panels["trace"]
    panel.open("check")
    found = panel.sections["check"]
    qtbot.waitUntil(lambda: found.table.model().rowCount() == 3)
    return found


def test_findings_are_listed_by_grade_and_counted_by_rule(shown: Any) -> None:
    model = shown.table.model()
    grades = [model.index(n, 0).data() for n in range(3)]
    assert grades == ["doubt", "remark", "remark"]
    rules = [shown.rules.itemText(n) for n in range(shown.rules.count())]
    assert rules == ["All findings (3)", "Overlapping graves (1)", "Spikes in outlines (2)"]


def test_a_finding_chosen_chooses_its_things_and_shows_their_ground(
    shown: Any, window: PlanWindow
) -> None:
    shown.table.selectRow(0)
    graves = {g.id for g in window.session.document.plan.of(grave.KIND)}
    assert set(window.session.chosen) == graves
    assert window.body is not None
    seen = window.body.ground.in_view()
    assert seen[0] < 90.0
    assert seen[2] > 92.74
    assert shown.mend.isHidden()


def test_one_is_mended_and_the_list_follows(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    shown.table.selectRow(1)
    qtbot.mouseClick(shown.mend, LEFT)
    qtbot.waitUntil(lambda: shown.table.model().rowCount() == 2)
    assert window.session.document.undo_title == "Take a spike out of a section"


def test_all_of_a_sort_are_mended_in_one_step(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    shown.table.selectRow(2)
    qtbot.mouseClick(shown.mend_all, LEFT)
    qtbot.waitUntil(lambda: shown.table.model().rowCount() == 1)
    window.session.document.undo()
    qtbot.waitUntil(lambda: shown.table.model().rowCount() == 3)


def test_what_is_let_stand_leaves_the_list_and_can_be_told_again(
    shown: Any, qtbot: QtBot
) -> None:
    shown.table.selectRow(0)
    qtbot.mouseClick(shown.stand, LEFT)
    qtbot.waitUntil(lambda: shown.table.model().rowCount() == 2)
    assert "1 more finding was let stand" in shown.again.text()
    qtbot.mouseClick(shown.again, LEFT)
    qtbot.waitUntil(lambda: shown.table.model().rowCount() == 3)


def test_one_rule_alone_may_be_listed(shown: Any) -> None:
    shown.rules.setCurrentIndex(2)
    assert shown.table.model().rowCount() == 2
    shown.rules.setCurrentIndex(0)
    assert shown.table.model().rowCount() == 3
