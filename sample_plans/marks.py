"""Marks to measure from, each so described that a stranger can hold a tape to it."""

from typing import Any

from shapely import LineString, Point
from story import GNSS, TAPED, made, numbered, place, point
from yard import (
    EAST_GATE,
    EAST_OF_LYCHGATE,
    NORTH,
    PATH_M,
    SOUTH_EAST,
    SOUTH_WEST,
    WALL_M,
    WEST_OF_LYCHGATE,
)

from plan_editor.kinds import dimension, mark, note
from plan_editor.kinds.dimension import DimensionDetails
from plan_editor.kinds.mark import MarkDetails
from plan_editor.kinds.note import NoteDetails
from plan_editor.plan.item import Item

CHURCH_MARKS = {
    "SW corner of the tower, at the plinth": (-17.8, -0.3),
    "NW corner of the tower, at the plinth": (-17.8, 6.3),
    "SW corner of the porch, at the ground": (-7.0, -5.6),
    "SE corner of the porch, at the ground": (-3.2, -5.6),
    "SE corner of the nave, foot of the buttress": (5.0, -2.9),
    "SE corner of the chancel, foot of the buttress": (14.5, -1.2),
    "NE corner of the chancel, foot of the buttress": (14.5, 7.2),
    "NW corner of the nave": (-10.5, 8.2),
}
"""Corners of masonry, on the church's axes."""

_HALF = WALL_M / 2
WALL_MARKS = {
    "Inside of the corner of the south and west walls": (
        SOUTH_WEST[0] + _HALF,
        SOUTH_WEST[1] + _HALF,
    ),
    "W gatepost of the lychgate, inner corner": WEST_OF_LYCHGATE,
    "E gatepost of the lychgate, inner corner": EAST_OF_LYCHGATE,
    "Cut cross on the coping, E end of the south wall": SOUTH_EAST,
    "N post of the east gate": EAST_GATE[1],
    "N end of the west wall, inner corner": NORTH[-1],
}
"""Ends and corners of walls, metres about the plan's origin."""


def marks() -> tuple[Item[Any], ...]:
    """Return the marks: M1 to M8 round the church, the others on the walls."""
    places = [(words, place(*at)) for words, at in CHURCH_MARKS.items()]
    places += list(WALL_MARKS.items())
    return tuple(
        numbered(
            f"M{n}",
            made(
                mark.KIND,
                str(n),
                Point(at),
                details=MarkDetails(description=words, checked="2025-09-06"),
                basis=GNSS,
            ),
        )
        for n, (words, at) in enumerate(places, 1)
    )


def words() -> tuple[Item[Any], ...]:
    """Return the notes and the dimension on the plan."""
    told = {
        "porch": ("Sill of the porch: level 10.00", -12.2, -6.2),
        "extension": ("Taken in from the glebe, 1951", 21.5, 5.6),
    }
    across = LineString([place(-6.45 - PATH_M / 2, -29.0), place(-6.45 + PATH_M / 2, -29.0)])
    return (
        *(
            made(
                note.KIND,
                key,
                point(along, aside),
                details=NoteDetails(text=text, height_mm=2.0),
                basis=TAPED,
            )
            for key, (text, along, aside) in told.items()
        ),
        made(
            dimension.KIND,
            "main path",
            across,
            details=DimensionDetails(feet=True),
            basis=TAPED,
        ),
    )
