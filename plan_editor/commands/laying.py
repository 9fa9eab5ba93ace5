"""A scan or a drawing laid under the ground: read, kept with the plan, placed if it can be."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from plan_editor.commands.backdrops import drawing_in, drawing_suffixes, scan_on_shelf
from plan_editor.edits.base_plans import as_drawn, drawing_item, scan_item
from plan_editor.edits.basic import Add
from plan_editor.errors import CannotRead, EditRefused, NotAllowed, NotThere
from plan_editor.exchange.format import Report
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.media import Media
from plan_editor.scans.reading import probe
from plan_editor.survey.grid import Grid

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
    """A file that has been read, its bytes kept, its item still to be added to the plan."""

    item: Item[Any]
    text: str
    report: Report | None = None


def lay(document: Document, media: Media, path: Path, *, name: str) -> LaidDown:
    """Lay a file under the ground, as one edit.

    A drawing whose own coordinates lie on or near the ground is placed by them; a scan waits
    for points whose coordinates are known.

    Raises:
        NotThere, NotAllowed: the file cannot be opened.
        CannotRead: it holds nothing that can be used; nothing was changed.
        NoRoom: the disk is full; nothing was changed.
    """
    return add(document, made_ready(media, document.plan.grid, path, name=name))


def made_ready(media: Media, grid: Grid, path: Path, *, name: str) -> Ready:
    """Read a file and keep its bytes; the slow half of laying it, for any thread.

    Raises:
        NotThere, NotAllowed, CannotRead, NoRoom: as ``lay``.
    """
    content = _content(path)
    try:
        if path.suffix.lower() in drawing_suffixes():
            return _drawing(media, grid, content, path, name)
        return _scan(media, content, path, name)
    except CannotRead as fault:
        raise CannotRead(f"{path.name}: {fault}") from fault


def add(document: Document, ready: Ready) -> LaidDown:
    """Add a file that was made ready to the plan: the quick half of laying it, one edit."""
    document.apply(Add(items=(ready.item,)))
    return LaidDown(
        item=ready.item.id,
        placed=ready.item.shape is not None,
        text=ready.text,
        report=ready.report,
    )


def _scan(media: Media, content: bytes, path: Path, name: str) -> Ready:
    facts = probe(content)
    scan_on_shelf(content)  # what cannot be decoded whole is refused before anything is kept
    digest = media.add(content, content_type=f"image/{facts.format.lower()}", name=path.name)
    item = scan_item(name, digest, width=facts.width, height=facts.height)
    text = (
        f"{name}: a scan of {facts.width:,} by {facts.height:,} pixels. It is not placed yet."
    )
    return Ready(item=item, text=text)


def _drawing(media: Media, grid: Grid, content: bytes, path: Path, name: str) -> Ready:
    drawing = drawing_in(content, path.suffix)
    digest = media.add(content, content_type="image/vnd.dxf", name=path.name)
    item = drawing_item(name, digest, extent=drawing.extent)
    try:
        item = as_drawn(item, drawing.metres_per_unit, grid)
        where = "placed by its own coordinates"
    except EditRefused:
        where = "not placed yet: its own coordinates lie far from the ground"
    done = ", ".join(drawing.report.done)
    return Ready(item=item, text=f"{name}: a drawing ({done}), {where}.", report=drawing.report)


def _content(path: Path) -> bytes:
    try:
        if path.exists() and not path.is_file():
            raise CannotRead(
                f"{path} is no file. Nothing was changed. Choose a scan or drawing."
            )
        if path.stat().st_size > LARGEST:
            raise CannotRead(
                f"{path.name} is larger than {LARGEST // 1_000_000} MB. Nothing was changed."
                " Save it smaller, for example at 300 dots to the inch, and lay that."
            )
        return path.read_bytes()
    except FileNotFoundError as fault:
        raise NotThere(f"There is no file {path}. Nothing was changed.") from fault
    except OSError as fault:
        raise NotAllowed(
            f"{path} cannot be opened: {fault.strerror}. Nothing was changed."
        ) from fault
