"""A program that copies the plan slowly beside edits and saves never gets a bad file."""

import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from keeping import graves, made

from plan_editor.edits.basic import Add
from plan_editor.plan.document import Document
from plan_editor.storage.loading import read_plan
from plan_editor.storage.plan_file import PlanFile
from plan_editor.storage.verifying import verify

COPIES = 50 if settings.default.max_examples >= 1000 else 10

COPIER = """
import sys, time
plan, folder, count = sys.argv[1], sys.argv[2], int(sys.argv[3])
for n in range(count):
    with open(plan, "rb") as source, open(f"{folder}/copy {n}.gpkg", "wb") as copy:
        while piece := source.read(8192):
            copy.write(piece)
            time.sleep(0.0005)
    print(n, flush=True)
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return made(tmp_path / "plan.gpkg", graves(50))


def edited(path: Path, done: threading.Event) -> Iterator[int]:
    """Edit and save without pause until it is done; yield after each save."""
    with PlanFile.open(path) as file:
        document = Document(file.plan, journal=file)
        for n in range(100, 1_000_000):
            document.apply(Add(graves(1, first=n)))
            if n % 3 == 0:
                file.save()
                yield n
            if done.is_set():
                return


def test_every_copy_is_whole(path: Path, tmp_path: Path) -> None:
    folder = tmp_path / "copies"
    folder.mkdir()
    copier = subprocess.Popen(
        [sys.executable, "-c", COPIER, str(path), str(folder), str(COPIES)],
        stdout=subprocess.PIPE,
        text=True,
    )
    done = threading.Event()
    waiting = threading.Thread(target=lambda: (copier.wait(), done.set()))
    waiting.start()
    saves = sum(1 for _ in edited(path, done))
    waiting.join()
    assert copier.stdout is not None
    copier.stdout.close()
    assert copier.returncode == 0
    assert saves > COPIES
    sizes = set()
    for n in range(COPIES):
        copy = folder / f"copy {n}.gpkg"
        assert verify(copy).findings == ()
        sizes.add(len(read_plan(copy).items))
    assert len(sizes) > 1  # it was written while it was copied
