"""The ground itself: boundary, walls, hedge, church, gates, paths."""

from functools import cache
from math import cos, radians, sin
from typing import Any

import shapely
from shapely import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import substring
from story import GNSS, TAPED, made, place, placed, rounded_off

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import boundary, building, fence, gate, hedge, path, steps, wall
from plan_editor.kinds.boundary import BoundaryDetails, Open
from plan_editor.kinds.building import BuildingDetails
from plan_editor.kinds.fence import FenceDetails, FenceSort
from plan_editor.kinds.gate import GateDetails, GateSort
from plan_editor.kinds.hedge import HedgeDetails
from plan_editor.kinds.path import PathDetails
from plan_editor.kinds.steps import StepsDetails
from plan_editor.kinds.wall import WallDetails
from plan_editor.plan.item import Basis, Item

WALL_M = 0.45
SOUTH_WEST = (2.2, 1.4)
_ALONG = (sin(radians(91.0)), cos(radians(91.0)))
WEST_OF_LYCHGATE = (SOUTH_WEST[0] + 40.0 * _ALONG[0], SOUTH_WEST[1] + 40.0 * _ALONG[1])
"""The south wall runs 40 m from the corner to the lychgate, as straight as a wall can."""

EAST_OF_LYCHGATE = (WEST_OF_LYCHGATE[0] + 3.4, 0.66)
SOUTH_EAST = (93.4, 4.6)
SOUTH = [SOUTH_WEST, WEST_OF_LYCHGATE, EAST_OF_LYCHGATE, (69.5, 1.35), SOUTH_EAST]
EAST_GATE = ((95.30, 36.6), (95.33, 37.8))
EAST = [SOUTH_EAST, *EAST_GATE, (95.2, 55.0), (93.6, 73.2)]
NORTH = [(93.6, 73.2), (79.0, 76.6), (58.0, 78.9), (31.0, 79.8), (14.0, 78.2), (3.1, 75.4)]
WEST = [(3.1, 75.4), (0.9, 37.5), SOUTH_WEST]
RING = Polygon([*SOUTH[:-1], *EAST[:-1], *NORTH[:-1], *WEST[:-1]])
"""The middle line of walls, hedge and railing."""

PATH_M, ROUND_M, EAST_M = 1.8, 1.2, 1.5


_ROOMS = (
    box(-17.0, -0.3, -10.4, 6.3),
    box(-10.5, -2.2, 5.0, 8.2),
    box(4.9, -0.6, 14.5, 6.6),
    box(-7.0, -5.6, -3.2, -2.1),
)
"""Tower, nave, chancel and south porch on the church's axes, without buttresses."""


@cache
def church() -> Polygon:
    """Return the outside of the church: tower, nave, chancel, south porch and buttresses."""
    buttresses = (
        *(box(-17.8, v, -16.9, v + 0.8) for v in (-0.3, 5.5)),
        *(box(u, v, u + 0.8, v + 0.9) for u in (-16.9, -12.0) for v in (-1.0, 6.1)),
        *(box(u, v, u + 0.6, v + 0.8) for u in (-1.2, 4.4) for v in (-2.9, 8.1)),
        *(box(u, v, u + 0.6, v + 0.7) for u in (9.5, 13.9) for v in (-1.2, 6.5)),
    )
    return Polygon(shapely.get_coordinates(placed(shapely.union_all([*_ROOMS, *buttresses]))))


@cache
def lychgate() -> Polygon:
    """Return the outside of the lychgate's roof."""
    east, north = WEST_OF_LYCHGATE
    return box(east - 0.05, north - 0.28, east + 3.45, north + 2.5)


@cache
def main_path() -> LineString:
    """Return the middle of the path from the lychgate to the porch."""
    east = (WEST_OF_LYCHGATE[0] + EAST_OF_LYCHGATE[0]) / 2
    corners = [(east, 0.7), (east + 0.1, 7.0), (44.9, 14.0), (43.1, 23.0), place(-5.1, -8.6)]
    return LineString([*rounded_off(corners), place(-5.1, -5.6)])


@cache
def round_path() -> LineString:
    """Return the middle of the path round the church, beginning before the porch."""
    wide = placed(shapely.union_all(_ROOMS)).buffer(2.2, join_style="mitre")
    eased = wide.buffer(1.5).buffer(-3.0).buffer(1.5, quad_segs=4)
    ring = Polygon(eased.exterior).exterior
    start = ring.project(Point(place(-5.1, -7.8)))
    first, last = substring(ring, 0, start), substring(ring, start, ring.length)
    return LineString([*last.coords, *first.coords[1:]])


@cache
def east_path() -> LineString:
    """Return the middle of the path from the chancel to the east gate."""
    (e0, n0), (e1, n1) = EAST_GATE
    gate_middle = ((e0 + e1) / 2 - 0.1, (n0 + n1) / 2)
    corners = [place(16.2, 2.6), place(22.0, 2.9), place(33.0, 1.0), (88.0, 37.3), gate_middle]
    return LineString(rounded_off(corners, 2))


@cache
def paved() -> BaseGeometry:
    """Return the ground under all paths."""
    return shapely.union_all(
        [
            main_path().buffer(PATH_M / 2, cap_style="flat"),
            round_path().buffer(ROUND_M / 2),
            east_path().buffer(EAST_M / 2, cap_style="flat"),
        ]
    )


def enclosure(old: Basis) -> tuple[Item[Any], ...]:
    """Return boundary, walls, hedge, railing and gates."""
    stone = WallDetails(
        width_m=WALL_M,
        height_m=1.3,
        material="limestone rubble, stone coping",
        kept_by="Parochial church council",
    )
    runs = {"south": SOUTH[:2], "south-east": SOUTH[2:], "west": WEST}
    return (
        made(
            boundary.KIND,
            "yard",
            RING.buffer(0.25, join_style="mitre"),
            details=BoundaryDetails(
                burials=Open.OPEN,
                kept_by="Parochial church council",
                remarks="The eastern part was taken in from the glebe in 1951.",
            ),
            basis=GNSS,
        ),
        *(
            made(wall.KIND, key, LineString(run), details=stone, basis=TAPED)
            for key, run in runs.items()
        ),
        _hedge(),
        *_railings(),
        *_gates(),
        *_buildings(old),
    )


def _hedge() -> Item[Any]:
    inside = LineString(NORTH).parallel_offset(0.5, "left", join_style="mitre")
    return made(
        hedge.KIND,
        "north",
        inside,
        details=HedgeDetails(
            width_m=1.2,
            height_m=1.6,
            species="hawthorn, field maple, dog rose",
            cut="January, every other year",
            kept_by="Parochial church council",
        ),
        basis=TAPED,
    )


def _railings() -> tuple[Item[Any], ...]:
    iron = FenceDetails(sort=FenceSort.RAILING, height_m=1.1, material="wrought iron")
    runs = {"south of gate": EAST[:2], "north of gate": EAST[2:]}
    return tuple(
        made(fence.KIND, key, LineString(run), details=iron, basis=TAPED)
        for key, run in runs.items()
    )


def _gates() -> tuple[Item[Any], ...]:
    return (
        made(
            gate.KIND,
            "lychgate",
            LineString([WEST_OF_LYCHGATE, EAST_OF_LYCHGATE]),
            details=GateDetails(
                name="Lychgate",
                sort=GateSort.LYCHGATE,
                clear_width_m=1.9,
                remarks="Two leaves.",
            ),
            basis=TAPED,
        ),
        made(
            gate.KIND,
            "east gate",
            LineString(EAST_GATE),
            details=GateDetails(name="East gate", sort=GateSort.HAND, clear_width_m=1.1),
            basis=TAPED,
        ),
    )


def _buildings(old: Basis) -> tuple[Item[Any], ...]:
    return (
        made(
            building.KIND,
            "church",
            church(),
            details=BuildingDetails(
                name="St Elfric",
                use="church",
                height_m=18.5,
                remarks="18.5 m is the tower's parapet; the nave's ridge stands 11 m high.",
            ),
            basis=GNSS,
        ),
        made(
            building.KIND,
            "lychgate",
            lychgate(),
            details=BuildingDetails(name="Lychgate", use="gate with a roof", height_m=4.2),
            basis=old,
        ),
    )


def ways(old: Basis) -> tuple[Item[Any], ...]:
    """Return the paths and steps."""
    flags = PathDetails(width_m=PATH_M, surface="stone flags", name="Main path", public=True)
    gravel = PathDetails(width_m=ROUND_M, surface="gravel", name="Round the church")
    tar = PathDetails(width_m=EAST_M, surface="tarmac", name="East path")
    (east, north), _ = EAST_GATE
    tread = Rectangle(east=east - 1.35, north=north, width=1.2, length=1.05, bearing_deg=1.0)
    return (
        made(path.KIND, "main", main_path(), details=flags, basis=old),
        made(path.KIND, "round", round_path(), details=gravel, basis=TAPED),
        made(path.KIND, "east", east_path(), details=tar, basis=TAPED),
        made(
            steps.KIND,
            "east gate",
            tread,
            details=StepsDetails(count=3, rise_mm=150.0, handrail=True, material="concrete"),
            basis=TAPED,
        ),
    )
