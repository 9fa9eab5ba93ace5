"""Photographs and papers written out of a plan."""

from pathlib import Path
from typing import Any

from plan_editor.errors import NotAllowed
from plan_editor.exchange.whole import written_whole
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.media import Kept
from plan_editor.plan.plan import Plan
from plan_editor.records.papers import papers_of


def write_papers(plan: Plan, media: Kept, thing: ItemId, folder: Path) -> tuple[Path, ...]:
    """Write the photographs and papers of a thing into a folder and return their files.

    Nothing that is there is replaced.

    Raises:
        NotAllowed, NoRoom: a file could not be written.
        DamagedPlan: the bytes of one are gone.
    """
    papers = papers_of(plan, thing)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise NotAllowed(
            f"{folder} is no folder that can be written: {fault.strerror}. Nothing was written."
        ) from fault
    return tuple(write_paper(p, media, _free(folder / file_name(p))) for p in papers)


def write_paper(item: Item[Any], media: Kept, path: Path) -> Path:
    """Write one photograph or paper to a file and return the file.

    Raises:
        NotAllowed, NoRoom: it could not be written.
        DamagedPlan: its bytes are gone.
    """
    content = media.read(item.details.digest)
    with written_whole(path) as beside:
        beside.write_bytes(content)
    return path


def file_name(item: Item[Any]) -> str:
    """Return what to call the file of a paper: its own name, of letters that any disk takes."""
    suffix = {"image/jpeg": ".jpg", "application/pdf": ".pdf"}.get(
        item.details.content_type, ""
    )
    stem = Path(item.details.file).stem or "paper"
    safe = "".join(c if c.isalnum() or c in " -_" else "-" for c in stem).strip()[:80]
    return f"{safe or 'paper'}{suffix}"


def _free(path: Path) -> Path:
    tried, number = path, 2
    while tried.exists():
        tried = path.with_stem(f"{path.stem} {number}")
        number += 1
    return tried
