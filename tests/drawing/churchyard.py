"""An invented churchyard, made anew for each test: St Ŵyne, Ashby Parva (no such place)."""

from dataclasses import replace
from typing import Any

import numpy as np
from shapely import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import Basis, Item, Method, Status, new_item
from plan_editor.plan.kind import kind_named
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.grids.grid import Grid

NAME = "St Ŵyne, Ashby Parva"

_TRACED = Basis(method=Method.TRACED, source="the plan of 1962", date="1962", sd_m=0.3)
_TAPED = Basis(method=Method.TAPED, source="field book 3", date="2026-03-14", sd_m=0.04)


def made(
    kind_name: str,
    place: BaseGeometry | Rectangle | None = None,
    *,
    number: str = "",
    basis: Basis | None = None,
    **details: Any,
) -> Item[Any]:
    """Return an item of a kind by its name, with some of its details."""
    kind = kind_named(kind_name)
    assert kind is not None
    return new_item(
        kind, place, details=kind.details(**details), number=number, basis=basis or _TAPED
    )


def grave(number: str, east: float, north: float, **details: Any) -> Item[Any]:
    """Return a grave with its head to the west, 1.0 by 2.2 m, from its south-west corner."""
    place = Rectangle(east=east, north=north, width=1.0, length=2.2)
    return made("grave", place, number=number, **details)


def stone(number: str, on: Item[Any], **details: Any) -> Item[Any]:
    """Return a headstone at the head of a grave, read from the west."""
    assert on.rectangle is not None
    head = on.rectangle
    place = Rectangle(east=head.east + 0.02, north=head.north + 0.1, width=0.8, length=0.18)
    return made("memorial", place, number=number, grave=on.id, **details)


def churchyard(rows: int = 12, spaces: int = 18) -> Plan:
    """Return a churchyard of about 84 by 62 m with rows of graves, and what belongs to it."""
    items = [*_ground(), *_meadows(), *_trees(), *_furniture()]
    graves = _graves(rows, spaces)
    stones = [
        stone(f"M {g.number}", g, height_m=0.6 + 0.15 * (n % 7))
        for n, g in enumerate(graves)
        if n % 3 == 0 and str(g.details.state) == "occupied"
    ]
    unsafe = [s for n, s in enumerate(stones) if n % 9 == 4]
    inspections = [
        made("inspection", target=s.id, date="2026-04-02", result=_result("IMMEDIATE"))
        for s in unsafe
    ]
    return plan_of(
        [*items, *graves, *stones, *inspections],
        name=NAME,
        grid=Grid(crs="EPSG:27700", east=553000.0, north=421000.0),
        revision=7,
    )


def _result(name: str) -> Any:
    kind = kind_named("inspection")
    assert kind is not None
    result = next(d for d in kind.entries() if d.name == "result")
    return next(c for c in result.choices if c.name == name)


def _choice(kind_name: str, detail: str, name: str) -> Any:
    kind = kind_named(kind_name)
    assert kind is not None
    found = next(d for d in kind.entries() if d.name == detail)
    return next(c for c in found.choices if c.name == name)


def _ground() -> list[Item[Any]]:
    outline = [(0, 0), (78, -3), (84, 30), (80, 58), (40, 62), (2, 57), (-3, 28)]
    church = Polygon([(34, 26), (46, 26), (46, 24), (50, 24), (50, 26), (62, 26), (62, 27.5),
                      (68, 27.5), (68, 33.5), (62, 33.5), (62, 35), (34, 35), (34, 33.5),
                      (28, 33.5), (28, 27.5), (34, 27.5)])  # fmt: skip
    return [
        made("boundary", Polygon(outline)),
        made("building", church, name="St Ŵyne’s church"),
        made("building", box(70, 50, 75, 54), name="Shed"),
        made("wall", LineString([(2, 57), (-3, 28), (0, 0), (40, -1.5)]), width_m=0.45),
        made("wall", LineString([(43, -1.6), (78, -3), (84, 30)]), width_m=0.45),
        made("gate", Point(41.5, -1.55), name="Lych gate"),
        made("fence", LineString([(84, 30), (80, 58)])),
        made("hedge", LineString([(80, 58), (40, 62), (2, 57)]), width_m=1.4),
        made("path", LineString([(41.5, -1), (41.5, 12), (46, 20), (48, 24)]), width_m=1.8),
        made(
            "path", LineString([(46, 20), (24, 23), (24, 40), (40, 44), (72, 44)]), width_m=1.2
        ),
        made("drain", LineString([(69, 40), (76, 30), (80, 10), (78, -3)])),
        made(
            "service",
            LineString([(43, -1.6), (50, 24)]),
            sort=_choice("service", "sort", "ELECTRICITY"),
        ),
        made("section", box(-1, 2, 39, 22), name="A"),
    ]


def _meadows() -> list[Item[Any]]:
    def grass(regime: str, shape: BaseGeometry, until: str = "", name: str = "") -> Item[Any]:
        return made(
            "grass",
            shape,
            regime=_choice("grass", "regime", regime),
            uncut_until=until,
            name=name,
        )

    return [
        grass(
            "SUMMER",
            Polygon([(3, 46), (36, 48), (38, 59), (4, 55)]),
            "2026-07-20",
            "Glebe corner",
        ),
        grass("SPRING", Polygon([(70, 4), (78, 4), (80.5, 22), (71, 22)]), "2026-06-15"),
        grass("ROUGH", Polygon([(66, 47), (69, 47), (69, 57), (60, 58), (60, 50)])),
        grass("BY_HAND", box(27, 36, 68, 38)),
        grass("SHORT", Polygon([(1, 2), (39, 1), (39, 22), (0, 22)])),
        grass("SHORT", Polygon([(44, 2), (68, 1), (68, 20), (46, 19)])),
    ]


def _trees() -> list[Item[Any]]:
    def tree(east: float, north: float, species: str, stem: float, spread: float) -> Item[Any]:
        return made(
            "tree",
            Point(east, north),
            species=species,
            stems_mm=(stem,),
            crown_north_m=spread,
            crown_east_m=spread * 1.2,
            crown_south_m=spread * 0.8,
            crown_west_m=spread,
            veteran=stem > 1500,
        )

    return [
        tree(20, 30, "Yew", 1650, 5.5),
        tree(76, 47, "Oak", 900, 6.0),
        tree(8, 50, "Lime", 520, 3.8),
        tree(58, 57, "Field maple", 310, 2.6),
        tree(74, 8, "Holly", 180, 1.5),
    ]


def _furniture() -> list[Item[Any]]:
    return [
        made("bench", Point(30, 42)),
        made("tap", Point(44, 21)),
        made("bin", Point(43.6, 1)),
        made("mark", Point(34, 35), number="C1"),
        made("mark", Point(0.6, 0.8), number="W1"),
        made("mark", Point(77, -2), number="W2"),
        made("notice_board", Point(39.5, 0)),
        made("spot_level", Point(50, 15), level_m=42.31),
    ]


def _graves(rows: int, spaces: int) -> list[Item[Any]]:
    states = [_choice("grave", "state", n) for n in ("OCCUPIED", "FREE", "RESERVED", "CLOSED")]
    chosen = np.random.default_rng(7).choice(4, size=rows * spaces, p=(0.8, 0.1, 0.06, 0.04))
    graves: list[Item[Any]] = []
    for row in range(rows):
        for space in range(spaces):
            east = 2.0 + 2.9 * row if row < 12 else 44.5 + 2.9 * (row - 12)
            north = 2.6 + 1.15 * (space % 16) if space < 16 else 41.5 + 1.15 * (space - 16)
            state = states[int(chosen[len(graves)])]
            details = {"dug": "2026-05"} if (row, space) == (3, 4) else {}
            name = f"{chr(65 + row % 26)} {space + 1}"
            graves.append(grave(name, east, north, state=state, **details))
    return graves


def with_status(item: Item[Any], status: Status) -> Item[Any]:
    """Return an item that is proposed, or to be removed."""
    return replace(item, status=status)
