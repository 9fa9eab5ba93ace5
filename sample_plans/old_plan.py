"""The plan of 1962 as it lies under the ground: its scan, and the points it was placed by."""

from dataclasses import replace
from random import Random
from typing import Any

import numpy as np
from ageing import scanned
from graves import Space, spaces
from marks import CHURCH_MARKS, WALL_MARKS
from paper import PIXELS, to_scan
from story import dice, place
from survey_1962 import drawn
from whole import OLD_PLAN
from yard import EAST, NORTH, SOUTH, WEST

from plan_editor.edits.base_plans import scan_item
from plan_editor.plan.item import Item
from plan_editor.survey.fits.models import Control

FILE = "harrowmere-1962.jpg"

Place = tuple[float, float]
"""East and north, in metres about the plan's origin."""

CLICK_PIXELS = 0.8
"""Standard deviation of a click on the scan, each way, where the scan is looked at closely."""

SD_M = 0.045
"""Of a point: measured by satellite to 30 mm, clicked to 0.8 pixels of 41 mm."""

BENDS = {
    "S wall": SOUTH[3],
    "E railing": EAST[3],
    "NE corner": NORTH[0],
    "hedge 1": NORTH[1],
    "hedge 2": NORTH[2],
    "hedge 3": NORTH[3],
    "hedge 4": NORTH[4],
    "W wall": WEST[1],
}
"""Where walls, railing and hedge bend: drawn then, and there still."""

BOTH_ENDS = "ACEGJLNPRTU"
"""Rows of which the last grave was measured as well as the first."""


def scan() -> bytes:
    """Return the scan as a JPEG file."""
    return scanned(drawn())


def unplaced(digest: str) -> Item[Any]:
    """Return the base plan's item before it is placed."""
    across, down = PIXELS
    item = scan_item("Plan of 1962", digest, width=across, height=down)
    details = replace(
        item.details,
        source="Drawn for the parochial church council; scanned at 150 dots to the inch",
        date="1962",
        copyright="© Parochial Church Council of St Elfric, Harrowmere",
        reproducible=True,
    )
    return replace(item, id=OLD_PLAN, details=details)


def clicked() -> tuple[Control, ...]:
    """Return the points that it was placed by, as a steady hand clicked them.

    One spring morning they were all measured: the marks, the bends of walls and hedge, and
    kerbs at the ends of the old rows.
    """
    chance = dice("clicks")
    return tuple(_clicked(name, at, chance) for name, at in _known().items())


def _known() -> dict[str, Place]:
    marked = (*(place(*at) for at in CHURCH_MARKS.values()), *WALL_MARKS.values())
    known = {f"M{n}": at for n, at in enumerate(marked, 1)}
    rows: dict[str, list[Space]] = {}
    for space in spaces():
        if space.in_1962:
            rows.setdefault(space.row.letter, []).append(space)
    for letter, row in rows.items():
        for space in (row[0], row[-1]) if letter in BOTH_ENDS else (row[0],):
            known[space.number] = space.rectangle.corners()[0]
    return known | BENDS


def _clicked(name: str, at: Place, chance: Random) -> Control:
    east, north = at
    right, down = to_scan(np.array([east]), np.array([north]))
    return Control(
        x=round(float(right[0]) + chance.gauss(0.0, CLICK_PIXELS), 1),
        y=round(float(down[0]) + chance.gauss(0.0, CLICK_PIXELS), 1),
        east=round(east, 3),
        north=round(north, 3),
        sd=SD_M,
        name=name,
    )
