"""One page of a PDF measured and drawn; for a process of its own, since the file is foreign.

Source of boxes, turns and the user unit: ISO 32000-2, 7.7.3.3 (page objects) and 14.11.2.
"""

import io
import math
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium  # type: ignore[import-untyped]  # it states no types
import pypdfium2.raw as pdfium_c  # type: ignore[import-untyped]  # it states no types

from plan_editor.errors import CannotRead, NoRoom
from plan_editor.scans.facts import ScanFacts
from plan_editor.scans.turning import Pixels

DPI = 300.0
"""Dots to an inch of paper at which a page is drawn."""

MOST_DRAWN = 150_000_000
"""A page that would have more pixels is drawn coarser: A0 at 300 dots per inch has 139 million.

What was clicked on a page is kept in its pixels, so these two numbers never change.
"""

SMALLEST_MM = 10.0
"""A page smaller than this holds no plan."""

POINTS_TO_AN_INCH = 72.0
MM_TO_AN_INCH = 25.4

MOST_UNIT = 1000.0
"""A user unit beyond this is a slip; the largest page would be kilometres wide."""

_ROWS = 512
_WHITE = 0xFFFFFFFF


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A page of a file, from 1."""

    pdf: Path
    page: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A page to be drawn into a file: red, green and blue, row after row from the top."""

    wanted: Wanted
    into: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A page that was drawn, and whether it has colour."""

    facts: ScanFacts
    colour: bool


def measured(wanted: Wanted) -> ScanFacts:
    """Return what is known of a page of a PDF, as it will be drawn.

    Raises:
        CannotRead: it is locked or damaged, or has no such page.
    """
    with _page(wanted) as (document, page):
        return _facts(wanted, document, page)


def drawn(drawing: Drawing) -> Drawn:
    """Draw a page into a file.

    Raises:
        CannotRead: it is locked or damaged, or has no such page.
        NoRoom: the disk is full.
    """
    with _page(drawing.wanted) as (document, page):
        facts = _facts(drawing.wanted, document, page)
        shape = (facts.height, facts.width, 3)
        _make_room(drawing.into, math.prod(shape))
        pixels = np.memmap(drawing.into, dtype=np.uint8, mode="r+", shape=shape)
        _draw(page, pixels)
    colour = any(_has_colour(pixels[y : y + _ROWS]) for y in range(0, facts.height, _ROWS))
    return Drawn(facts=facts, colour=colour)


def no_such_page(page: int, pages: int) -> CannotRead:
    """Return the refusal of a page that is not there."""
    if pages == 0:
        return CannotRead(
            "This PDF has no pages that can be found; nothing was changed. "
            "Copy it again from where it came, or scan the plan again."
        )
    held = "only one page" if pages == 1 else f"{pages} pages"
    return CannotRead(
        f"This file has {held} that can be opened, and no page {page}; nothing was changed. "
        "Choose another page."
    )


@contextmanager
def _page(wanted: Wanted) -> Iterator[tuple[pdfium.PdfDocument, pdfium.PdfPage]]:
    document = None
    try:
        document = pdfium.PdfDocument(wanted.pdf)
        if not 1 <= wanted.page <= len(document):
            raise no_such_page(wanted.page, len(document))
        yield document, document[wanted.page - 1]
    except pdfium.PdfiumError as fault:
        raise _refusal(fault) from fault
    finally:
        if document is not None:
            document.close()


def _facts(wanted: Wanted, document: pdfium.PdfDocument, page: pdfium.PdfPage) -> ScanFacts:
    unit = _user_unit(wanted, document) / POINTS_TO_AN_INCH
    width, height = (side * unit for side in page.get_size())
    if not SMALLEST_MM <= min(width, height) * MM_TO_AN_INCH < math.inf:
        raise CannotRead(
            f"Page {wanted.page} of this PDF is smaller than {SMALLEST_MM:.0f} mm, too small "
            "for a plan; nothing was changed. Choose another page."
        )
    dpi = min(DPI, math.sqrt(MOST_DRAWN / (width * height)))
    return ScanFacts(
        width=max(1, round(width * dpi)),
        height=max(1, round(height * dpi)),
        mode="RGB",
        dpi=(dpi, dpi),
        turn=1,
        format="PDF",
        frames=len(document),
        page=wanted.page,
    )


def _draw(page: pdfium.PdfPage, pixels: Pixels) -> None:
    height, width, _ = pixels.shape
    bitmap = pdfium_c.FPDFBitmap_CreateEx(
        width, height, pdfium_c.FPDFBitmap_BGR, pixels.ctypes.data, 3 * width
    )
    pdfium_c.FPDFBitmap_FillRect(bitmap, 0, 0, width, height, _WHITE)
    how = pdfium_c.FPDF_ANNOT | pdfium_c.FPDF_REVERSE_BYTE_ORDER
    pdfium_c.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, how)
    pdfium_c.FPDFBitmap_Destroy(bitmap)


def _refusal(fault: pdfium.PdfiumError) -> CannotRead:
    if fault.err_code in {pdfium_c.FPDF_ERR_PASSWORD, pdfium_c.FPDF_ERR_SECURITY}:
        return CannotRead(
            "This PDF is locked with a password; nothing was changed. "
            "Save or print it to a PDF without one, and try that."
        )
    return CannotRead(
        "This PDF is damaged or was cut short, and nothing was changed. "
        "Copy it again from where it came, or scan the plan again."
    )


def _user_unit(wanted: Wanted, document: pdfium.PdfDocument) -> float:
    """Return the user unit of a page, in seventy-seconds of an inch.

    WORKAROUND: pdfium does not tell it, so
    the page is copied alone into an empty document, whose few objects are then looked through.
    """
    content = wanted.pdf.read_bytes()
    if b"/UserUnit" not in content and b"/ObjStm" not in content:
        return 1.0
    alone, written = pdfium.PdfDocument.new(), io.BytesIO()
    alone.import_pages(document, [wanted.page - 1])
    alone.save(written)
    alone.close()
    objects = re.sub(rb"stream\r?\n.*?endstream", b"", written.getvalue(), flags=re.DOTALL)
    found = re.search(rb"/UserUnit\s+(\d*\.?\d+)", objects)
    unit = float(found[1]) if found else 1.0
    return unit if 0.0 < unit <= MOST_UNIT else 1.0


def _make_room(path: Path, size: int) -> None:
    try:
        with path.open("wb") as file:
            if hasattr(os, "posix_fallocate"):  # pragma: no branch  # else the disk fills later
                os.posix_fallocate(file.fileno(), 0, size)
            file.truncate(size)
    except OSError as fault:
        raise NoRoom(
            f"The page could not be drawn: there is no room for it in {path.parent}. "
            "The plan was not changed; free some space and try again."
        ) from fault


def _has_colour(rows: Pixels) -> bool:
    red, green, blue = rows[..., 0], rows[..., 1], rows[..., 2]
    return bool((red != green).any() or (green != blue).any())
