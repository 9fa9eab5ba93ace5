"""Photographs and papers: read, made smaller, kept with the plan, and given out again."""

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from plan_editor.commands.laying import content_of
from plan_editor.edits.papers import SORTS, add_papers, paper_item
from plan_editor.errors import CannotRead, CannotUse, PlanEditorError
from plan_editor.geometry.tolerance import FARTHEST
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.media import Media
from plan_editor.plan.plan import Plan
from plan_editor.records.papers import papers_of
from plan_editor.scans.photographs import photograph
from plan_editor.scans.reading import probe
from plan_editor.survey.grids.crossing import WGS84, crossed
from plan_editor.survey.grids.grid import LOCAL, Grid

PHOTOGRAPHS = (".jpg", ".jpeg", ".png", ".tif", ".tiff")
PAPERS = (".pdf",)

MOST_BYTES = 20_000_000
"""A paper of more bytes is refused: it is kept as it came."""

PDF = "application/pdf"
PAPER = "paper"
"""The kind that photographs and papers are of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What is said of papers that are added.

    Args:
        says: what they show or say; the name of the file if empty.
        sort: what they are; photographs, or other papers of a PDF, if empty.
    """

    says: str = ""
    sort: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A paper whose bytes are kept, still to be added to a thing, and what became of it."""

    item: Item[Any]
    text: str


def made_ready(media: Media, grid: Grid, path: Path, words: Words) -> Ready:
    """Read a photograph or paper and keep its bytes; for any thread.

    A photograph is made smaller, and what its camera wrote into it is left out; the day and the
    place are kept with the plan. A PDF is kept as it is.

    Args:
        media: where the bytes are kept.
        grid: of the plan.
        path: the file.
        words: what is said of it.

    Raises:
        NotThere, NotAllowed, CannotRead, NoRoom: it cannot be read or kept.
    """
    content = content_of(path)
    if content.startswith(b"%PDF"):
        return _paper(media, path, content, words)
    try:
        made = photograph(content)
    except CannotRead as fault:
        raise CannotRead(f"{path.name}: {fault}") from fault
    digest = media.add(made.content, content_type="image/jpeg", name=path.name)
    item = paper_item(
        digest,
        content_type="image/jpeg",
        file=path.name,
        sort=_sort(words.sort or "photograph"),
        says=words.says or path.stem,
        date=made.taken,
        place=_place(made.place, grid),
    )
    return Ready(item=item, text=f"{path.name}: {made.width} by {made.height} pixels.")


def attach(document: Document, target: ItemId, ready: Sequence[Ready]) -> None:
    """Add papers to a thing, as one edit.

    Raises:
        EditRefused: the thing is no longer there.
    """
    papers = tuple(r.item for r in ready)
    document.apply(add_papers(document.plan, target, papers))


def attach_files(
    document: Document, media: Media, thing: ItemId, paths: Sequence[Path], words: Words
) -> tuple[Ready, ...]:
    """Read files and add them to a thing, all or none.

    Raises:
        PlanEditorError: a file cannot be read; nothing was changed.
    """
    grid = document.plan.grid
    ready = tuple(made_ready(media, grid, path, words) for path in paths)
    attach(document, thing, ready)
    return ready


def papers_shown(
    plan: Plan, chosen: Sequence[ItemId]
) -> tuple[ItemId | None, tuple[Item[Any], ...]]:
    """Return the one thing that is chosen, or that of the paper that is, and its papers."""
    things = {_thing_of(plan, i) for i in chosen} - {None}
    if len(things) != 1:
        return None, ()
    (thing,) = things
    return (thing, papers_of(plan, thing)) if thing is not None else (None, ())


def _thing_of(plan: Plan, item: ItemId) -> ItemId | None:
    found = plan.items.get(item)
    if found is None or found.kind.name != PAPER:
        return None if found is None else item
    target: ItemId | None = found.details.target
    return target


def _paper(media: Media, path: Path, content: bytes, words: Words) -> Ready:
    if len(content) > MOST_BYTES:
        raise CannotRead(
            f"{path.name} is larger than {MOST_BYTES // 1_000_000} MB. Nothing was changed."
            " Save it smaller and add that."
        )
    try:
        pages = probe(content).pages
    except CannotRead as fault:
        raise CannotRead(f"{path.name}: {fault}") from fault
    item = paper_item(
        media.add(content, content_type=PDF, name=path.name),
        content_type=PDF,
        file=path.name,
        sort=_sort(words.sort or "other paper"),
        says=words.says or path.stem,
    )
    return Ready(item=item, text=f"{path.name}: {pages} {'page' if pages == 1 else 'pages'}.")


def _sort(text: str) -> Any:
    found = next((s for s in SORTS if str(s) == text), None)
    if found is None:
        known = ", ".join(map(str, SORTS))
        raise CannotUse(f"“{text}” is no sort of paper. There are: {known}.")
    return found


def _place(lonlat: tuple[float, float] | None, grid: Grid) -> tuple[float, ...]:
    """Return where the camera was, to the decimetre; it knows that to some metres only."""
    if lonlat is None or grid.crs == LOCAL:
        return ()
    with suppress(PlanEditorError):  # a place that no way leads to is simply not noted
        there = crossed(np.array([lonlat]), source=WGS84, target=grid.crs)
        east, north = grid.to_plan(float(there.east[0]), float(there.north[0]))
        if max(abs(east), abs(north)) < FARTHEST:
            return round(east, 1), round(north, 1)
    return ()
