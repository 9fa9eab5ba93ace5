"""Thirty trees, and the well under one of them."""

from dataclasses import dataclass
from typing import Any

from shapely.geometry.base import BaseGeometry
from story import GNSS, TAPED, dice, made, numbered, point

from plan_editor.kinds import tree, well
from plan_editor.kinds.tree import TreeDetails
from plan_editor.kinds.well import WaterUse, WellDetails, WellSort
from plan_editor.plan.item import Basis, Item

WELL_M = 1.1
WELL = point(-39.5, 21.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """One tree: where it stands on the church's axes, its stems in millimetres, its crown."""

    species: str
    along: float
    aside: float
    stems_mm: tuple[float, ...]
    crown_m: float
    height_m: float
    veteran: bool = False
    old: bool = True

    @property
    def foot(self) -> BaseGeometry:
        """The ground under the stems, in metres about the plan's origin."""
        return point(self.along, self.aside).buffer(max(self.stems_mm) / 2000)


def _stand(
    species: str, along: float, aside: float, stems: tuple[float, ...], *size: float
) -> Stand:
    crown, height = size
    return Stand(
        species=species,
        along=along,
        aside=aside,
        stems_mm=stems,
        crown_m=crown,
        height_m=height,
        veteran=species == "yew" and max(stems) > 1500,
        old=max(stems) >= 280,
    )


STANDS = (
    _stand("yew", -14.6, -8.6, (1740.0,), 5.6, 11.5),
    _stand("yew", 16.2, -9.5, (1610.0, 420.0), 5.2, 10.5),
    _stand("Irish yew", -8.7, -32.0, (340.0,), 1.1, 7.0),
    _stand("Irish yew", -4.2, -32.0, (320.0,), 1.0, 7.0),
    _stand("Irish yew", -8.5, -24.0, (300.0, 180.0), 1.2, 7.5),
    _stand("Irish yew", -3.4, -24.0, (360.0,), 1.1, 7.5),
    _stand("common lime", -43.6, -16.5, (720.0,), 5.0, 19.0),
    _stand("common lime", -43.7, -8.8, (690.0,), 4.8, 19.0),
    _stand("common lime", -43.9, -1.2, (750.0,), 5.3, 20.0),
    _stand("common lime", -44.1, 6.4, (640.0,), 4.6, 18.0),
    _stand("common lime", 16.3, -32.4, (610.0,), 4.4, 17.0),
    _stand("common lime", 16.4, -23.5, (660.0,), 4.5, 18.0),
    _stand("common lime", 18.8, 10.6, (580.0,), 4.2, 17.0),
    _stand("pedunculate oak", -26.5, 34.2, (980.0,), 7.6, 18.0),
    _stand("ash", -9.0, 35.4, (560.0,), 5.4, 17.0),
    _stand("field maple", 2.6, 34.0, (310.0, 280.0), 3.6, 9.5),
    _stand("horse chestnut", 11.5, 26.0, (870.0,), 6.6, 17.0),
    _stand("beech", 26.5, 29.5, (930.0,), 7.4, 20.0),
    _stand("sycamore", 38.0, 31.0, (410.0, 360.0, 300.0), 5.6, 16.0),
    _stand("Scots pine", -40.6, 32.6, (520.0,), 3.6, 18.0),
    _stand("hawthorn", -44.3, 26.5, (140.0, 120.0, 110.0, 90.0), 2.3, 5.5),
    _stand("holly", -41.8, -24.6, (210.0, 170.0), 2.0, 7.0),
    _stand("elder", -44.6, -32.0, (130.0, 120.0, 110.0, 100.0, 90.0, 85.0), 2.2, 4.5),
    _stand("holly", 29.0, -34.2, (180.0,), 1.6, 6.0),
    _stand("silver birch", 43.6, -27.0, (230.0,), 2.7, 11.0),
    _stand("wild cherry", 43.9, -17.5, (260.0,), 3.0, 9.5),
    _stand("wild cherry", 44.0, -9.0, (220.0,), 2.6, 9.0),
    _stand("rowan", 42.8, 13.0, (170.0, 150.0), 2.1, 7.5),
    _stand("crab apple", 33.0, 17.5, (240.0,), 2.8, 6.5),
    _stand("silver birch", 21.5, 19.5, (190.0, 170.0, 160.0), 2.9, 11.0),
)


def trees(old: Basis) -> tuple[Item[Any], ...]:
    """Return the trees; those that stood in 1962 were traced."""
    chance = dice("trees")
    return tuple(
        numbered(
            f"T{n}",
            made(
                tree.KIND,
                f"{n}",
                point(stand.along, stand.aside),
                details=_details(stand, [chance.uniform(0.82, 1.22) for _ in range(4)]),
                basis=_basis(stand, old),
            ),
        )
        for n, stand in enumerate(STANDS, 1)
    )


def the_well(old: Basis) -> Item[Any]:
    """Return the well in the summer meadow."""
    return made(
        well.KIND,
        "well",
        WELL,
        details=WellDetails(
            name="St Elfric's well",
            sort=WellSort.WELL,
            use=WaterUse.NONE,
            diameter_m=WELL_M,
            water_m=2.4,
            measured="2025-09",
            covered=True,
            remarks="An iron grid, bolted down.",
        ),
        basis=old,
    )


def _basis(stand: Stand, old: Basis) -> Basis:
    if stand.veteran:
        return GNSS
    return old if stand.old else TAPED


def _details(stand: Stand, spread: list[float]) -> TreeDetails:
    north, east, south, west = (round(stand.crown_m * s * 2) / 2 for s in spread)
    return TreeDetails(
        species=stand.species,
        stems_mm=stand.stems_mm,
        crown_north_m=north,
        crown_east_m=east,
        crown_south_m=south,
        crown_west_m=west,
        height_m=stand.height_m,
        veteran=stand.veteran,
        remarks="Hollow; the largest stem was taped round in 2025." if stand.veteran else "",
    )
