"""Pictures as levels of raw pixels in a folder: written whole or not at all, found again."""

import errno
import json
import os
import shutil
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np
from PIL import Image

from plan_editor.errors import NoRoom, NotAllowed
from plan_editor.scans.turning import Pixels

EDITION = 1
"""Of the way the folder is laid out; a folder of another is made anew."""

LEAST_LEVEL = 1024
"""Levels are halved until neither side is longer than this, in pixels."""

STRIP_BYTES = 16_000_000
"""About so much is held at a time while one level is made from another."""

FORGOTTEN_AFTER_S = 86_400.0
"""A half-made folder left by a program that died is cleared away after a day."""

UNUSED_AFTER_S = 60 * 86_400.0
"""A picture that nobody looked for in sixty days gives way when another is made."""

FACTS = "facts.json"
MAKING = ".making-"

Progress = Callable[[float], None]
"""Told the share that is done, from 0 to 1."""

Cancelled = Callable[[], bool]
"""Asked now and then whether to stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The size of a picture on the shelf.

    Args:
        width: pixels across its first level.
        height: pixels down its first level.
        scale: scan pixels to one of the first level.
        colour: whether a pixel is three bytes (red, green, blue) or one.
    """

    width: int
    height: int
    scale: int
    colour: bool

    def levels(self) -> tuple["Frame", ...]:
        """Return it and its halvings, until neither side exceeds ``LEAST_LEVEL``."""
        found = [self]
        while max(found[-1].width, found[-1].height) > LEAST_LEVEL:
            found.append(found[-1].halved())
        return tuple(found)

    def halved(self) -> "Frame":
        """Return the level above: half as many pixels each way, the odd one rounded up."""
        return Frame(
            width=(self.width + 1) // 2,
            height=(self.height + 1) // 2,
            scale=self.scale * 2,
            colour=self.colour,
        )

    @property
    def shape(self) -> tuple[int, ...]:
        """The shape of its array of bytes."""
        return (self.height, self.width, 3) if self.colour else (self.height, self.width)

    @property
    def size(self) -> int:
        """Its bytes."""
        return self.width * self.height * (3 if self.colour else 1)

    @property
    def rows_at_once(self) -> int:
        """An even number of rows that make about ``STRIP_BYTES``."""
        return max(2, STRIP_BYTES // (self.size // self.height) // 2 * 2)

    def strips(self) -> Iterator[tuple[int, int]]:
        """Return where each strip begins and ends, from the top."""
        for top in range(0, self.height, self.rows_at_once):
            yield top, min(top + self.rows_at_once, self.height)


def level_file(folder: Path, frame: Frame) -> Path:
    """Return the file of a level's pixels: row after row, no head."""
    return folder / f"level_{frame.scale}.raw"


def frame_of(folder: Path) -> Frame | None:
    """Return the frame of a folder that is whole, or None where there is no such folder.

    A folder that is asked for counts as used.
    """
    try:
        recorded = json.loads((folder / FACTS).read_text(encoding="utf-8"))
        if recorded.pop("edition") != EDITION:
            return None
        frame = Frame(**recorded)
        sizes = [level_file(folder, level).stat().st_size for level in frame.levels()]
    except (OSError, ValueError, TypeError, LookupError, AttributeError):
        return None
    if sizes != [level.size for level in frame.levels()]:
        return None
    with suppress(OSError):  # a shelf that is only lent cannot be written
        os.utime(folder / FACTS)
    return frame


def put_on_shelf(
    folder: Path,
    frame: Frame,
    strips: Iterable[Pixels],
    *,
    progress: Progress,
    cancelled: Cancelled,
) -> bool:
    """Write a picture and its halvings into a folder; return False where it was cancelled.

    The folder appears when everything is in it. Until then, and where something goes wrong,
    there is nothing under that name.

    Args:
        folder: to be made; what is there and not whole gives way.
        frame: the size of the first level.
        strips: its pixels, as ``frame.strips`` cuts them.
        progress: told the share that is done.
        cancelled: asked after each strip.

    Raises:
        NoRoom: the disk is full.
        NotAllowed: the folder may not be written.
    """
    with blaming_the_disk(folder.parent), workshop(folder.parent) as room:
        made = room / folder.name
        made.mkdir()
        total = sum(level.size for level in frame.levels())
        done = 0
        for size in _written(made, frame, strips):
            if cancelled():
                return False
            done += size
            progress(done / total)
        facts = json.dumps({"edition": EDITION} | asdict(frame))
        (made / FACTS).write_text(facts, encoding="utf-8")
        if frame_of(folder) is None:  # nobody else made it meanwhile
            shutil.rmtree(folder, ignore_errors=True)
            made.replace(folder)
    return True


def _written(folder: Path, frame: Frame, strips: Iterable[Pixels]) -> Iterator[int]:
    """Write every level, giving the bytes written after each strip."""
    with level_file(folder, frame).open("wb") as file:
        for strip in strips:
            file.write(strip.data)
            yield strip.nbytes
    for below, level in zip(frame.levels(), frame.levels()[1:], strict=False):
        with level_file(folder, level).open("wb") as file:
            for strip in _halved(level_file(folder, below), below):
                file.write(strip.data)
                yield strip.nbytes


def _halved(path: Path, frame: Frame) -> Iterator[Pixels]:
    """Return strips of the level above, each pixel the mean of the two by two below it.

    Read as a file and not as a memory map, whose pages would count as memory of this program.
    """
    with path.open("rb") as file:
        for top, bottom in frame.strips():
            shape = (bottom - top, *frame.shape[1:])
            strip = np.fromfile(file, dtype=np.uint8, count=int(np.prod(shape)))
            yield np.asarray(Image.fromarray(strip.reshape(shape)).reduce(2))


@contextmanager
def workshop(shelf: Path) -> Iterator[Path]:
    """Give a folder beside the wanted one that is gone afterwards, whatever happens."""
    shelf.mkdir(parents=True, exist_ok=True)
    for left in shelf.glob(f"{MAKING}*"):
        if _age_s(left) > FORGOTTEN_AFTER_S:
            shutil.rmtree(left, ignore_errors=True)
    for facts in shelf.glob(f"*/{FACTS}"):
        if _age_s(facts) > UNUSED_AFTER_S:
            shutil.rmtree(facts.parent, ignore_errors=True)
    with tempfile.TemporaryDirectory(
        dir=shelf, prefix=MAKING, ignore_cleanup_errors=True
    ) as room:
        yield Path(room)


def _age_s(path: Path) -> float:
    try:
        return time.time() - path.stat().st_mtime
    except OSError:  # another program that tidies up here was faster
        return 0.0


@contextmanager
def blaming_the_disk(shelf: Path) -> Iterator[None]:
    """Turn what goes wrong with the disk into a sentence."""
    try:
        yield
    except OSError as fault:
        if fault.errno in {errno.ENOSPC, errno.EDQUOT}:
            raise NoRoom(
                f"The scan could not be prepared: there is no room left in {shelf}. "
                "The plan was not changed; free some space and open the scan again."
            ) from fault
        raise NotAllowed(
            f"The scan could not be prepared: {shelf} cannot be written ({fault.strerror}). "
            "The plan was not changed; choose another folder or allow writing there."
        ) from fault
