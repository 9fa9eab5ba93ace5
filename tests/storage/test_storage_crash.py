"""Killed at any moment: every edit that was acknowledged is there on the next start."""

import os
import random
import re
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from keeping import graves, made

from plan_editor.storage.leftovers import Leftover, leftovers
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify

THOROUGH = settings.default.max_examples >= 1000
TIMES = 25 if THOROUGH else 4
CHILD = Path(__file__).with_name("crashing.py")
RANDOM = random.Random(1962)  # noqa: S311  # when to kill is no secret


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return made(tmp_path / "plan.gpkg", graves(20))


def start(path: Path, mode: str, number: int) -> "subprocess.Popen[str]":
    tests = (CHILD.parent, CHILD.parent.parent, CHILD.parents[2])
    return subprocess.Popen(
        [sys.executable, str(CHILD), str(path), mode, str(number)],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(map(str, tests))},
    )


def told(child: "subprocess.Popen[str]") -> list[str]:
    """Return what the child said before it died."""
    assert child.stdout is not None
    with child, child.stdout:
        lines = child.stdout.read().splitlines()
        assert child.wait(60) == -signal.SIGKILL
    return lines


def kept(lines: list[str]) -> set[str]:
    """Return the numbers of the graves that the child was told are kept."""
    return {f"G {line.split()[1]}" for line in lines if line.startswith("kept ")}


def recovered(path: Path) -> tuple[set[str], Leftover | None]:
    """Return the numbers of the graves after the next start, and what was offered."""
    found = leftovers()
    assert len(found) <= 1
    if not found:
        return {i.number for i in read_plan(path).items.values()}, None
    assert verify(found[0].working_copy).findings == ()
    with PlanFile.recover(found[0]) as file:
        numbers = {i.number for i in file.plan.items.values()}
        assert file.unsaved
        assert file.changed_elsewhere == ()
        file.save()
    assert verify(path).findings == ()
    assert {i.number for i in read_plan(path).items.values()} == numbers
    assert leftovers() == ()
    return numbers, found[0]


@pytest.fixture
def watched(path: Path) -> Iterator[list[str]]:
    """Look without pause whether there is a file of that name, and that it is never short."""
    missing: list[str] = []
    done = threading.Event()

    def watch() -> None:
        while not done.is_set():
            try:
                if path.stat().st_size == 0:
                    missing.append("empty")
            except FileNotFoundError:
                missing.append("gone")

    thread = threading.Thread(target=watch)
    thread.start()
    yield missing
    done.set()
    thread.join()


@pytest.mark.parametrize("nth", range(TIMES))
def test_killed_while_editing_nothing_acknowledged_is_lost(
    path: Path, watched: list[str], nth: int
) -> None:
    child = start(path, "edits", 0)
    assert child.stdout is not None
    assert child.stdout.readline() == "begun\n"
    lines = [child.stdout.readline() for _ in range(RANDOM.randint(1, 40))]
    threading.Event().wait(RANDOM.uniform(0, 0.01))
    child.kill()
    lines += told(child)
    numbers, leftover = recovered(path)
    assert numbers >= kept(lines) | {f"G {n}" for n in range(1, 21)}
    assert leftover is not None
    assert leftover.plan == path
    assert leftover.name == "St Elfric"
    assert len(kept(lines)) <= leftover.entries <= len(kept(lines)) + 1
    assert watched == []


@pytest.mark.parametrize("nth", range(TIMES))
def test_killed_among_saves_nothing_acknowledged_is_lost(
    path: Path, watched: list[str], nth: int
) -> None:
    child = start(path, "edits", 3)
    assert child.stdout is not None
    lines = [child.stdout.readline() for _ in range(RANDOM.randint(4, 60))]
    threading.Event().wait(RANDOM.uniform(0, 0.05))
    child.kill()
    lines += told(child)
    assert verify(path).findings == ()
    numbers, _ = recovered(path)
    assert numbers >= kept(lines)
    assert watched == []


@pytest.fixture(scope="module")
def calls(tmp_path_factory: pytest.TempPathFactory) -> int:
    """Return how many calls of the system a Save makes."""
    path = made(tmp_path_factory.mktemp("calls") / "plan.gpkg", graves(20))
    lines = told(start(path, "save", 0))
    saved = re.fullmatch(r"saved (\d+)", lines[-1])
    assert saved is not None
    return int(saved[1])


@pytest.mark.parametrize("step", range(TIMES))
def test_killed_within_a_save_the_file_is_the_old_or_the_new_one(
    path: Path, watched: list[str], calls: int, step: int
) -> None:
    assert calls >= 8
    fatal = 1 + round(step * (calls - 1) / (TIMES - 1))
    before = set(read_plan(path).items)
    lines = told(start(path, "save", fatal))
    assert len(kept(lines)) == 5
    assert lines[-1].startswith("dies before")
    assert verify(path).findings == ()
    assert len(read_plan(path).items) in (len(before), len(before) + 5)
    numbers, _ = recovered(path)
    assert numbers >= kept(lines)
    assert len(numbers) == 25
    assert watched == []


def test_a_plan_that_was_saved_before_the_crash_is_not_offered(path: Path) -> None:
    lines = told(start(path, "save", 0))
    assert lines[-1].startswith("saved")
    assert leftovers() == ()
    assert len(read_plan(path).items) == 25


def test_what_a_running_program_holds_is_not_offered(path: Path) -> None:
    child = start(path, "edits", 0)
    assert child.stdout is not None
    for _ in range(5):
        child.stdout.readline()
    assert leftovers() == ()
    child.kill()
    told(child)
    (leftover,) = leftovers()
    leftover.discard()
    assert leftovers() == ()
    assert not leftover.working_copy.exists()
