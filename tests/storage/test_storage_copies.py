"""The previous version, dated copies, and how to get one back."""

import os
import sqlite3
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from threading import Event

import pytest
from keeping import AT_SEA, graves, made

from plan_editor.edits.basic import Add
from plan_editor.errors import NotThere, PlanInUse
from plan_editor.plan.document import Document
from plan_editor.storage import copies, saving
from plan_editor.storage.copies import dated, newest_whole, restore
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.saving import backup_of


class Clock(datetime):
    """A clock that goes on by a day whenever it is asked."""

    today_is = datetime(2026, 3, 1, 10, 0, tzinfo=UTC)

    @classmethod
    def now(cls, tz: object = None) -> "datetime":
        """Return the next day."""
        Clock.today_is += timedelta(days=1)
        return Clock.today_is


@pytest.fixture(autouse=True)
def a_day_each_time(monkeypatch: pytest.MonkeyPatch) -> None:
    Clock.today_is = datetime(2026, 3, 1, 10, 0, tzinfo=UTC)
    monkeypatch.setattr(copies, "datetime", Clock)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return made(tmp_path / "plan.gpkg")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    second = tmp_path / "second disk"
    second.mkdir()
    return second


@pytest.fixture
def saved(path: Path, folder: Path) -> Iterator[PlanFile]:
    """A plan saved three times, with one more grave each time."""
    with PlanFile.open(path) as file:
        file.keep_copies_in(str(folder))
        document = Document(file.plan, journal=file)
        for n in range(1, 4):
            document.apply(Add(graves(1, first=n)))
            assert file.save() == ()
        yield file


def graves_in(path: Path) -> int:
    return len(read_plan(path).items)


def test_the_previous_version_is_kept(saved: PlanFile) -> None:
    assert graves_in(saved.path) == 3
    assert graves_in(backup_of(saved.path)) == 2


def test_where_there_are_no_links_the_previous_version_is_copied(
    saved: PlanFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_args: object) -> None:
        raise OSError("no links here")

    monkeypatch.setattr(os, "link", no_links)
    Document(saved.plan, journal=saved)
    saved.save()
    assert graves_in(backup_of(saved.path)) == 3


def test_each_save_leaves_a_dated_copy(saved: PlanFile, folder: Path) -> None:
    found = dated(saved.path, str(folder))
    assert [p.name for p in found] == [
        "plan 2026-03-02 100000.gpkg",
        "plan 2026-03-03 100000.gpkg",
        "plan 2026-03-04 100000.gpkg",
    ]
    assert [graves_in(p) for p in found] == [1, 2, 3]


def test_ten_dated_copies_are_kept(saved: PlanFile, folder: Path) -> None:
    (folder / "plan of the roof.gpkg").write_text("not ours")
    (folder / "planted 2026-01-01 100000.gpkg").write_text("of another plan")
    for _ in range(12):
        saved.save()
    found = dated(saved.path, str(folder))
    assert len(found) == 10
    assert found[-1].name == "plan 2026-03-16 100000.gpkg"
    assert len(list(folder.iterdir())) == 12


def test_a_folder_that_is_gone_does_not_keep_the_plan_from_being_saved(
    saved: PlanFile, folder: Path
) -> None:
    for copy in folder.iterdir():
        copy.unlink()
    folder.rmdir()
    (remark,) = saved.save()
    assert "The dated copy was not made; the plan itself is saved." in remark
    assert not saved.unsaved


def test_the_folder_is_remembered_in_the_plan(saved: PlanFile, folder: Path) -> None:
    path = saved.path
    saved.close()
    with PlanFile.open(path) as file:
        assert file.copies_folder == str(folder)
        file.keep_copies_in("")
        assert file.save() == ()
    assert len(dated(path, str(folder))) == 3


@pytest.fixture
def closed(saved: PlanFile) -> Path:
    saved.close()
    return saved.path


def test_the_last_other_copy_is_restored(closed: Path) -> None:
    done = restore(closed)
    assert graves_in(closed) == 2
    assert done.source.name == "plan 2026-03-03 100000.gpkg"
    assert done.kept is not None
    assert graves_in(done.kept) == 3


def test_the_copy_of_a_day_is_restored(closed: Path) -> None:
    restore(closed, "2026-03-02")
    assert graves_in(closed) == 1


@pytest.mark.parametrize(("day", "count"), [("2026-03", 2), ("2026-12-31", 2), ("2027", 2)])
def test_the_last_copy_of_a_day_or_before_is_restored(
    closed: Path, day: str, count: int
) -> None:
    restore(closed, day)
    assert graves_in(closed) == count


def test_a_damaged_plan_is_restored_from_its_newest_copy(closed: Path) -> None:
    closed.write_bytes(b"\0" * 5000)
    restore(closed)  # the folder is known from the previous version
    assert graves_in(closed) == 3


def test_a_plan_damaged_inside_is_restored_from_the_copy_of_its_own_save(closed: Path) -> None:
    with closed.open("r+b") as file:
        file.truncate(closed.stat().st_size - 4096)
    copy = newest_whole(closed)
    assert copy is not None
    assert restore(closed).source == copy
    assert len(read_plan(closed).items) == 3


def test_a_plan_without_copies_has_no_newest(tmp_path: Path) -> None:
    first = tmp_path / "first.gpkg"
    PlanFile.create(first, name="St Elfric", grid=AT_SEA).close()
    assert newest_whole(first) is None


def test_a_plan_that_is_gone_is_restored(closed: Path, folder: Path) -> None:
    closed.unlink()
    done = restore(closed, folder=str(folder))
    assert done.kept is None
    assert graves_in(closed) == 3


def test_a_damaged_copy_is_passed_over(closed: Path, folder: Path) -> None:
    (folder / "plan 2026-03-03 100000.gpkg").write_bytes(b"")
    restore(closed)
    assert graves_in(closed) == 1


def test_without_dated_copies_the_previous_version_is_restored(tmp_path: Path) -> None:
    path = made(tmp_path / "plan.gpkg", graves(2))
    restore(path)
    assert graves_in(path) == 0
    assert len([p for p in tmp_path.iterdir() if "replaced" in p.name]) == 1


def test_where_there_is_no_copy_nothing_is_restored(closed: Path) -> None:
    before = closed.read_bytes()
    with pytest.raises(NotThere, match="of 1999 or before"):
        restore(closed, "1999")
    assert closed.read_bytes() == before


def test_a_plan_that_is_open_is_not_restored(closed: Path) -> None:
    with PlanFile.open(closed), pytest.raises(PlanInUse):
        restore(closed)


def test_a_restored_plan_is_edited_like_any_other(closed: Path) -> None:
    restore(closed)
    with PlanFile.open(closed) as file:
        Document(file.plan, journal=file).apply(Add(graves(1, first=50)))
        file.save()
    assert graves_in(closed) == 3


def test_a_save_that_fails_leaves_no_scraps(
    saved: PlanFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_args: object) -> None:
        raise OSError("no")

    before = saved.path.read_bytes()
    monkeypatch.setattr(saving, "_replace", fails)
    with pytest.raises(Exception, match="It was not saved"):
        saved.save()
    assert saved.path.read_bytes() == before
    assert not saved.path.with_name("plan.gpkg.tmp").exists()


def test_a_plan_keeps_its_permissions(saved: PlanFile) -> None:
    saved.path.chmod(0o640)
    saved.save()
    assert saved.path.stat().st_mode & 0o777 == 0o640


def test_a_saved_plan_is_one_file_without_a_journal(saved: PlanFile) -> None:
    with closing(sqlite3.connect(saved.path)) as con:
        assert con.execute("PRAGMA journal_mode").fetchone() == ("delete",)
    names = {p.name for p in saved.path.parent.iterdir() if p.is_file()}
    assert names == {"plan.gpkg", "plan.gpkg.bak", ".plan.gpkg.lock"}


def test_saves_asked_for_at_once_are_made_one_after_another(path: Path) -> None:
    with PlanFile.open(path) as file, ThreadPoolExecutor(max_workers=4) as pool:
        Document(file.plan, journal=file).apply(Add(graves(1)))
        asked = [pool.submit(file.save) for _ in range(12)]
        assert [one.result() for one in asked] == [()] * 12
        assert not file.unsaved
    assert graves_in(path) == 1
    assert {p.suffix for p in path.parent.iterdir()} == {".gpkg", ".bak"}


def test_a_plan_closed_while_it_is_saved_is_saved_whole(path: Path) -> None:
    with ThreadPoolExecutor(max_workers=1) as pool:
        file = PlanFile.open(path)
        Document(file.plan, journal=file).apply(Add(graves(300)))
        begun = Event()

        def save() -> tuple[str, ...]:
            with file._saving:
                begun.set()
                return file.save()

        asked = pool.submit(save)
        begun.wait()
        file.close()
        assert asked.result() == ()
    assert graves_in(path) == 300
