"""The section in which a person is forgotten: asked again, and then for good."""

from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from plan_editor.desktop.sections.forget_a_person import NOBODY
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.errors import NoRoom
from plan_editor.kinds import owner_contact
from plan_editor.plan.item import new_item
from plan_editor.storage import forgetting


def owner(name: str) -> Any:
    return new_item(owner_contact.KIND, details=owner_contact.OwnerContactDetails(name=name))


JANE, JOHN = owner("Zqjane Example"), owner("John Example")


@pytest.fixture
def shown(window: PlanWindow, qtbot: QtBot) -> Any:
    window.session.apply(Add((JANE, JOHN)))
    assert window.session.file is not None
    window.session.file.save()
    window.show()
    window.go("safety")
    assert window.body is not None
    panel = window.body.side.panels["safety"]
    panel.open("forget_a_person")
    found = panel.sections["forget_a_person"]
    qtbot.waitUntil(lambda: found.who.count() == 2)
    return found


def test_a_person_is_forgotten_once_it_was_asked_again(
    shown: Any, window: PlanWindow, script: Any, qtbot: QtBot, plan_path: Path
) -> None:
    assert shown.who.currentText() == "John Example"
    shown.who.setCurrentIndex(1)
    script.answers.append(1)
    shown.forget.click()
    assert "Forget Zqjane Example? This cannot be undone." in script.asked[-1]
    qtbot.waitUntil(lambda: not shown.came_of_it.isHidden(), timeout=20000)
    assert "The person was forgotten" in shown.came_of_it.text()
    assert set(window.session.document.plan.items) == {JOHN.id}
    assert window.session.document.undo_title is None
    assert [shown.who.itemText(n) for n in range(shown.who.count())] == ["John Example"]
    assert b"Zqjane" not in plan_path.read_bytes()
    assert window.session.file is not None
    assert not window.session.file.unsaved


@pytest.mark.parametrize("answer", [0, None])
def test_the_first_answer_and_none_keep_everybody(
    shown: Any, window: PlanWindow, script: Any, answer: int | None
) -> None:
    script.answers.append(answer)
    shown.forget.click()
    assert len(window.session.document.plan.items) == 2
    assert window.session.document.undo_title is not None


def test_a_disk_that_is_full_puts_the_person_back(
    shown: Any,
    window: PlanWindow,
    script: Any,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def full(*_: object) -> bool:
        raise NoRoom("There is no room. Nobody was forgotten.")

    monkeypatch.setattr(forgetting, "clear", full)
    script.answers.append(1)
    shown.forget.click()
    qtbot.waitUntil(lambda: "no room" in "".join(script.told), timeout=20000)
    assert set(window.session.document.plan.items) == {JANE.id, JOHN.id}
    assert shown.forget.isEnabled()


def test_a_plan_that_keeps_nobody_says_so(window: PlanWindow) -> None:
    window.show()
    window.go("safety")
    assert window.body is not None
    panel = window.body.side.panels["safety"]
    panel.open("forget_a_person")
    found = panel.sections["forget_a_person"]
    assert found.who.isHidden()
    assert found._none.text() == NOBODY
