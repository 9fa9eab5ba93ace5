"""What was done, another day, and comparing, by clicks and keys in the window."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from scripted import Script
from strategies import plain

from plan_editor.commands.today import today
from plan_editor.desktop.app import Application
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add, Describe, Remove
from plan_editor.edits.places import Move
from plan_editor.kinds import grave, tree
from plan_editor.kinds.grave import State
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile

TREE = plain(tree.KIND, 1)
GRAVE = plain(grave.KIND, 2)
FIRST = datetime(2026, 3, 1, 12, tzinfo=UTC)


@pytest.fixture
def told(house: Application, plan_path: Path) -> PlanWindow:
    """A window with four entries: a tree, a day later a grave, then moved and described."""
    days = (FIRST + timedelta(days=n) for n in range(4))
    with PlanFile.open(plan_path) as file:
        work = Document(file.plan, journal=file, author="Warden", clock=lambda: next(days))
        work.apply(Add((TREE,)))
        work.apply(Add((GRAVE,)))
        work.apply(Move(ids=(GRAVE.id,), east=2.0, north=0.0, called="a grave"))
        work.apply(
            Describe(ids=(GRAVE.id,), details=(("state", State.FREE),), called="a grave")
        )
        file.save()
    house.open_plan(plan_path)
    made = house.windows[-1]
    made.resize(1600, 1000)
    return made


def section(window: PlanWindow, name: str) -> Any:
    window.unfold(name)
    assert window.body is not None
    return window.body.side.panels["trace"].sections[name]


def titles(history: Any) -> list[str]:
    rows = history.table.rows
    return [rows.data(rows.index(n, 1)) for n in range(rows.rowCount())]


def pick(history: Any, qtbot: Any, row: int) -> None:
    history.table.selectRow(row)
    number = history.table.rows.lines[row].number
    qtbot.waitUntil(lambda: history._about.text().startswith(f"No. {number},"))


def test_the_history_lists_every_entry_the_newest_first(told: PlanWindow, qtbot: Any) -> None:
    told.commands.action("history").trigger()
    history = section(told, "history")
    qtbot.waitUntil(lambda: history.table.rows.rowCount() == 4)
    wanted = ["Describe a grave", "Move a grave", "Add a grave", "Add a tree"]
    assert titles(history) == wanted
    history.words.setText("warden 2 march")
    assert titles(history) == ["Add a grave"]
    history.words.setText("nothing of that sort")
    assert titles(history) == []
    assert history._empty.text() == "No entry holds these words."


def test_an_entry_is_shown_on_the_ground_and_taken_back_though_others_followed(
    told: PlanWindow, qtbot: Any
) -> None:
    history = section(told, "history")
    qtbot.waitUntil(lambda: history.table.rows.rowCount() == 4)
    pick(history, qtbot, 1)
    assert "moved 2.000 m on bearing 090.0°" in history._made.text()
    assert "by Warden: 1 thing." in history._about.text()
    qtbot.mouseClick(history.back, Qt.MouseButton.LeftButton)
    document = told.session.document
    qtbot.waitUntil(lambda: document.plan.items[GRAVE.id].rectangle == GRAVE.rectangle)
    assert document.plan.items[GRAVE.id].details.state is State.FREE
    assert document.undo_title == "Take back “Move a grave” of 3 March 2026"
    qtbot.waitUntil(lambda: history.table.rows.rowCount() == 5)
    assert titles(history)[0] == "Take back “Move a grave” of 3 March 2026"
    struck = history.table.rows.data(history.table.rows.index(2, 1), Qt.ItemDataRole.FontRole)
    assert struck.strikeOut()
    pick(history, qtbot, 2)
    qtbot.waitUntil(lambda: not history.back.isEnabled())
    assert "It was taken back since." in history._about.text()
    told.commands.action("undo").trigger()
    qtbot.waitUntil(lambda: history.table.rows.rowCount() == 6)
    assert titles(history)[0] == "Taken back: Take back “Move a grave” of 3 March 2026"


def test_what_stands_in_the_way_of_taking_back_is_named(told: PlanWindow, qtbot: Any) -> None:
    history = section(told, "history")
    qtbot.waitUntil(lambda: history.table.rows.rowCount() == 4)
    pick(history, qtbot, 2)
    qtbot.mouseClick(history.back, Qt.MouseButton.LeftButton)
    said = "Grave was changed since by “Describe a grave” on 4 March 2026. Nothing was changed."
    qtbot.waitUntil(lambda: said in told.notice.words)


def test_the_history_of_one_thing(told: PlanWindow, qtbot: Any) -> None:
    history = section(told, "history")
    qtbot.waitUntil(lambda: history.table.rows.rowCount() == 4)
    assert not history.of_chosen.isEnabled()
    told.session.choose((TREE.id,))
    history.of_chosen.click()
    qtbot.waitUntil(lambda: titles(history) == ["Add a tree"])
    told.session.choose((GRAVE.id,))
    qtbot.waitUntil(lambda: len(titles(history)) == 3)
    told.session.document.apply(Remove(ids=(GRAVE.id,), called="a grave"))
    qtbot.waitUntil(lambda: "Remove a grave" in titles(history))
    history.of_chosen.click()
    assert len(titles(history)) == 5


def another(house: Application, window: PlanWindow, qtbot: Any) -> PlanWindow:
    qtbot.waitUntil(lambda: len(house.windows) == 2)
    made = next(w for w in house.windows if w is not window)
    qtbot.waitUntil(lambda: made.isVisible())
    return made


def test_the_plan_as_it_knew_on_a_day_is_read_only_and_esc_leads_back(
    told: PlanWindow, house: Application, qtbot: Any
) -> None:
    told.commands.action("plan_as_known").trigger()
    days = section(told, "another_day")
    days.day.setText("1.3.2026")
    qtbot.mouseClick(days.known, Qt.MouseButton.LeftButton)
    then = another(house, told, qtbot)
    assert then.day.isVisible()
    assert then.day.words.startswith("As the plan knew it on 1 March 2026")
    assert [i.kind for i in then.session.document.plan.items.values()] == [tree.KIND]
    assert not then.session.may_edit
    body = then.body
    assert body is not None
    enabled = {n for n, b in body.ground.tools.buttons.items() if b.isEnabled()}
    assert enabled == {"select", "measure"}
    file = then.session.file
    assert file is not None
    assert read_plan(file.working_copy).name.startswith("As known on 1 March 2026: St Elfric")
    assert section(then, "history").table.isHidden()
    qtbot.keyClick(body.ground.canvas, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: house.windows == [told])


def test_the_ground_as_it_was_counts_and_marks_what_no_date_tells_of(
    told: PlanWindow, house: Application, qtbot: Any
) -> None:
    days = section(told, "another_day")
    days.day.setText("1950")
    qtbot.mouseClick(days.stood, Qt.MouseButton.LeftButton)
    then = another(house, told, qtbot)
    assert then.day.words.startswith("The ground as it was at the end of 1950")
    assert "Of 2 no date tells, and they are shown too: 1 tree, 1 grave." in then.notice.words
    marking = section(then, "another_day").doubtful
    assert marking.isVisible()
    assert marking.isChecked()
    marking.click()
    qtbot.mouseClick(then.day._back, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: house.windows == [told])


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("last spring", "Write a date as 2026-07-14"),
        ("9998", "is still to come"),
        ("28.2.2026", "begins on 1 March 2026, later than that day"),
    ],
)
def test_a_day_that_cannot_be_shown_is_refused_in_place(
    told: PlanWindow, house: Application, qtbot: Any, typed: str, said: str
) -> None:
    days = section(told, "another_day")
    days.day.setText(typed)
    qtbot.mouseClick(days.known, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: said in days._said.text())
    assert house.windows == [told]


def test_a_plan_of_another_day_saved_under_another_name_is_a_plan_of_its_own(
    told: PlanWindow, house: Application, qtbot: Any, tmp_path: Path
) -> None:
    days = section(told, "another_day")
    days.day.setText("2026-03-02")
    qtbot.mouseClick(days.known, Qt.MouseButton.LeftButton)
    then = another(house, told, qtbot)
    then.save_as(tmp_path / "then.gpkg")
    qtbot.waitUntil(lambda: then.day.isHidden())
    assert then.session.may_edit


def test_comparing_with_another_plan_lists_shows_and_takes_over(
    told: PlanWindow, qtbot: Any, script: Script, tmp_path: Path
) -> None:
    other = tmp_path / "other.gpkg"
    told.save_copy(other)
    qtbot.waitUntil(lambda: other.exists() and not told.background.title)
    document = told.session.document
    document.apply(Move(ids=(GRAVE.id,), east=0.0, north=3.0))
    new: Item[Any] = plain(tree.KIND, 7)
    document.apply(Add((new,)))
    document.apply(Remove(ids=(TREE.id,)))
    told.commands.action("compare").trigger()
    compared = section(told, "compared")
    script.files.append(other)
    qtbot.mouseClick(compared.plan, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: compared.table.table.rowCount() == 3)
    cells = [compared.table.table._cells(i) for i in compared.table.table.items]
    assert cells == [("A tree", "added"), ("A tree", "removed"), ("A grave", "changed")]
    compared.table.selectRow(0)
    assert compared.over.isHidden()
    compared.table.selectRow(2)
    assert compared._told.text() == "Place: moved 3.000 m on bearing 000.0°"
    qtbot.mouseClick(compared.over, Qt.MouseButton.LeftButton)
    assert document.undo_title == "Take over a grave from other.gpkg"
    assert document.plan.items[GRAVE.id] == read_plan(other).items[GRAVE.id]
    assert compared.table.table.rowCount() == 2


def test_comparing_with_a_day_and_with_nothing_to_tell(told: PlanWindow, qtbot: Any) -> None:
    compared = section(told, "compared")
    compared.day.setText("2026-03-02")
    qtbot.mouseClick(compared.then, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "1 changed, 1 the same" in compared._said.text())
    compared.day.setText(today())
    qtbot.mouseClick(compared.then, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: compared._said.text().endswith("They are the same."))
    assert compared.table.isHidden()
    compared.day.setText("2026-02")
    qtbot.mouseClick(compared.then, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "later than that day" in compared._wrong.text())
