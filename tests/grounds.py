"""Invented churchyards of any size: graves in rows, stones, walls, paths, trees, a scan."""

from math import cos, sin, sqrt, tau
from pathlib import Path
from random import Random
from typing import Any

import numpy as np
from shapely import LineString, Point, Polygon

from plan_editor.desktop.canvas.base_plan_item import Under
from plan_editor.geometry.mappings import Straight
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.base_plans import Laid
from plan_editor.kinds import grass, grave, memorial, path, tree, wall
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.scans.resampling import NorthUp
from plan_editor.scans.shelf import Frame, put_on_shelf
from plan_editor.scans.tiles import open_tiles

ACROSS, DOWN = 3.1, 1.6
"""From grave to grave, in metres."""

ZONES = 20
PER_LINE, PER_TREE, PER_STONE = 50, 25, 4


def churchyard(graves: int, seed: int = 1) -> Plan:
    """Return a plan with so many graves, and lines, trees and stones in proportion."""
    random = Random(seed)  # noqa: S311  # a picture, not a secret
    side = sqrt(graves * ACROSS * DOWN)
    items: list[Item[Any]] = list(_grass(random, side))
    items += [_line(random, side, i) for i in range(graves // PER_LINE)]
    items += _graves(random, graves, side)
    items += [_tree(random, side) for _ in range(graves // PER_TREE)]
    return plan_of(items, name="Nether Wallow")


def under(shelf: Path, *, metres: float, width: int = 6000, height: int = 4200) -> Under:
    """Return a grey scan, written to a folder, that lies north up over so many metres."""
    frame = Frame(width=width, height=height, scale=1, colour=False)
    grain = Random(7)  # noqa: S311
    strips = (_strip(grain, bottom - top, width) for top, bottom in frame.strips())
    folder = shelf / "scan"
    assert put_on_shelf(folder, frame, strips, progress=lambda _: None, cancelled=lambda: False)
    side = metres / width
    east, south = metres - 5.0, 5.0 - side * height
    content = NorthUp(
        pyramid=open_tiles(folder),
        west=-5.0,
        north=5.0,
        metres_per_pixel=side,
        outline=((-5.0, 5.0), (east, 5.0), (east, south), (-5.0, south)),
    )
    laid = Laid(
        item=ItemId("0" * 32),
        name="1962",
        is_scan=True,
        digest="",
        mapping=Straight((side, 0.0, -5.0, 0.0, -side, 5.0)),
        opacity=1.0,
        shown=True,
        reproducible=False,
        acknowledgement="",
    )
    return Under(laid=laid, content=content)


def _strip(grain: Random, rows: int, columns: int) -> np.ndarray[Any, np.dtype[np.uint8]]:
    paper = np.full((rows, columns), 235, dtype=np.uint8)
    paper[:, :: grain.randrange(40, 90)] = 120
    paper[:: grain.randrange(40, 90)] = 90
    return paper


def _graves(random: Random, count: int, side: float) -> list[Item[Any]]:
    columns = max(1, int(side / ACROSS))
    states = [*grave.State, grave.State.OCCUPIED, grave.State.OCCUPIED]
    items: list[Item[Any]] = []
    for i in range(count):
        east, north = i % columns * ACROSS, -(i // columns) * DOWN
        lies = Rectangle(
            east=east,
            north=north,
            width=1.1,
            length=2.2,
            bearing_deg=random.uniform(-3, 3) % 360,
        )
        state = random.choice(states)
        items.append(
            new_item(
                grave.KIND,
                lies,
                details=grave.GraveDetails(state=state),
                number=f"{chr(65 + i // 5000)} {i % 5000 + 1}",
            )
        )
        if i % PER_STONE == 0:
            stone = Rectangle(east=east - 0.2, north=north + 0.1, width=0.8, length=0.15)
            items.append(new_item(memorial.KIND, stone))
    return items


def _line(random: Random, side: float, i: int) -> Item[Any]:
    east, north, way = random.uniform(0, side), -random.uniform(0, side), random.uniform(0, tau)
    places = [(east, north)]
    for _ in range(19):
        way += random.uniform(-0.4, 0.4)
        east, north = east + 2 * cos(way), north + 2 * sin(way)
        places.append((east, north))
    return new_item((wall.KIND, path.KIND)[i % 2], LineString(places))


def _tree(random: Random, side: float) -> Item[Any]:
    details = tree.TreeDetails(species="yew", crown_north_m=random.uniform(1, 4))
    place = Point(random.uniform(0, side), -random.uniform(0, side))
    return new_item(tree.KIND, place, details=details)


def _grass(random: Random, side: float) -> list[Item[Any]]:
    kept = []
    for i in range(ZONES):
        east, north = random.uniform(0, side), -random.uniform(0, side)
        size = side * random.uniform(0.1, 0.3)
        ring = [
            (east + size * cos(a) * f, north + size * sin(a) * f)
            for a, f in ((tau * k / 30, random.uniform(0.8, 1.0)) for k in range(30))
        ]
        regime = list(grass.Regime)[i % 5]
        kept.append(
            new_item(grass.KIND, Polygon(ring), details=grass.GrassDetails(regime=regime))
        )
    return kept
