"""What a crash left behind is offered, recovered in its place or another, or thrown away."""

import os
import shutil
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from keeping import graves, made

from plan_editor.edits.basic import Add
from plan_editor.errors import ChangedElsewhere, DamagedPlan, NotThere
from plan_editor.plan.document import Document
from plan_editor.storage.leftovers import Leftover, leftovers
from plan_editor.storage.loading import read_media, read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify
from plan_editor.storage.working_copy import folder

CRASH = """
import os, sys
from pathlib import Path
from keeping import graves
from plan_editor.edits.basic import Add
from plan_editor.plan.document import Document
from plan_editor.storage.plan_file import PlanFile
file = PlanFile.open(Path(sys.argv[1]))
Document(file.plan, journal=file).apply(Add(graves(1, first=50)))
file.add(b"a scan", content_type="image/png", name="scan")
os._exit(1)
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    plans = tmp_path / "plans"
    plans.mkdir()
    return made(plans / "plan.gpkg", graves(2))


@pytest.fixture
def leftover(path: Path) -> Leftover:
    here = Path(__file__)
    subprocess.run(
        [sys.executable, "-c", CRASH, str(path)],
        check=False,
        timeout=60,
        env={
            **os.environ,
            "PYTHONPATH": os.pathsep.join((str(here.parent), str(here.parents[2]))),
        },
    )
    (found,) = leftovers()
    return found


def test_it_says_whose_it_is_and_how_much_was_not_saved(leftover: Leftover, path: Path) -> None:
    assert (leftover.plan, leftover.name, leftover.entries) == (path, "St Elfric", 1)
    assert leftover.when.startswith("20")
    assert verify(leftover.working_copy).findings == ()


def test_it_is_recovered_and_saved(leftover: Leftover, path: Path) -> None:
    with PlanFile.recover(leftover) as file:
        assert file.unsaved
        assert len(file.plan.items) == 3
        assert len(read_plan(path).items) == 2
        with pytest.raises(NotThere, match="Another program has taken up"):
            PlanFile.recover(leftover, at=path.with_name("other.gpkg"))
        file.save()
        assert not file.unsaved
    assert len(read_plan(path).items) == 3
    assert leftovers() == ()


def test_what_was_recovered_survives_the_next_crash_too(leftover: Leftover, path: Path) -> None:
    program = CRASH.replace(
        "PlanFile.open(Path(sys.argv[1]))", "PlanFile.recover(leftovers()[0])"
    )
    program = program.replace("first=50", "first=60")
    program = "from plan_editor.storage.leftovers import leftovers\n" + program
    here = Path(__file__)
    subprocess.run(
        [sys.executable, "-c", program],
        check=False,
        timeout=60,
        env={
            **os.environ,
            "PYTHONPATH": os.pathsep.join((str(here.parent), str(here.parents[2]))),
        },
    )
    (again,) = leftovers()
    assert again.entries == 2
    with PlanFile.recover(again) as file:
        assert [i.number for i in file.plan.items.values()] == ["G 1", "G 2", "G 50", "G 60"]


def test_it_is_recovered_elsewhere_where_its_folder_is_gone(
    leftover: Leftover, path: Path, tmp_path: Path
) -> None:
    shutil.rmtree(path.parent)
    with pytest.raises(NotThere, match="they stay where they are"):
        PlanFile.recover(leftover)
    assert leftovers() == (leftover,)
    with PlanFile.recover(leftover, at=tmp_path / "new.gpkg") as file:
        file.save()
    assert len(read_plan(tmp_path / "new.gpkg").items) == 3


def test_what_was_saved_by_others_since_is_not_overwritten_unasked(
    leftover: Leftover, path: Path
) -> None:
    with PlanFile.open(path) as other:
        Document(other.plan, journal=other).apply(Add(graves(1, first=70)))
        other.save()
    with PlanFile.recover(leftover) as file, pytest.raises(ChangedElsewhere):
        file.save()


def test_it_can_be_thrown_away(leftover: Leftover) -> None:
    leftover.discard()
    assert leftovers() == ()
    assert list(folder().iterdir()) == []


def test_one_that_cannot_be_read_is_offered_and_stays(leftover: Leftover) -> None:
    leftover.working_copy.write_bytes(b"SQLite format 3\0" + b"\0" * 9000)
    for name in ("-wal", "-shm"):
        Path(f"{leftover.working_copy}{name}").unlink(missing_ok=True)
    (found,) = leftovers()
    assert (found.name, found.entries) == ("", 0)
    with pytest.raises(DamagedPlan, match="they stay where they are"):
        PlanFile.recover(found)
    assert found.working_copy.exists()


@pytest.mark.parametrize("note", ["", "{}", "[1]"])
def test_scraps_of_a_start_that_was_cut_short_are_cleared_away(path: Path, note: str) -> None:
    folder().mkdir(parents=True, exist_ok=True)
    (folder() / "abc.json").write_text(note)
    (folder() / "abc.gpkg.part").write_bytes(path.read_bytes()[:5000])
    assert leftovers() == ()
    assert list(folder().iterdir()) == []


def test_saving_goes_on_in_another_thread_while_edits_are_made(path: Path) -> None:
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        done = threading.Event()

        def save() -> None:
            while not done.is_set():
                file.save()

        saver = threading.Thread(target=save)
        saver.start()
        for n in range(100, 160):
            document.apply(Add(graves(1, first=n)))
        done.set()
        saver.join()
        assert read_plan(file.working_copy) == document.plan
        file.save()
        assert read_plan(path) == document.plan
    assert verify(path).findings == ()


def test_pictures_are_read_by_many_threads_at_once(path: Path) -> None:
    with PlanFile.open(path) as file:
        digests = [
            file.add(bytes([n]) * 3_000_000, content_type="image/png", name=f"{n}")
            for n in range(4)
        ]
        read: dict[int, bytes] = {}

        def fetch(n: int) -> None:
            read[n] = file.read(digests[n])

        threads = [threading.Thread(target=fetch, args=(n,)) for n in range(4)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert read == {n: bytes([n]) * 3_000_000 for n in range(4)}
        assert file.add(bytes([1]) * 3_000_000, content_type="x", name="again") == digests[1]
        assert read_media(file.working_copy, digests[2]) == read[2]


def test_saving_under_the_plans_own_name_is_saving(path: Path) -> None:
    with PlanFile.open(path) as file:
        Document(file.plan, journal=file).apply(Add(graves(1, first=9)))
        file.save_as(path)
        assert not file.unsaved
    assert len(read_plan(path).items) == 3


def test_a_save_under_another_name_that_fails_changes_nothing(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_args: object) -> None:
        raise OSError("no")

    with PlanFile.open(path) as file:
        with monkeypatch.context() as patch:
            patch.setattr("plan_editor.storage.saving._replace", fails)
            with pytest.raises(Exception, match="It was not saved"):
                file.save_as(tmp_path / "other.gpkg")
        assert file.path == path
        assert not file.read_only
        file.save()
        file.save_as(tmp_path / "other.gpkg")
        assert file.path == tmp_path / "other.gpkg"
        with PlanFile.open(path):  # the old name is free
            pass
