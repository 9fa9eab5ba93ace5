"""A scan that says itself where it lies: placed by that where it can be, else said why not."""

from pathlib import Path
from typing import Any

from plan_editor.edits.georeferenced import as_referenced
from plan_editor.errors import CannotRead, EditRefused
from plan_editor.plan.item import Item
from plan_editor.scans.facts import ScanFacts
from plan_editor.scans.referencing import (
    LARGEST_WORLD_FILE,
    Reference,
    read_tags,
    read_world_file,
    world_file_names,
)
from plan_editor.survey.grids.grid import Grid

UNPLACED = "It is not placed yet"
_TAGS = "GeoTIFF tags"


def placed_by_itself(
    item: Item[Any], content: bytes, path: Path, facts: ScanFacts, grid: Grid
) -> tuple[Item[Any], str]:
    """Return a scan, placed where its file says so, and a sentence about that.

    Tags within the file count before a world file beside it. The system of a world file is not
    told; it is taken for the plan's where the scan then lies near the plan's origin.

    Args:
        item: the scan, not placed.
        content: of its file.
        path: where the file is; a world file is looked for beside it.
        facts: of the scan.
        grid: of the plan.
    """
    try:
        found, by = _reference(content, path, facts)
    except CannotRead as fault:
        return item, f"{UNPLACED}. Its world file is not used: {fault}."
    if found is None:
        return item, f"{UNPLACED}."
    if why_not := _another_system(found, grid):
        return item, f"{UNPLACED}: {why_not}."
    told = f"It is placed by its {by}"
    if found.epsg is None:
        told += ", whose coordinates are taken for the plan's own"
    try:
        return as_referenced(item, found.fit, grid), f"{told}."
    except EditRefused:
        return item, (
            f"{UNPLACED}: by its {by} it would lie more than 100 km from the plan's origin, or "
            "be too small to see."
        )


def _reference(content: bytes, path: Path, facts: ScanFacts) -> tuple[Reference | None, str]:
    if (found := read_tags(content, facts)) is not None:
        return found, _TAGS
    beside = _world_file(path) if facts.format != "PDF" and facts.page == 1 else None
    if beside is None:
        return None, ""
    try:
        with beside.open("rb") as file:
            lines = file.read(LARGEST_WORLD_FILE + 1)
    except OSError as fault:
        raise CannotRead(f"{beside.name} cannot be opened ({fault.strerror})") from fault
    return read_world_file(lines, facts), f"world file {beside.name}"


def _world_file(picture: Path) -> Path | None:
    """Return the world file beside a picture, whatever the case of its letters."""
    try:
        beside = {p.name.lower(): p for p in sorted(picture.parent.iterdir()) if p.is_file()}
    except OSError:  # a folder may be closed, and its files open
        return None
    wanted = (beside.get(name.lower()) for name in world_file_names(picture))
    return next((path for path in wanted if path is not None), None)


def _another_system(found: Reference, grid: Grid) -> str:
    """Return why its coordinates are none of the plan's; nothing where they may be."""
    if found.nameless:
        return "its coordinates are of a system that its file does not name by a number"
    if found.epsg is None or found.epsg == grid.epsg:
        return ""
    plans = "a local grid" if grid.epsg is None else grid.crs
    return f"its coordinates are of EPSG:{found.epsg}, and the plan's of {plans}"
