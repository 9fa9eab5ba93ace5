"""The plan of 1962 as it lies under the ground: its scan, and the points it was placed by."""

from dataclasses import replace
from random import Random
from typing import Any

import numpy as np
from ageing import scanned
from marks import CHURCH_MARKS, WALL_MARKS
from paper import PIXELS, to_scan
from story import dice, place
from survey_1962 import drawn
from whole import OLD_PLAN

from plan_editor.edits.base_plans import scan_item
from plan_editor.plan.item import Item
from plan_editor.survey.models import Control

FILE = "harrowmere-1962.jpg"
CLICK_PIXELS = 1.2
"""Standard deviation of a click on the scan, each way."""

_CLICKED = (
    "NW corner of the tower, at the plinth",
    "SE corner of the chancel, foot of the buttress",
    "Inside of the corner of the south and west walls",
    "Cut cross on the coping, E end of the south wall",
    "N end of the west wall, inner corner",
    "N post of the east gate",
)


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
    """Return the points that it was placed by, as a steady hand clicked them."""
    known = {words: place(*at) for words, at in CHURCH_MARKS.items()} | WALL_MARKS
    chance = dice("clicks")
    return tuple(_clicked(*known[words], chance) for words in _CLICKED)


def _clicked(east: float, north: float, chance: Random) -> Control:
    right, down = to_scan(np.array([east]), np.array([north]))
    return Control(
        x=round(float(right[0]) + chance.gauss(0.0, CLICK_PIXELS), 1),
        y=round(float(down[0]) + chance.gauss(0.0, CLICK_PIXELS), 1),
        east=round(east, 3),
        north=round(north, 3),
    )
