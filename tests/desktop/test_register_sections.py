"""Finding a grave, and matching register and ground, in the window by keys and clicks."""

from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from plan_editor.desktop.sections import find_a_grave
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add, Remove
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave
from plan_editor.kinds.burial import Belief, BurialDetails
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.plan.item import Item, new_item

LEFT = Qt.MouseButton.LeftButton
GRAVES = tuple(
    new_item(
        grave.KIND,
        Rectangle(east=1.5 * n, north=0.0, width=1.2, length=2.4),
        details=GraveDetails(state=State.OCCUPIED),
        number=f"C {n}",
    )
    for n in range(12)
)
JOHN = new_item(
    burial.KIND,
    details=BurialDetails(surname="Ibbotson", forenames="Jno", place_written="row C no 4"),
    number="214",
)
ADA = new_item(
    burial.KIND, details=BurialDetails(surname="Kaye", forenames="Ada", grave=GRAVES[5].id)
)
LOST = new_item(burial.KIND, details=BurialDetails(surname="Lumb"))


@pytest.fixture
def panel(window: PlanWindow, qtbot: QtBot) -> Any:
    window.session.apply(Add((*GRAVES, JOHN, ADA, LOST)))
    window.go("records")
    with qtbot.waitExposed(window):
        window.show()
    assert window.body is not None
    return window.body.side.panels["records"]


def _opened(panel: Any, name: str) -> Any:
    panel.open(name)
    return panel.sections[name]


def _sketched(window: PlanWindow) -> int:
    assert window.body is not None
    return len(window.body.ground.canvas._layers._sketch._lines)


def _found(section: Any, row: int) -> tuple[str, ...]:
    table = section.table.table
    return tuple(table.index(row, c).data() for c in range(table.columnCount()))


def _john(window: PlanWindow) -> Item[BurialDetails]:
    return window.session.document.plan.items[JOHN.id]


@pytest.fixture
def finding(panel: Any, qtbot: QtBot) -> Any:
    section = _opened(panel, "find_a_grave")
    qtbot.waitUntil(lambda: section._register is not None)
    return section


def test_what_fits_is_listed_as_it_is_typed_and_enter_goes_to_the_first(
    qtbot: QtBot, finding: Any, window: PlanWindow
) -> None:
    qtbot.keyClicks(finding.field, "aeda kay")
    assert _found(finding, 0) == ("Entry, Ada Kaye", "Grave C 5")
    qtbot.keyClick(finding.field, Qt.Key.Key_Return)
    assert window.session.chosen == (ADA.id,)
    assert _sketched(window) == 1
    assert finding.said.text() == "Entry, Ada Kaye – Grave C 5"


def test_who_has_no_grave_is_found_and_nothing_is_looked_at(
    qtbot: QtBot, finding: Any, window: PlanWindow
) -> None:
    qtbot.keyClicks(finding.field, "ibbotsen")
    assert _found(finding, 0) == ("Entry 214, Jno Ibbotson", "no grave known")
    finding.table.selectRow(0)
    assert window.session.chosen == (JOHN.id,)
    assert _sketched(window) == 0
    assert not finding.slip.isVisible()


def test_a_grave_in_which_nobody_is_known_is_found_by_its_number(
    qtbot: QtBot, finding: Any, window: PlanWindow
) -> None:
    qtbot.keyClicks(finding.field, "c.7")
    assert _found(finding, 0) == ("nobody known", "Grave C 7")
    qtbot.keyClick(finding.field, Qt.Key.Key_Return)
    assert window.session.chosen == (GRAVES[7].id,)


def test_where_nothing_fits_that_is_said_and_enter_does_nothing(
    qtbot: QtBot, finding: Any, window: PlanWindow
) -> None:
    qtbot.keyClicks(finding.field, "nobody")
    qtbot.keyClick(finding.field, Qt.Key.Key_Return)
    assert finding.said.text() == find_a_grave.NOTHING
    assert window.session.chosen == ()
    finding.field.clear()
    assert finding.said.text() == find_a_grave.TYPE


def test_one_removed_meanwhile_is_not_gone_to(
    qtbot: QtBot, finding: Any, window: PlanWindow
) -> None:
    qtbot.keyClicks(finding.field, "kaye")
    window.session.apply(Remove(ids=(ADA.id,)))
    qtbot.keyClick(finding.field, Qt.Key.Key_Return)
    assert window.session.chosen == ()


@pytest.fixture
def matching(panel: Any, qtbot: QtBot) -> Any:
    section = _opened(panel, "register_and_ground")
    qtbot.waitUntil(lambda: section.which.count() > 0)
    return section


def test_a_likely_grave_is_looked_at_with_its_reasons_and_accepted(
    qtbot: QtBot, matching: Any, window: PlanWindow
) -> None:
    assert matching.which.itemText(0) == "Likely graves (1)"
    assert matching.likely.table.index(0, 1).data() == "214, Jno Ibbotson"
    matching.likely.selectRow(0)
    assert "The register writes “row C no 4”" in matching._words.text()
    assert _sketched(window) == 1
    assert window.session.chosen == (JOHN.id,)
    qtbot.mouseClick(matching.accept, LEFT)
    assert _john(window).details.grave == GRAVES[4].id
    assert _john(window).details.belief is Belief.PROBABLE
    qtbot.waitUntil(lambda: matching.which.itemText(0).startswith("Entry without a grave"))
    assert not matching.accept.isVisible()
    assert not matching.likely.isVisible()


def test_all_above_a_score_are_accepted_at_once(
    qtbot: QtBot, matching: Any, window: PlanWindow
) -> None:
    matching.least.setText("1.5")
    assert matching._fault.isVisible()
    assert not matching.accept_all.isEnabled()
    matching.least.setText("0,5")
    assert matching.accept_all.text() == "Accept all above (1)"
    qtbot.mouseClick(matching.accept_all, LEFT)
    assert _john(window).details.grave == GRAVES[4].id


def test_a_line_of_the_work_list_is_jumped_to(matching: Any, window: PlanWindow) -> None:
    at = next(
        n
        for n in range(matching.which.count())
        if matching.which.itemText(n) == "Grave without an entry (11)"
    )
    matching.which.setCurrentIndex(at)
    matching.tasks.selectRow(3)
    assert window.session.chosen == (GRAVES[3].id,)
    assert _sketched(window) == 1
    assert "Grave C 3 is used" in matching._words.text()


def test_where_they_agree_that_is_said(qtbot: QtBot, matching: Any, window: PlanWindow) -> None:
    window.session.apply(
        Remove(ids=(JOHN.id, LOST.id, *(g.id for g in GRAVES if g != GRAVES[5])))
    )
    qtbot.waitUntil(lambda: matching.said.text() == "Register and ground agree.")
    assert not matching.which.isVisible()
