"""The section of schedules: choose one, read it, go to a thing, write it."""

import csv
import io
from pathlib import Path
from typing import Any

import pytest
import shapely
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.kinds import reservation, tree
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.kinds.tree import TreeDetails
from plan_editor.plan.item import new_item

YEW = new_item(
    tree.KIND, shapely.Point(40.0, 30.0), number="T 1", details=TreeDetails(species="yew")
)
KEPT = new_item(
    reservation.KIND,
    details=ReservationDetails(
        stage=Stage.GRANTED, expires="2040-01-01", held_for="Ivy Sallow", faculty="F 1"
    ),
)


@pytest.fixture
def shown(window: PlanWindow) -> Any:
    """The section, open, over a plan with a yew and a reservation."""
    window.session.apply(Add((YEW, KEPT)))
    window.show()
    window.go("records")
    assert window.body is not None
    panel = window.body.side.panels["records"]
    panel.open("schedules")
    return panel.sections["schedules"]


def choose(shown: Any, name: str, qtbot: QtBot, lines: int = 1) -> None:
    shown.which.setCurrentIndex(shown.which.findData(name))
    heads = [h.title for h in shown.schedule.headings if not h.private]
    qtbot.waitUntil(lambda: _heads(shown)[: len(heads)] == heads)
    qtbot.waitUntil(lambda: shown.table.model().rowCount() == lines)


def _heads(shown: Any) -> list[str]:
    model = shown.table.model()
    across = Qt.Orientation.Horizontal
    return [model.headerData(n, across) for n in range(model.columnCount())]


def test_a_schedule_is_read_and_a_line_leads_to_its_thing(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    choose(shown, "trees", qtbot)
    assert shown.table.model().index(0, 1).data() == "yew"
    assert not shown.contacts.isVisible()
    shown.table.selectRow(0)
    assert window.session.chosen == (YEW.id,)
    assert window.body is not None
    e0, _, e1, _ = window.body.ground.in_view()
    assert e0 < 40.0 < e1
    assert e1 - e0 < 100.0


def test_living_people_are_named_only_after_a_tick(shown: Any, qtbot: QtBot) -> None:
    choose(shown, "reservations", qtbot)
    assert "Kept for" not in _heads(shown)
    assert shown.contacts.isVisible()
    shown.contacts.click()
    qtbot.waitUntil(lambda: "Kept for" in _heads(shown))
    column = _heads(shown).index("Kept for")
    assert shown.table.model().index(0, column).data() == "Ivy Sallow"


def test_an_empty_schedule_says_so(shown: Any, qtbot: QtBot) -> None:
    shown.which.setCurrentIndex(shown.which.findData("works"))
    qtbot.waitUntil(lambda: not shown.table.isVisible())


def test_a_schedule_is_written_where_the_user_says(
    shown: Any, script: Script, tmp_path: Path, qtbot: QtBot
) -> None:
    choose(shown, "trees", qtbot)
    out = tmp_path / "trees.csv"
    script.files.append(out)
    shown.write[2].click()
    qtbot.waitUntil(out.exists, timeout=20_000)
    rows = list(csv.reader(io.StringIO(out.read_text("utf-8-sig"), newline="")))
    assert [row[:2] for row in rows] == [["No.", "Species"], ["T 1", "yew"]]
