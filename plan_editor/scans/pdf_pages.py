"""A page of a PDF as a scan: measured and drawn in another process, handed out in strips."""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO

import numpy as np

from plan_editor.limits import in_child
from plan_editor.scans.facts import ScanFacts
from plan_editor.scans.pdf_drawing import Drawing, Wanted, drawn, measured
from plan_editor.scans.turning import Pixels

LONGEST = 180.0
"""Seconds that a page may take."""

MOST_MEMORY = 2_000_000_000
"""Bytes that it may take, in its own process, the drawn page of up to 450 MB among them."""

_LOOKED_AT = 1024
_HEADS_OF_PICTURES = (
    b"\x89PNG",
    b"\xff\xd8",
    b"II*\x00",
    b"MM\x00*",
    b"II+\x00",
    b"MM\x00+",
    b"\x00\x00\x00\x0cjP",
    b"\xff\x4f",
)


def is_pdf(stream: IO[bytes]) -> bool:
    """Return whether a file is a PDF; other bytes may stand before its head.

    Source: Adobe, PDF Reference 1.7, appendix H, note 13: within the first 1,024 bytes.
    """
    head = stream.read(_LOOKED_AT)
    return b"%PDF-" in head and not head.startswith(_HEADS_OF_PICTURES)


def pdf_facts(source: bytes | Path, page: int) -> ScanFacts:
    """Return what is known of a page of a PDF.

    Raises:
        CannotRead: it is locked, damaged or far too slow, or has no such page.
    """
    with tempfile.TemporaryDirectory() as room, _at(source, Path(room)) as path:
        wanted = Wanted(pdf=path, page=page)
        return in_child(measured, wanted, seconds=LONGEST, memory=MOST_MEMORY)


@dataclass(frozen=True, slots=True, kw_only=True)
class PdfPage:
    """A page of a PDF, drawn into a file.

    Args:
        file: red, green and blue, row after row from the top.
        width: pixels across.
        height: pixels down.
        scale: scan pixels to one that is handed out: 1.
        colour: whether three numbers are handed out for a pixel, or one.
    """

    file: Path
    width: int
    height: int
    colour: bool
    scale: int = 1

    def strip(self, top: int, bottom: int) -> Pixels:
        """Return the rows from top to under bottom."""
        row = 3 * self.width
        with self.file.open("rb") as file:
            file.seek(top * row)
            pixels = np.fromfile(file, dtype=np.uint8, count=(bottom - top) * row)
        rows = pixels.reshape(bottom - top, self.width, 3)
        return rows if self.colour else np.ascontiguousarray(rows[..., 0])


def pdf_page(source: bytes | Path, page: int, room: Path) -> PdfPage:
    """Return a page drawn.

    Args:
        source: the file, or its bytes.
        page: from 1.
        room: a folder for the drawn page, which must stay as long as it is used.

    Raises:
        CannotRead: it is locked, damaged, or would take too long or too much.
        NoRoom: the disk is full.
    """
    into = room / "page.raw"
    with _at(source, room) as path:
        drawing = Drawing(wanted=Wanted(pdf=path, page=page), into=into)
        made = in_child(drawn, drawing, seconds=LONGEST, memory=MOST_MEMORY)
    facts = made.facts
    return PdfPage(file=into, width=facts.width, height=facts.height, colour=made.colour)


@contextmanager
def _at(source: bytes | Path, room: Path) -> Iterator[Path]:
    """Give the path of a file, or of bytes written into a folder."""
    if isinstance(source, Path):
        yield source.absolute()
        return
    path = room / "page.pdf"
    path.write_bytes(source)
    yield path
    path.unlink()
