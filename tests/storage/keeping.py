"""What the tests of storage share: a plan's file to begin with, and things to put on it."""

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

AT_SEA = Grid(crs="EPSG:27700", east=456_000.0, north=218_000.0)
"""A place of the British National Grid, in whole metres."""


def graves(count: int, first: int = 1) -> tuple[Item[Any], ...]:
    """Return graves in a row, numbered."""
    return tuple(
        new_item(
            grave.KIND,
            Rectangle(east=2.0 * n, north=1.5, width=1.22, length=2.74, bearing_deg=7.5),
            number=f"G {n}",
        )
        for n in range(first, first + count)
    )


def made(path: Path, items: Iterable[Item[Any]] = (), grid: Grid = AT_SEA) -> Path:
    """Write a plan with these items and return its path."""
    with PlanFile.create(path, name="St Elfric", grid=grid) as file:
        document = Document(file.plan, journal=file, author="test")
        document.apply(Add(tuple(items)))
        file.save()
    return path
