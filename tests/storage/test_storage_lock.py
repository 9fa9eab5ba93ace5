"""Who has a plan open: two programs, two computers, a program that died."""

import json
import os
import subprocess
import sys
from pathlib import Path
from platform import node

import pytest
from keeping import graves, made

from plan_editor.edits.basic import Add
from plan_editor.errors import ChangedElsewhere, NotAllowed, PlanInUse
from plan_editor.plan.document import Document
from plan_editor.storage.leftovers import leftovers
from plan_editor.storage.loading import read_plan
from plan_editor.storage.lock import seize
from plan_editor.storage.plan_file import PlanFile

OPENER = """
import sys
from pathlib import Path
from plan_editor.storage.plan_file import PlanFile
file = PlanFile.open(Path(sys.argv[1]))
print("open", flush=True)
sys.stdin.readline()
file.close()
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return made(tmp_path / "plan.gpkg", graves(2))


def sidecar(path: Path) -> Path:
    return path.with_name(f".{path.name}.lock")


def other_program(path: Path) -> "subprocess.Popen[str]":
    root = Path(__file__).parents[2]
    child = subprocess.Popen(
        [sys.executable, "-c", OPENER, str(path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(root)},
    )
    assert child.stdout is not None
    assert child.stdout.readline() == "open\n"
    return child


def left_by(path: Path, host: str) -> None:
    told = {"host": host, "user": "anne", "since": "2026-03-01T10:15:00+00:00"}
    sidecar(path).write_text(json.dumps(told))


def test_a_second_program_is_told_who_has_it_and_since_when(path: Path) -> None:
    child = other_program(path)
    with pytest.raises(PlanInUse) as caught:
        PlanFile.open(path)
    assert node() in str(caught.value)
    assert "since 20" in str(caught.value)
    assert not caught.value.may_take_over
    with pytest.raises(PlanInUse):
        PlanFile.open(path, take_over=True)
    child.communicate("\n", timeout=60)
    PlanFile.open(path).close()


def test_a_second_opener_always_may_read(path: Path) -> None:
    with PlanFile.open(path) as first, PlanFile.open(path, read_only=True) as second:
        assert second.read_only
        assert second.plan == first.plan
        with pytest.raises(NotAllowed, match="read-only"):
            Document(second.plan, journal=second).apply(Add(graves(1, first=9)))
        for refused in (second.save, lambda: second.keep_copies_in("/"), _adding(second)):
            with pytest.raises(NotAllowed, match="read-only"):
                refused()
        Document(first.plan, journal=first).apply(Add(graves(1, first=9)))
        first.save()
        assert len(second.plan.items) == 2


def _adding(file: PlanFile):  # a function without arguments
    return lambda: file.add(b"", content_type="image/png", name="")


def test_a_reader_may_go_on_under_another_name(path: Path, tmp_path: Path) -> None:
    with PlanFile.open(path), PlanFile.open(path, read_only=True) as second:
        with pytest.raises(PlanInUse):
            second.save_as(path)
        assert second.read_only
        second.save_as(tmp_path / "mine.gpkg")
        assert not second.read_only
        Document(second.plan, journal=second).apply(Add(graves(1, first=9)))
        second.save()
    assert len(read_plan(tmp_path / "mine.gpkg").items) == 3
    assert len(read_plan(path).items) == 2


def test_the_lock_of_a_program_that_died_here_is_free(path: Path) -> None:
    child = other_program(path)
    child.kill()
    child.communicate(timeout=60)
    assert sidecar(path).exists()
    PlanFile.open(path).close()


def test_the_lock_of_another_computer_is_taken_over_by_consent(path: Path) -> None:
    left_by(path, "vestry-pc")
    with pytest.raises(
        PlanInUse, match=r"anne on vestry-pc since 2026-03-01 10:15 UTC"
    ) as caught:
        PlanFile.open(path)
    assert caught.value.may_take_over
    with pytest.raises(PlanInUse):  # asking changed nothing
        PlanFile.open(path)
    with PlanFile.open(path, take_over=True) as file:
        assert not file.read_only
        assert json.loads(sidecar(path).read_text())["host"] == node()


@pytest.mark.parametrize("text", ["", "{", "[]", '{"host": 1}'])
def test_a_lock_that_tells_nothing_is_free(path: Path, text: str) -> None:
    sidecar(path).write_text(text)
    PlanFile.open(path).close()


def test_a_held_lock_that_tells_nothing_is_somebodys(path: Path) -> None:
    lock = seize(sidecar(path))
    assert lock is not None
    lock.write("")
    with pytest.raises(PlanInUse, match="somebody"):
        PlanFile.open(path)
    lock.let_go()


def test_where_no_lock_can_be_left_the_plan_can_be_read(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def forbidden(*_args: object) -> None:
        raise PermissionError(13, "no")

    monkeypatch.setattr("plan_editor.storage.lock.seize", forbidden)
    with pytest.raises(NotAllowed, match="Open it read-only"):
        PlanFile.open(path)
    with PlanFile.open(path, read_only=True) as file:
        assert len(file.plan.items) == 2


def test_closing_leaves_nothing_behind(path: Path) -> None:
    with PlanFile.open(path) as file:
        copy = file.working_copy
        assert copy.exists()
    assert sorted(p.name for p in path.parent.iterdir()) == ["plan.gpkg", "plan.gpkg.bak"]
    assert list(copy.parent.iterdir()) == []


def test_what_somebody_else_saved_is_not_overwritten_unasked(path: Path) -> None:
    with PlanFile.open(path) as file:
        Document(file.plan, journal=file).apply(Add(graves(1, first=9)))
        sidecar(path).unlink()  # as on a network folder that passes no locks on
        with PlanFile.open(path) as other:
            Document(other.plan, journal=other).apply(Add(graves(2, first=20)))
            other.save()
        with pytest.raises(ChangedElsewhere):
            file.save()
        assert len(read_plan(path).items) == 4
        assert file.unsaved
        file.save(overwrite=True)
        assert not file.unsaved
        assert len(read_plan(path).items) == 3


def test_a_plan_that_was_removed_meanwhile_is_written_again(path: Path) -> None:
    with PlanFile.open(path) as file:
        path.unlink()
        file.save()
    assert len(read_plan(path).items) == 2


def test_a_file_damaged_meanwhile_is_not_overwritten_unasked(path: Path) -> None:
    with PlanFile.open(path) as file:
        path.write_bytes(b"no plan at all" * 100)
        with pytest.raises(ChangedElsewhere):
            file.save()
        file.save(overwrite=True)
    assert len(read_plan(path).items) == 2


def test_what_was_left_behind_is_offered_until_it_is_taken_up(path: Path) -> None:
    child = other_program(path)
    child.kill()
    child.communicate(timeout=60)
    assert leftovers() == ()  # it had no edits
