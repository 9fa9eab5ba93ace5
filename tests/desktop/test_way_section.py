"""The section that shows the way from the gate to what is chosen."""

import pytest
import shapely
from pytestqt.qtbot import QtBot

from plan_editor.commands.walking import CHOOSE
from plan_editor.desktop.sections.way_from_the_gate import WayFromTheGate
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, gate, grave
from plan_editor.plan.item import Item, new_item

WAIT = 30_000


@pytest.fixture
def section(window: PlanWindow) -> WayFromTheGate:
    window.go("records")
    assert window.body is not None
    panel = window.body.side.panels["records"]
    panel.open("way_from_the_gate")  # type: ignore[attr-defined]  # a column of sections
    found = panel.sections["way_from_the_gate"]  # type: ignore[attr-defined]
    assert isinstance(found, WayFromTheGate)
    return found


def _grave() -> Item:
    return new_item(
        grave.KIND, Rectangle(east=0, north=20, width=0.9, length=2.1), number="C 14"
    )


def test_the_way_to_what_is_chosen_is_told_and_sketched(
    qtbot: QtBot, window: PlanWindow, section: WayFromTheGate
) -> None:
    there = _grave()
    way_in = new_item(gate.KIND, shapely.Point(0, 0), details=gate.GateDetails(name="Lychgate"))
    entry = new_item(burial.KIND, details=burial.BurialDetails(surname="Weir", grave=there.id))
    window.session.apply(Add((there, way_in, entry)))
    window.session.choose((there.id,))
    qtbot.waitUntil(lambda: "m on foot" in section.title.text(), timeout=WAIT)
    assert "Weir." in section.words.text()
    assert "From the Lychgate go north over the grass" in section.words.text()
    window.session.choose(())
    qtbot.waitUntil(lambda: section.title.text() == CHOOSE, timeout=WAIT)
    assert section.words.isHidden()


def test_where_no_way_is_known_the_section_says_what_to_do(
    qtbot: QtBot, window: PlanWindow, section: WayFromTheGate
) -> None:
    there, lost = _grave(), new_item(burial.KIND, details=burial.BurialDetails(surname="Fell"))
    window.session.apply(Add((there, lost)))
    window.session.choose((there.id,))
    qtbot.waitUntil(lambda: "Draw a gate" in section.title.text(), timeout=WAIT)
    window.session.choose((lost.id,))
    qtbot.waitUntil(lambda: "has no place" in section.title.text(), timeout=WAIT)
