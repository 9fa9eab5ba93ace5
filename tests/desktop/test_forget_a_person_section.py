"""The section in which a person is forgotten: asked again, and then for good."""

from collections.abc import Iterator
from pathlib import Path
from threading import Event
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from plan_editor.commands import forgetting as commands
from plan_editor.desktop.app import Application
from plan_editor.desktop.sections import forget_a_person as section
from plan_editor.desktop.sections.forget_a_person import NOBODY
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.errors import NoRoom
from plan_editor.kinds import inspection, owner_contact
from plan_editor.plan.item import new_item
from plan_editor.storage import forgetting
from plan_editor.storage.plan_file import PlanFile


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


def asked(shown: Any, script: Any, qtbot: QtBot, answer: int | None) -> None:
    """Click on *Forget…* and give an answer to the question that comes."""
    script.answers.append(answer)
    shown.forget.click()
    qtbot.waitUntil(lambda: not script.answers, timeout=20000)


def test_a_person_is_forgotten_once_it_was_asked_again(
    shown: Any, window: PlanWindow, script: Any, qtbot: QtBot, plan_path: Path
) -> None:
    assert shown.who.currentText() == "John Example"
    shown.who.setCurrentIndex(1)
    asked(shown, script, qtbot, 1)
    assert "Forget Zqjane Example? This cannot be undone." in script.asked[-1]
    qtbot.waitUntil(lambda: not shown.came_of_it.isHidden(), timeout=20000)
    assert "The person was forgotten" in shown.came_of_it.text()
    assert set(window.session.document.plan.items) == {JOHN.id}
    assert window.session.document.undo_title is None
    assert [shown.who.itemText(n) for n in range(shown.who.count())] == ["John Example"]
    assert b"Zqjane" not in plan_path.read_bytes()
    assert window.session.file is not None
    assert not window.session.file.unsaved


def test_words_that_stay_are_named_in_the_question(
    shown: Any, window: PlanWindow, script: Any, qtbot: QtBot
) -> None:
    told = inspection.InspectionDetails(inspector="John Example")
    window.session.apply(Add((new_item(inspection.KIND, details=told),)))
    asked(shown, script, qtbot, 0)
    assert "Look at these first and correct what names the person." in script.asked[-1]
    assert "Inspection, “Inspected by”: may name the person, and stays." in script.asked[-1]


def test_a_history_that_cannot_be_read_is_told_before_anything_is_asked(
    shown: Any,
    window: PlanWindow,
    script: Any,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def damaged(*_: object) -> Any:
        raise ValueError("odd")

    monkeypatch.setattr(forgetting, "once_pointing", damaged)
    shown.forget.click()
    qtbot.waitUntil(lambda: bool(script.told), timeout=20000)
    assert "is damaged. Nobody was forgotten." in script.told[-1]
    assert len(window.session.document.plan.items) == 2


@pytest.mark.parametrize("answer", [0, None])
def test_the_first_answer_and_none_keep_everybody(
    shown: Any, window: PlanWindow, script: Any, qtbot: QtBot, answer: int | None
) -> None:
    asked(shown, script, qtbot, answer)
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
    asked(shown, script, qtbot, 1)
    qtbot.waitUntil(lambda: "no room" in "".join(script.told), timeout=20000)
    assert set(window.session.document.plan.items) == {JANE.id, JOHN.id}
    assert shown.forget.isEnabled()


@pytest.fixture
def clearing(monkeypatch: pytest.MonkeyPatch) -> Iterator[Event]:
    """Return what copies wait for before they are cleared."""
    does, may_go_on = commands.clear_copies, Event()

    def waits(*arguments: Any, **rest: Any) -> Any:
        may_go_on.wait()
        return does(*arguments, **rest)

    monkeypatch.setattr(commands, "clear_copies", waits)
    yield may_go_on
    may_go_on.set()


def test_while_it_goes_on_the_plan_is_neither_saved_nor_closed(
    shown: Any, house: Application, script: Any, qtbot: QtBot, clearing: Event
) -> None:
    (window,) = house.windows
    asked(shown, script, qtbot, 1)
    assert not shown.forget.isEnabled()
    for name in ("save", "save_as", "save_copy", "dated_copies"):
        assert not window.commands.action(name).isEnabled()
    qtbot.keyClick(window, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    window.save()
    window.save_copy(window.session.file.path.with_name("other.gpkg"))
    window.close()
    house.quit()
    assert len(script.told) == 5
    assert all("can be neither saved nor closed" in words for words in script.told)
    assert window.isVisible()
    assert not window.session.file.path.with_name("other.gpkg").exists()
    clearing.set()
    qtbot.waitUntil(lambda: not shown.came_of_it.isHidden(), timeout=20000)
    assert window.commands.action("save").isEnabled()
    assert shown.forget.isEnabled()
    assert window.close()


def test_nobody_is_forgotten_while_the_plan_is_being_saved(
    shown: Any,
    window: PlanWindow,
    script: Any,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    does, may_go_on = PlanFile.save, Event()

    def waits(file: PlanFile) -> Any:
        may_go_on.wait()
        return does(file)

    monkeypatch.setattr(PlanFile, "save", waits)
    window.save()
    asked(shown, script, qtbot, 1)
    may_go_on.set()
    assert script.told == [commands.SAVING]
    assert set(window.session.document.plan.items) == {JANE.id, JOHN.id}
    qtbot.waitUntil(lambda: not window.background.goes_on("saving"))


def test_what_breaks_after_the_history_is_cleared_puts_nobody_back(
    shown: Any,
    window: PlanWindow,
    script: Any,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def breaks(*_: object, **__: object) -> None:
        raise TypeError("a fault of ours")

    monkeypatch.setattr(commands, "clear_copies", breaks)
    with qtbot.captureExceptions() as caught:
        asked(shown, script, qtbot, 1)
        qtbot.waitUntil(lambda: not shown.came_of_it.isHidden(), timeout=20000)
    assert "a fault of ours" in str(caught)
    assert shown.came_of_it.text() == commands.STOPPED
    assert set(window.session.document.plan.items) == {JANE.id}
    assert not window.session.held
    assert shown.forget.isEnabled()


def test_what_breaks_before_the_history_is_cleared_lets_one_try_again(
    shown: Any,
    window: PlanWindow,
    script: Any,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def breaks(*_: object, **__: object) -> None:
        raise TypeError("a fault of ours")

    monkeypatch.setattr(section, "begin", breaks)
    with qtbot.captureExceptions():
        asked(shown, script, qtbot, 1)
    assert not window.session.held
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
