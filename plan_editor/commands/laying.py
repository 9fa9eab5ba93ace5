"""A scan or a drawing laid under the ground: read, kept with the plan, placed if it can be."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plan_editor.commands.backdrops import drawing_in, drawing_suffixes, scan_on_shelf
from plan_editor.commands.referencing import placed_by_itself
from plan_editor.edits.base_plans import as_drawn, drawing_item, scan_item
from plan_editor.edits.basic import Add
from plan_editor.errors import CannotRead, EditRefused, NotAllowed, NotThere
from plan_editor.exchange.format import Report
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.media import Media
from plan_editor.scans.facts import ScanFacts
from plan_editor.scans.pdf_drawing import no_such_page
from plan_editor.scans.reading import probe
from plan_editor.survey.grids.grid import Grid

SCANS = (".png", ".jpg", ".jpeg", ".tif", ".tiff", ".jp2", ".j2k", ".jpx", ".pdf")
"""How the names of scans end that can be laid; what is in them counts, not the name."""

OF_PAGES = (".pdf", ".tif", ".tiff")
"""Those that may hold several pages."""

LARGEST = 500_000_000
"""A base plan of more bytes than this is refused: the plan would no longer be easy to copy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidDown:
    """What became of a file.

    Args:
        item: the base plan's item.
        placed: whether it lies on the ground already, by its own coordinates.
        text: the same in words.
        report: of a drawing, what was read and what was left out.
    """

    item: ItemId
    placed: bool
    text: str
    report: Report | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A file that has been read, its bytes kept, its item still to be added to the plan.

    Args:
        item: the base plan.
        grid: in which the plan lay then, and by which it was placed.
        text: what became of it, in words.
        report: of a drawing, what was read and what was left out.
    """

    item: Item[Any]
    grid: Grid
    text: str
    report: Report | None = None


def lay(document: Document, media: Media, path: Path, *, name: str, page: int = 1) -> LaidDown:
    """Lay a file under the ground, as one edit.

    A drawing whose own coordinates lie on or near the ground is placed by them, and so is a
    scan that comes with coordinates; any other waits for points whose coordinates are known.

    Raises:
        NotThere, NotAllowed: the file cannot be opened.
        CannotRead: it holds nothing that can be used; nothing was changed.
        NoRoom: the disk is full; nothing was changed.
    """
    return add(document, made_ready(media, document.plan.grid, path, name=name, page=page))


def pages_in(path: Path) -> int:
    """Return how many pages a file has to choose from; for any thread.

    Raises:
        NotThere, NotAllowed, CannotRead: as ``lay``.
    """
    if path.suffix.lower() not in OF_PAGES:
        return 1
    _look_at(path)
    try:
        return probe(path).pages
    except CannotRead as fault:
        raise CannotRead(f"{path.name}: {fault}") from fault


def made_ready(media: Media, grid: Grid, path: Path, *, name: str, page: int = 1) -> Ready:
    """Read a file and keep its bytes; the slow half of laying it, for any thread.

    Args:
        media: where the bytes are kept.
        grid: of the plan.
        path: the file.
        name: what it will be called.
        page: of a scan of several pages, from 1.

    Raises:
        NotThere, NotAllowed, CannotRead, NoRoom: as ``lay``.
    """
    read = _Read(path=path, name=name, content=content_of(path))
    try:
        if path.suffix.lower() in drawing_suffixes():
            if page != 1:
                raise no_such_page(page, 1)
            return _drawing(read, media, grid)
        facts = probe(read.content, page)
        # what cannot be decoded whole is refused before anything is kept
        scan_on_shelf(read.content, page)
    except CannotRead as fault:
        raise CannotRead(f"{path.name}: {fault}") from fault
    return _scan(read, media, grid, facts)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Read:
    """A file as it was read, and what it will be called."""

    path: Path
    name: str
    content: bytes


def add(document: Document, ready: Ready) -> LaidDown:
    """Add a file that was made ready to the plan: the quick half of laying it, one edit.

    Raises:
        EditRefused: the plan was moved to another grid while the file was read.
    """
    if ready.item.shape is not None and ready.grid != document.plan.grid:
        raise EditRefused(
            f"The plan was moved to another grid while {ready.item.called()} was read. It was"
            " not laid, and nothing was changed. Lay it again."
        )
    document.apply(Add(items=(ready.item,)))
    return LaidDown(
        item=ready.item.id,
        placed=ready.item.shape is not None,
        text=ready.text,
        report=ready.report,
    )


def _scan(read: _Read, media: Media, grid: Grid, facts: ScanFacts) -> Ready:
    kept_as = _CONTENT_TYPES[facts.format]
    digest = media.add(read.content, content_type=kept_as, name=read.path.name)
    item = scan_item(read.name, digest, width=facts.width, height=facts.height, page=facts.page)
    item, where = placed_by_itself(item, read.content, read.path, facts, grid)
    page = f", page {facts.page} of {facts.pages}" if facts.pages > 1 else ""
    head = f"{read.name}: a scan of {facts.width:,} by {facts.height:,} pixels{page}."
    return Ready(item=item, grid=grid, text=" ".join((head, *facts.remarks, where)))


_CONTENT_TYPES = {
    "PNG": "image/png",
    "JPEG": "image/jpeg",
    "TIFF": "image/tiff",
    "JPEG2000": "image/jp2",
    "PDF": "application/pdf",
}
"""Source: IANA's register of media types."""


def _drawing(read: _Read, media: Media, grid: Grid) -> Ready:
    drawing = drawing_in(read.content, read.path.suffix)
    name = read.name
    digest = media.add(read.content, content_type="image/vnd.dxf", name=read.path.name)
    item = drawing_item(name, digest, extent=drawing.extent)
    try:
        item = as_drawn(item, drawing.metres_per_unit, grid)
        where = "placed by its own coordinates"
    except EditRefused:
        where = "not placed yet: its own coordinates lie far from the ground"
    done = ", ".join(drawing.report.done)
    text = f"{name}: a drawing ({done}), {where}."
    return Ready(item=item, grid=grid, text=text, report=drawing.report)


def content_of(path: Path) -> bytes:
    """Return what stands in a file.

    Raises:
        NotThere, NotAllowed, CannotRead: it cannot be opened, or is far too large.
    """
    _look_at(path)
    with _named(path):
        return path.read_bytes()


def _look_at(path: Path) -> None:
    """Refuse what is no file, or one that is far too large."""
    with _named(path):
        if path.exists() and not path.is_file():
            raise CannotRead(
                f"{path} is no file. Nothing was changed. Choose a scan or drawing."
            )
        if path.stat().st_size > LARGEST:
            raise CannotRead(
                f"{path.name} is larger than {LARGEST // 1_000_000} MB. Nothing was changed."
                " Save it smaller, for example at 300 dots to the inch, and lay that."
            )


@contextmanager
def _named(path: Path) -> Iterator[None]:
    try:
        yield
    except FileNotFoundError as fault:
        raise NotThere(f"There is no file {path}. Nothing was changed.") from fault
    except OSError as fault:
        raise NotAllowed(
            f"{path} cannot be opened: {fault.strerror}. Nothing was changed."
        ) from fault
