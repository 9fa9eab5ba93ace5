"""Grass: two meadows, a rough corner, what is trimmed by hand, and short grass for the rest."""

from typing import Any

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from story import COMPUTED, TAPED, area, made, place
from trees import WELL, WELL_M
from yard import NORTH, RING, WALL_M, church, lychgate, paved, round_path

from plan_editor.kinds import grass, visit, zone
from plan_editor.kinds.grass import GrassDetails, Regime
from plan_editor.kinds.visit import VisitDetails
from plan_editor.kinds.zone import ZoneDetails, ZoneSort
from plan_editor.plan.item import Item

COLLAR_M = 1.2
"""How far round the well grass is trimmed by hand."""

_SUMMER = [(-19.5, 60), (-19.0, 24), (-22.0, 13.5), (-30.0, 9.6), (-60, 9.8), (-60, 60)]
_SPRING = [(18.0, 60), (19.5, 24), (17.5, 15.0), (24.0, 8.5), (37.0, 7.6), (60, 9.0), (60, 60)]
_ROUGH = [(-60, -21), (-44.5, -22.0), (-40.0, -27.5), (-39.0, -60), (-60, -60)]


def lawns() -> tuple[Item[Any], ...]:
    """Return every piece of grass, none over another; paths and buildings are left out."""
    green = RING.buffer(-WALL_M / 2) - LineString(NORTH).buffer(1.1)
    green -= shapely.union_all([church(), lychgate(), paved()])
    well = WELL.buffer(WELL_M / 2)
    collar = WELL.buffer(WELL_M / 2 + COLLAR_M) - well
    strip = Polygon(round_path()) - church() - paved()
    by_hand = shapely.union_all([collar, well, strip])
    kept = (
        _grass("summer", _within(green, _SUMMER) - by_hand, _SUMMER_REST),
        _grass("spring", _within(green, _SPRING) - by_hand, _SPRING_REST),
        _grass("rough", _within(green, _ROUGH), _UNCUT),
        _grass("strip", strip, _hand("By the church walls")),
        _grass("collar", collar, _hand("Round the well")),
    )
    rest = green - shapely.union_all([by_hand, *(g.shape for g in kept)])
    pieces = [p for p in shapely.get_parts(rest) if p.area > 2.0]
    pieces.sort(key=lambda p: -p.area)
    return (*kept, *(_short(n, piece) for n, piece in enumerate(pieces, 1)))


def wildlife() -> Item[Any]:
    """Return the zone that is left to wildlife: the rough corner and its surroundings."""
    inside = RING.buffer(-WALL_M / 2) & area(*_ROUGH).buffer(0.4)
    return made(
        zone.KIND,
        "wildlife",
        inside,
        details=ZoneDetails(
            sort=ZoneSort.WILDLIFE,
            name="Hedgehogs and slow-worms",
            set_by="Minute of the parochial church council, March 2021",
            since="2021-03",
        ),
        basis=TAPED,
    )


def visits() -> tuple[Item[Any], ...]:
    """Return this year's mowing sessions up to the day of the story."""
    told = {
        "2026-03-28": (6, 4.5, 6.0, 2.0),
        "2026-04-18": (5, 4.0, 5.5, 0.0),
        "2026-05-09": (7, 4.0, 6.5, 1.5),
    }
    return tuple(
        made(
            visit.KIND,
            day,
            details=VisitDetails(
                date=day,
                people=people,
                mowing_h=mowing,
                trimming_h=trimming,
                raking_h=raking,
                machine="0.53 m push mower, two trimmers",
            ),
        )
        for day, (people, mowing, trimming, raking) in told.items()
    )


_SUMMER_REST = GrassDetails(
    regime=Regime.SUMMER,
    name="Summer meadow",
    uncut_from="2026-04-01",
    uncut_until="2026-07-20",
    remarks="Cut once, high; leave the hay three days, then carry it off.",
)
_SPRING_REST = GrassDetails(
    regime=Regime.SPRING,
    name="Spring meadow",
    uncut_from="2026-02-01",
    uncut_until="2026-06-10",
    remarks="Bulbs and cowslips. Mown from June to October.",
)
_UNCUT = GrassDetails(
    regime=Regime.ROUGH, name="Rough corner", remarks="A third of it is cut each February."
)


def _hand(name: str) -> GrassDetails:
    return GrassDetails(regime=Regime.BY_HAND, name=name)


def _within(green: BaseGeometry, corners: list[tuple[float, float]]) -> BaseGeometry:
    # what a mower leaves has no sharp corners
    curved = Polygon([place(*c) for c in corners]).buffer(-4.0).buffer(4.0)
    pieces: list[BaseGeometry] = list(shapely.get_parts(green & curved))
    return max(pieces, key=lambda piece: piece.area)


def _grass(key: str, shape: BaseGeometry, details: GrassDetails) -> Item[Any]:
    return made(grass.KIND, key, shape.simplify(0.01), details=details, basis=TAPED)


def _short(n: int, piece: BaseGeometry) -> Item[Any]:
    return made(
        grass.KIND,
        f"short {n}",
        piece.simplify(0.01),
        details=GrassDetails(regime=Regime.SHORT),
        basis=COMPUTED,
    )
