"""The disk is full, or may not be written: a sentence, and nothing is lost."""

import errno
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from keeping import AT_SEA, graves, made

from plan_editor.errors import FileProblem, NoRoom, NotAllowed, NotThere, PlanInUse
from plan_editor.storage import media
from plan_editor.storage.connection import reading
from plan_editor.storage.leftovers import leftovers
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.problems import told
from plan_editor.storage.verifying import verify

FULL = """
import resource, signal, sys
from pathlib import Path
from keeping import graves
from plan_editor.edits.basic import Add
from plan_editor.errors import NoRoom
from plan_editor.plan.document import Document
from plan_editor.storage.plan_file import PlanFile

path, what = Path(sys.argv[1]), sys.argv[2]
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
file = PlanFile.open(path)
document = Document(file.plan, journal=file)
document.apply(Add(graves(1, first=100)))
if what == "save":
    limit = path.stat().st_size // 2
else:
    limit = file.working_copy.with_name(file.working_copy.name + "-wal").stat().st_size + 20_000
resource.setrlimit(resource.RLIMIT_FSIZE, (limit, resource.RLIM_INFINITY))
before, kept = document.plan, 1
try:
    if what == "save":
        file.save()
    elif what == "media":
        file.add(b"x" * 3_000_000, content_type="image/png", name="scan")
    else:
        for n in range(101, 2000):
            before = document.plan
            document.apply(Add(graves(1, first=n)))
            kept += 1
except NoRoom as problem:
    print(problem)
    assert document.plan == before
    resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
    document.apply(Add(graves(1, first=5000)))
    file.save()
    file.close()
    print(kept + 1)
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return made(tmp_path / "plan.gpkg", graves(20))


@pytest.mark.parametrize("what", ["save", "edit", "media"])
def test_a_full_disk_is_told_and_nothing_is_lost(path: Path, what: str) -> None:
    here = Path(__file__)
    done = subprocess.run(
        [sys.executable, "-c", FULL, str(path), what],
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
        env={
            **os.environ,
            "PYTHONPATH": os.pathsep.join((str(here.parent), str(here.parents[2]))),
        },
    )
    problem, kept = done.stdout.splitlines()
    assert problem.startswith("There is no room left on the disk for plan.gpkg.")
    assert "Make room and try again." in problem
    assert len(read_plan(path).items) == 20 + int(kept)
    assert verify(path).findings == ()
    assert not path.with_name("plan.gpkg.tmp").exists()
    assert leftovers() == ()


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with PlanFile.open(made(tmp_path / "plan.gpkg")) as file:
        for refused in (file.save_as, file.save_copy):
            with pytest.raises(NotThere, match="no file or folder"):
                refused(tmp_path / "nowhere" / "plan.gpkg")
        assert file.path == tmp_path / "plan.gpkg"


SYSTEM = [
    (errno.ENOSPC, NoRoom, "no room left"),
    (errno.EDQUOT, NoRoom, "no room left"),
    (errno.ENOENT, NotThere, "no file or folder"),
    (errno.EACCES, NotAllowed, "may not be read or written"),
    (errno.EROFS, NotAllowed, "may not be read or written"),
    (errno.EIO, NotAllowed, "could not be read or written (input/output error)"),
]


@pytest.mark.parametrize(("number", "problem", "words"), SYSTEM)
def test_what_the_system_refuses_is_told_in_a_sentence(
    number: int, problem: type[FileProblem], words: str
) -> None:
    with (
        pytest.raises(problem) as caught,
        told(Path("/plans/plan.gpkg"), "It was not saved."),
    ):
        raise OSError(number, os.strerror(number))
    assert words in str(caught.value)
    assert "It was not saved." in str(caught.value)
    assert caught.value.__cause__ is not None


def test_a_database_that_is_being_written_is_told(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    with (
        closing(sqlite3.connect(path)) as one,
        closing(sqlite3.connect(path, timeout=0)) as two,
    ):
        one.execute("CREATE TABLE t (x)")
        one.execute("BEGIN EXCLUSIVE")
        with pytest.raises(PlanInUse, match="Another program"), told(path, "It was not saved."):
            two.execute("BEGIN EXCLUSIVE")


def test_a_database_that_may_only_be_read_is_told(tmp_path: Path) -> None:
    path = made(tmp_path / "plan.gpkg")
    with (
        reading(path) as con,
        pytest.raises(NotAllowed, match="may not be read or written"),
        told(path, "It was not saved."),
    ):
        con.execute("DELETE FROM plan")


def test_half_a_character_is_told(tmp_path: Path) -> None:
    path = tmp_path / "plan.gpkg"
    with pytest.raises(NotAllowed, match="half a character"):
        PlanFile.create(path, name="St \ud800", grid=AT_SEA)
    assert not path.exists()


def test_our_own_mistakes_are_not_put_on_the_file(tmp_path: Path) -> None:
    path = made(tmp_path / "plan.gpkg")
    with (
        reading(path) as con,
        pytest.raises(sqlite3.ProgrammingError),
        told(path, "It was not saved."),
    ):
        con.execute("SELECT ?", ())


def test_more_than_one_row_can_hold_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(media, "MOST", 10)
    with PlanFile.open(made(tmp_path / "plan.gpkg")) as file:
        with pytest.raises(NotAllowed, match="larger than 1 GB"):
            file.add(b"x" * 11, content_type="image/png", name="scan.png")
        digest = file.add(b"x" * 10, content_type="image/png", name="scan.png")
        assert file.read(digest) == b"x" * 10


def test_no_plan_is_made_over_a_file(tmp_path: Path) -> None:
    path = made(tmp_path / "plan.gpkg", graves(1))
    with pytest.raises(NotAllowed, match="There is a file plan"):
        PlanFile.create(path, name="", grid=AT_SEA)
    assert len(read_plan(path).items) == 1


def test_a_copy_is_not_written_over_the_plan_itself(tmp_path: Path) -> None:
    path = made(tmp_path / "plan.gpkg", graves(1))
    with PlanFile.open(path) as file:
        with pytest.raises(NotAllowed, match="is the plan itself"):
            file.save_copy(path)
        file.save_copy(tmp_path / "copy.gpkg")
        assert file.path == path
    assert read_plan(tmp_path / "copy.gpkg") == read_plan(path)
