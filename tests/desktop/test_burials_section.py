"""Burials and memorials that are asked for, in the window, from the first call on."""

from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.commands.today import today
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add, Describe
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import application, burial, grave, memorial, request
from plan_editor.kinds.application import ApplicationDetails, Decision, Shape
from plan_editor.plan.item import Item, new_item

SPACE = new_item(
    grave.KIND,
    Rectangle(east=10, north=0, width=1.22, length=2.74),
    number="C 14",
    details=grave.GraveDetails(state=grave.State.FREE),
)
FULL = new_item(
    grave.KIND,
    Rectangle(east=10, north=5, width=1.22, length=2.74),
    number="C 15",
    details=grave.GraveDetails(state=grave.State.OCCUPIED, coffins=1),
)
LAID = new_item(burial.KIND, details=burial.BurialDetails(grave=FULL.id), number="417")


def opened(window: PlanWindow, name: str, *items: Item) -> Any:
    window.session.apply(Add((SPACE, FULL, LAID, *items)))
    window.show()
    window.go("records")
    assert window.body is not None
    panel = window.body.side.panels["records"]
    panel.open(name)
    return panel.sections[name]


@pytest.fixture
def asked_for(window: PlanWindow, qtbot: QtBot) -> Any:
    return opened(window, "burials")


def record(section: Any, **texts: str) -> None:
    for name, words in texts.items():
        section.form.rows[name].show_text(words)
    section.form.record.click()


def test_a_burial_goes_from_the_first_call_to_the_register(
    asked_for: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    session = window.session
    assert asked_for.told.text().startswith("No burial is asked for.")
    asked_for.ask.click()
    (item,) = session.chosen
    assert session.document.plan.items[item].details.asked == today()
    assert "On what the right of burial rests is not known." in asked_for.told.text()
    details = (("surname", "Farrow"), ("coffins", 2), ("wished", "2026-05-14"))
    session.apply(Describe(ids=(item,), details=details))
    qtbot.waitUntil(lambda: "Dig to 1.91 m." in asked_for.told.text())

    asked_for.next.click()
    assert asked_for.form.rows["grave"].isVisible()
    record(asked_for, grave="C 15")
    assert "Grave C 15 is full: room for 1, 1 laid." in asked_for.form.sentence
    assert session.document.plan.items[item].details.grave is None
    record(asked_for, grave="C 14")
    assert asked_for.form.isHidden()
    assert asked_for.next.text() == "Record as dug"

    asked_for.next.click()
    assert asked_for.form.rows["dug"].text == today()
    record(asked_for, dug="13.5.2026", depth_m="1,93")
    assert session.document.plan.items[SPACE.id].details.dug == "2026-05-13"
    assert asked_for.next.text() == "Enter in the register"

    asked_for.next.click()
    assert asked_for.form.rows["buried"].text == "2026-05-14"
    record(asked_for, minister="Revd J. Wold")
    entry = session.document.plan.items[session.document.plan.items[item].details.burial]
    assert (entry.number, entry.details.minister) == ("418", "Revd J. Wold")
    assert asked_for.next.isHidden()
    qtbot.waitUntil(lambda: asked_for.table.model().index(0, 2).data() == "buried")
    assert asked_for.table.model().index(0, 0).data() == "Farrow"


def test_a_step_that_is_given_up_changes_nothing(
    asked_for: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    asked_for.ask.click()
    before = window.session.document.plan
    asked_for.next.click()
    record(asked_for)
    assert "No space was chosen." in asked_for.form.sentence
    record(asked_for, grave="nowhere")
    assert "called nowhere" in asked_for.form.rows["grave"].sentence
    asked_for.form.cancel.click()
    assert asked_for.form.isHidden()
    asked_for.next.click()
    qtbot.keyClick(asked_for.form, Qt.Key.Key_Escape)
    assert asked_for.form.isHidden()
    asked_for.next.click()
    window.session.choose((SPACE.id,))  # whoever turns to something else has given up too
    assert asked_for.form.isHidden()
    assert window.session.document.plan is before


def test_an_application_is_answered_and_its_stone_fixed(
    window: PlanWindow, qtbot: QtBot, script: Script, tmp_path: Path
) -> None:
    wanted = new_item(
        application.KIND,
        details=ApplicationDetails(
            grave=SPACE.id,
            received="2026-05-04",
            form=Shape.HEADSTONE,
            height_mm=1250.0,
            width_mm=700.0,
            thickness_mm=100.0,
        ),
    )
    section = opened(window, "memorials_asked", wanted)
    qtbot.waitUntil(lambda: section.table.model().rowCount() == 1)
    assert [section.table.model().index(0, n).data() for n in range(3)] == [
        "C 14",
        "2026-05-04",
        "waiting",
    ]
    assert "Choose an application" in section.told.text()
    section.table.selectRow(0)
    assert section.told.text() == "It takes a faculty: height."
    assert section.answer.text().splitlines()[0] == (
        "Height: 1,250 mm; allowed: 750 to 1,200 mm."
    )

    out = tmp_path / "answer.pdf"
    script.files.append(out)
    section.print.click()
    qtbot.waitUntil(lambda: out.exists() and not window.background.title, timeout=30_000)
    assert out.read_bytes().startswith(b"%PDF")

    section.fix.click()
    record(section, fixed="2026-11-20")
    assert "recorded as “waiting”" in section.form.sentence
    section.form.cancel.click()
    allowed = (("decision", Decision.FACULTY_GRANTED),)
    window.session.apply(Describe(ids=(wanted.id,), details=allowed))
    section.fix.click()
    record(section, fixed="2026-11-20")
    (stone,) = window.session.document.plan.of(memorial.KIND)
    assert (stone.number, stone.details.grave) == ("C 14", SPACE.id)
    assert not section.fix.isEnabled()


def test_a_new_application_is_of_today_and_chosen(window: PlanWindow, qtbot: QtBot) -> None:
    section = opened(window, "memorials_asked")
    section.enter.click()
    (made,) = window.session.document.plan.of(application.KIND)
    assert made.details.received == today()
    assert window.session.chosen == (made.id,)
    assert window.session.document.plan.count(request.KIND) == 0
