"""Spaces reserved by faculty, in the window."""

from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add, Describe
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, reservation
from plan_editor.kinds.reservation import Stage
from plan_editor.plan.item import new_item

SPACE = new_item(
    grave.KIND,
    Rectangle(east=10, north=0, width=1.22, length=2.74),
    number="C 14",
    details=grave.GraveDetails(state=grave.State.FREE),
)


@pytest.fixture
def section(window: PlanWindow) -> Any:
    window.session.apply(Add((SPACE,)))
    window.show()
    window.go("records")
    assert window.body is not None
    panel = window.body.side.panels["records"]
    panel.open("reservations")
    return panel.sections["reservations"]


def record(section: Any, **texts: str) -> None:
    for name, words in texts.items():
        section.form.rows[name].show_text(words)
    section.form.record.click()


def test_a_space_is_reserved_by_faculty_and_released(
    section: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    session = window.session
    assert not section.reserve.isEnabled()
    session.choose((SPACE.id,))
    section.reserve.click()
    record(section, faculty="F 7")
    assert "The last day is missing." in section.form.sentence
    record(section, expires="2019-05-01")
    assert "2019-05-01 is over." in section.form.sentence
    record(section, faculty="", expires="2056-05-01")
    assert "number of the faculty is missing" in section.form.sentence
    record(section, faculty="F 7", held_for="A. Living Person")
    (kept,) = session.document.plan.of(reservation.KIND)
    assert (kept.details.held_for, kept.details.expires) == ("A. Living Person", "2056-05-01")
    assert "Living" not in session.document.undo_title
    qtbot.waitUntil(lambda: section.table.model().rowCount() == 1)
    cells = [section.table.model().index(0, n).data() for n in range(3)]
    assert cells == ["C 14", "F 7", "2056-05-01"]

    assert not section.release.isEnabled()
    section.table.selectRow(0)
    section.release.click()
    told = session.document.plan.items[kept.id].details
    assert told.stage is Stage.GIVEN_UP
    assert session.document.plan.items[SPACE.id].details.state is grave.State.FREE
    qtbot.waitUntil(lambda: section.table.model().index(0, 2).data() == "given up")


def test_what_is_over_has_lapsed(section: Any, window: PlanWindow, qtbot: QtBot) -> None:
    details = reservation.ReservationDetails(
        grave=SPACE.id, stage=Stage.GRANTED, faculty="F 1", expires="2019-05-01"
    )
    old = new_item(reservation.KIND, details=details)
    window.session.apply(Add((old,)))
    reserved = (("state", grave.State.RESERVED),)
    window.session.apply(Describe(ids=(SPACE.id,), details=reserved))
    window.session.choose((old.id,))
    section.release.click()
    assert window.session.document.plan.items[old.id].details.stage is Stage.LAPSED
