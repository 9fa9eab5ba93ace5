"""A scan as a pyramid of ever coarser levels on disk: decoded once, then only looked into."""

import hashlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from plan_editor.errors import CannotRead
from plan_editor.scans.decoding import Decoded, decoded
from plan_editor.scans.pdf_pages import PdfPage, is_pdf, pdf_page
from plan_editor.scans.reading import stream_of
from plan_editor.scans.shelf import (
    Cancelled,
    Frame,
    Progress,
    blaming_the_disk,
    frame_of,
    level_file,
    put_on_shelf,
    workshop,
)
from plan_editor.scans.turning import Pixels

MOST_UPSAMPLING = 1.3
"""A level may be drawn this much larger than it is before a finer one is taken."""

DECODING_SHARE = 0.3
"""Of the whole work, the share that goes by while the file is decoded."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Level:
    """One level of a pyramid.

    Args:
        scale: scan pixels to one of its pixels, each way: a power of two.
        file: where its pixels are.
        pixels: bytes by row from the top and column from the left, and colour where it has any;
            the file itself, memory-mapped, read only.
    """

    scale: int
    file: Path
    pixels: Pixels

    def afresh(self) -> "Level":
        """Return it mapped anew: what is looked at there leaves memory when that value goes."""
        return _level(self.file, scale=self.scale, shape=self.pixels.shape)

    @property
    def width(self) -> int:
        """Pixels across."""
        return int(self.pixels.shape[1])

    @property
    def height(self) -> int:
        """Pixels down."""
        return int(self.pixels.shape[0])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pyramid:
    """A scan on disk, upright, finest level first.

    Places on the scan are pixels right and down from the outer corner of the first pixel, whose
    middle is at (0.5, 0.5); divided by a level's scale they are places on that level.
    """

    folder: Path
    levels: tuple[Level, ...]

    @property
    def colour(self) -> bool:
        """Whether its pixels are red, green and blue, or grey."""
        return self.levels[0].pixels.ndim == 3

    @property
    def width(self) -> int:
        """Scan pixels across, to the whole pixel of its finest level."""
        return self.levels[0].width * self.levels[0].scale

    @property
    def height(self) -> int:
        """Scan pixels down, to the whole pixel of its finest level."""
        return self.levels[0].height * self.levels[0].scale

    def level_for(self, scan_pixels: float) -> int:
        """Return the index of the coarsest level that is fine enough.

        Args:
            scan_pixels: how many scan pixels go to one pixel of the target, each way.
        """
        fine = (
            i for i, v in enumerate(self.levels) if v.scale <= MOST_UPSAMPLING * scan_pixels
        )
        return max(fine, default=0)

    def window(self, level: int, x0: int, y0: int, x1: int, y1: int) -> Pixels:
        """Return a view of the pixels of a level from (x0, y0) to under (x1, y1).

        What lies beyond the level's edge is left out, so the view may be smaller, or empty.
        """
        return self.levels[level].pixels[max(y0, 0) : max(y1, 0), max(x0, 0) : max(x1, 0)]


def make_tiles(
    source: bytes | Path,
    shelf: Path,
    *,
    page: int = 1,
    progress: Progress = lambda _: None,
    cancelled: Cancelled = lambda: False,
) -> Path | None:
    """Decode a scan into a folder of levels, unless that was done before; return the folder.

    The folder bears the SHA-256 digest of the file, and the page beyond the first. What is very
    large is kept coarser, as ``ScanFacts.scale`` tells: that is the scale of its first level.

    Args:
        source: the file's bytes, or where it is.
        shelf: the folder in which the folder is made.
        page: which page, from 1.
        progress: told the share that is done, from 0 to 1.
        cancelled: asked now and then whether to stop; then None is returned and nothing kept.

    Raises:
        CannotRead: it is no picture that can be used, was cut short, or has no such page.
        NoRoom: the disk is full.
        NotAllowed: the folder may not be written.
    """
    folder = shelf / (digest_of(source) + (f"-page{page}" if page > 1 else ""))
    if frame_of(folder) is not None:
        progress(1.0)
        return folder

    def onward(share: float) -> None:
        progress(DECODING_SHARE + (1.0 - DECODING_SHARE) * share)

    with _in_hand(source, page, shelf) as scan:
        frame = Frame(
            width=scan.width, height=scan.height, scale=scan.scale, colour=scan.colour
        )
        onward(0.0)
        strips = _strips(scan, frame)
        del scan  # its memory goes with the last strip
        whole = put_on_shelf(folder, frame, strips, progress=onward, cancelled=cancelled)
    return folder if whole else None


@contextmanager
def _in_hand(source: bytes | Path, page: int, shelf: Path) -> Iterator[Decoded | PdfPage]:
    with stream_of(source) as stream:
        pdf = is_pdf(stream)
    if not pdf:
        yield decoded(source, page)
        return
    with blaming_the_disk(shelf), workshop(shelf) as room:
        yield pdf_page(source, page, room)


def open_tiles(folder: Path) -> Pyramid:
    """Return the pyramid of a folder that ``make_tiles`` made. Costs about a millisecond.

    Raises:
        CannotRead: the folder is not there or not whole.
    """
    frame = frame_of(folder)
    if frame is None:
        raise CannotRead(
            f"The prepared scan in {folder} is not whole; the plan was not changed. "
            "Open the plan again: the scan will be prepared afresh."
        )
    return Pyramid(
        folder=folder,
        levels=tuple(
            _level(level_file(folder, level), scale=level.scale, shape=level.shape)
            for level in frame.levels()
        ),
    )


def digest_of(source: bytes | Path) -> str:
    """Return the SHA-256 digest of a file in hexadecimal.

    Raises:
        CannotRead: the file cannot be opened.
    """
    if isinstance(source, bytes):
        return hashlib.sha256(source).hexdigest()
    with stream_of(source) as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def _level(file: Path, *, scale: int, shape: tuple[int, ...]) -> Level:
    pixels = np.memmap(file, dtype=np.uint8, mode="r", shape=shape)
    return Level(scale=scale, file=file, pixels=pixels)


def _strips(scan: Decoded | PdfPage, frame: Frame) -> Iterator[Pixels]:
    for top, bottom in frame.strips():
        yield scan.strip(top, bottom)
