"""Opening, read-only, what a crash left, what another program changed, what is damaged."""

import shutil
from contextlib import closing
from pathlib import Path

import pytest
import shapely
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.desktop import app as application
from plan_editor.desktop.app import Application
from plan_editor.desktop.sections.rows import ONLY_READ
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.kind import kind_named
from plan_editor.storage.connection import transaction, writing
from plan_editor.storage.leftovers import leftovers
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile


def _tree() -> Add:
    kind = kind_named("tree")
    assert kind is not None
    return Add((new_item(kind, shapely.Point(3, 4)),))


def _left_by_a_crash(plan: Path) -> None:
    """Leave what a program leaves that died after one edit: a working copy, and no lock."""
    file = PlanFile.open(plan)
    Document(file.plan, journal=file).apply(_tree())
    kept = file.working_copy.parent
    aside = kept.with_name("aside")
    shutil.copytree(kept, aside)
    file.close()
    shutil.rmtree(kept)
    aside.rename(kept)


def test_a_missing_file_is_a_sentence_on_the_start_page(
    house: Application, tmp_path: Path, script: Script
) -> None:
    house.start([str(tmp_path / "nowhere.gpkg")])
    (window,) = house.windows
    assert not window.session.is_open
    assert "nowhere.gpkg" in window.notice.words
    assert window.notice.isVisible()


def test_a_file_of_another_sort_is_a_sentence(
    house: Application, tmp_path: Path, script: Script
) -> None:
    odd = tmp_path / "letter.gpkg"
    odd.write_text("Dear Rector,", encoding="utf-8")
    house.start([str(odd)])
    assert "letter.gpkg" in house.windows[0].notice.words


def test_a_damaged_plan_is_put_back_from_its_copy_by_consent(
    house: Application, plan_path: Path, script: Script
) -> None:
    with PlanFile.open(plan_path) as file:
        Document(file.plan, journal=file).apply(_tree())
        file.save()
        file.save()
    plan_path.write_bytes(plan_path.read_bytes()[:5000])
    script.answers.append(None)
    house.open_plan(plan_path)
    assert "There is a whole copy" in script.asked[0]
    assert plan_path.stat().st_size == 5000
    script.answers.append(0)
    house.open_plan(plan_path)
    assert len(house.windows[-1].session.document.plan.items) == 1


def test_a_plan_that_is_open_elsewhere_is_opened_to_read_and_refuses_edits(
    house: Application, plan_path: Path, script: Script
) -> None:
    with PlanFile.open(plan_path):
        script.answers.append(0)
        house.open_plan(plan_path)
        window = house.windows[-1]
        assert window.top.state == "read only: nothing can be changed here"
        assert not window.session.try_apply(_tree())
        assert "read-only" in window.notice.words
        assert not window.commands.action("save").isEnabled()
        window.unfold("rows")
        assert window.body is not None
        section = window.body.side.panels["trace"].sections["rows"]
        assert section._empty.text() == ONLY_READ
        window.close()


def test_a_plan_is_shown_in_one_window_only(house: Application, window: PlanWindow) -> None:
    assert window.session.file is not None
    house.open_plan(window.session.file.path)
    assert house.windows == [window]


def test_edits_left_by_a_crash_are_offered_back(
    house: Application, plan_path: Path, script: Script
) -> None:
    _left_by_a_crash(plan_path)
    script.answers.append(0)
    house.start([])
    window = house.windows[-1]
    assert "1 edit was not saved" in script.asked[0]
    assert len(window.session.document.plan.items) == 1
    assert window.top.state == "edits kept, not saved yet"


def test_edits_left_by_a_crash_can_be_thrown_away(
    house: Application, plan_path: Path, script: Script
) -> None:
    _left_by_a_crash(plan_path)
    script.answers.append(2)
    house.open_plan(plan_path)
    assert not house.windows[-1].session.document.plan.items
    assert not leftovers()


def test_edits_left_by_a_crash_stay_where_they_are_when_the_question_is_put_off(
    house: Application, plan_path: Path, script: Script
) -> None:
    _left_by_a_crash(plan_path)
    script.answers.append(None)
    house.open_plan(plan_path)
    assert not any(w.session.is_open for w in house.windows)
    assert len(leftovers()) == 1


def test_the_plan_as_it_was_saved_can_be_opened_beside_edits_left_by_a_crash(
    house: Application, plan_path: Path, script: Script
) -> None:
    _left_by_a_crash(plan_path)
    script.answers.append(1)
    house.open_plan(plan_path)
    assert not house.windows[-1].session.document.plan.items
    assert len(leftovers()) == 1


def test_a_plan_in_a_folder_that_may_not_be_written_is_offered_to_be_read(
    house: Application,
    plan_path: Path,
    script: Script,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def forbidden(*_args: object) -> None:
        raise PermissionError(13, "no")

    monkeypatch.setattr("plan_editor.storage.lock.seize", forbidden)
    script.answers.append(0)
    house.open_plan(plan_path)
    assert "may not be written" in script.asked[0]
    assert house.windows[-1].top.state == "read only: nothing can be changed here"


def test_save_as_goes_on_under_the_new_name(
    qtbot: QtBot, house: Application, window: PlanWindow, script: Script, tmp_path: Path
) -> None:
    window.session.try_apply(_tree())
    script.files.append(tmp_path / "second.gpkg")
    window.commands.action("save_as").trigger()
    qtbot.waitUntil(lambda: window.top.state.startswith("saved"))
    assert window.session.file is not None
    assert window.session.file.path.name == "second.gpkg"
    assert len(read_plan(tmp_path / "second.gpkg").items) == 1


def test_a_save_over_the_work_of_somebody_else_is_asked_about(
    qtbot: QtBot, window: PlanWindow, script: Script, plan_path: Path, tmp_path: Path
) -> None:
    window.session.try_apply(_tree())
    other = tmp_path / "other.gpkg"
    PlanFile.create(other, name="Another", grid=window.session.document.plan.grid).close()
    shutil.copyfile(other, plan_path)
    script.answers.append(1)
    window.commands.action("save").trigger()
    qtbot.waitUntil(lambda: window.top.state.startswith("saved"))
    assert "Somebody else has written" in script.asked[0]
    assert len(read_plan(plan_path).items) == 1


def test_a_new_plan_is_made_where_it_was_asked_for(
    qtbot: QtBot, house: Application, script: Script, tmp_path: Path
) -> None:
    house.start([])
    script.files.append(tmp_path / "new.gpkg")

    def fill_in() -> None:
        dialog = next(
            w
            for w in QApplication.topLevelWidgets()
            if isinstance(w, application.NewPlanDialog) and w.isVisible()
        )
        dialog.name.setText("St Elfric")
        dialog.crs.setCurrentIndex(1)
        dialog.east.setText("553 000")
        dialog.north.setText("421000")
        dialog.make.click()

    QTimer.singleShot(0, fill_in)
    house.new_plan()
    plan = house.windows[-1].session.document.plan
    assert (plan.name, plan.grid.crs, plan.grid.east) == ("St Elfric", "EPSG:27700", 553000.0)


def test_what_another_program_changed_is_taken_in_as_one_edit(
    house: Application, plan_path: Path, script: Script
) -> None:
    with PlanFile.open(plan_path) as file:
        Document(file.plan, journal=file).apply(_tree())
        file.save()
    with closing(writing(plan_path)) as con, transaction(con):
        con.execute("UPDATE tree SET species = 'Taxus baccata'")
    script.answers.append(0)
    house.open_plan(plan_path)
    window = house.windows[-1]
    assert "1 thing was changed" in script.asked[0]
    assert "another program: Tree Taxus baccata." in script.asked[0]
    assert window.session.document.undo_title == "Take in the changes of another program"
    (tree,) = window.session.document.plan.items.values()
    assert tree.details.species == "Taxus baccata"


def test_silent_damage_is_found_after_opening_and_said(
    qtbot: QtBot, house: Application, plan_path: Path, script: Script
) -> None:
    with PlanFile.open(plan_path) as file:
        Document(file.plan, journal=file, author="Q. Unusual").apply(_tree())
        file.save()
    content = plan_path.read_bytes()
    assert content.count(b"Q. Unusual") == 1
    plan_path.write_bytes(content.replace(b"Q. Unusual", b"Q. Anusual"))
    house.start([str(plan_path)])
    (window,) = house.windows
    qtbot.waitUntil(lambda: bool(window.notice.words), timeout=10_000)
    assert window.session.is_open
    assert "log" in window.notice.words or "history" in window.notice.words


def test_every_row_that_another_program_spoilt_is_told(
    house: Application, plan_path: Path
) -> None:
    with PlanFile.open(plan_path) as file:
        document = Document(file.plan, journal=file)
        for _ in range(5):
            document.apply(_tree())
        file.save()
    with closing(writing(plan_path)) as con, transaction(con):
        con.execute("UPDATE tree SET height_m = 'tall'")
    house.open_plan(plan_path)
    words = house.windows[-1].notice.words
    assert words.count("“tall”") == 3
    assert words.endswith("and 2 more")
