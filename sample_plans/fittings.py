"""What stands about: water, services, seats, levels, the parish's figures."""

from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry
from story import HEAD_LINE_DEG, HEARSAY, TAPED, area, line, made, numbered, place, point
from yard import RING

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    bench,
    bin,  # noqa: A004 - the kind is called what the trade calls it
    drain,
    light,
    notice_board,
    parish,
    section,
    service,
    spot_level,
    tap,
    vault,
)
from plan_editor.kinds.bench import BenchDetails
from plan_editor.kinds.bin import BinDetails, Takes
from plan_editor.kinds.drain import DrainDetails, DrainSort
from plan_editor.kinds.light import LightDetails, Stands
from plan_editor.kinds.notice_board import NoticeBoardDetails
from plan_editor.kinds.parish import ParishDetails
from plan_editor.kinds.section import SectionDetails
from plan_editor.kinds.service import FoundBy, ServiceDetails, ServiceSort
from plan_editor.kinds.spot_level import SpotLevelDetails
from plan_editor.kinds.tap import TapDetails
from plan_editor.kinds.vault import Construction, State, VaultDetails
from plan_editor.plan.item import Basis, Item


def _rectangle(along: float, aside: float, width: float, length: float) -> Rectangle:
    east, north = place(along, aside)
    return Rectangle(
        east=east, north=north, width=width, length=length, bearing_deg=HEAD_LINE_DEG
    )


HEAP = _rectangle(-45.4, -29.6, 3.0, 1.8)
"""The bay for grass and leaves, in the rough corner."""

VAULT = _rectangle(6.4, 11.4, 2.4, 3.2)
"""The brick vault north of the chancel."""

_TAP = (-3.0, -30.5)
_WATER = line((-4.6, -35.0), (-3.4, -33.0), _TAP)
_CABLE = line((49.0, 0.9), (34.0, 3.0), (22.5, 4.6), (14.6, 4.2))
_DRAIN = line((17.9, -33.5), (17.6, -16.0), (18.0, 1.0), (28.0, 6.4), (49.0, 10.4))


def services_ground() -> BaseGeometry:
    """Return the ground that pipes, cables and drains take up, with a hand's breadth."""
    return shapely.union_all([x.buffer(0.4) for x in (_WATER, _CABLE, _DRAIN)])


def underground() -> tuple[Item[Any], ...]:
    """Return the drain and the buried services."""
    return (
        made(
            drain.KIND,
            "east",
            _DRAIN & RING,
            details=DrainDetails(
                sort=DrainSort.FIELD,
                depth_m=0.75,
                bore_mm=100.0,
                leads_to="the ditch beyond the railing",
                remarks="Seen when grave U 20 was dug; the rest of its line is guessed.",
            ),
            basis=HEARSAY,
        ),
        made(
            service.KIND,
            "water",
            _WATER & RING,
            details=ServiceDetails(
                sort=ServiceSort.WATER, found_by=FoundBy.SEEN, depth_m=0.75, owner="the parish"
            ),
            basis=TAPED,
        ),
        made(
            service.KIND,
            "electricity",
            _CABLE & RING,
            details=ServiceDetails(
                sort=ServiceSort.ELECTRICITY,
                found_by=FoundBy.RECORDS,
                depth_m=0.6,
                owner="the electricity network",
                remarks="From the owner's records only. Have it located before anybody digs.",
            ),
            basis=Basis(source="The owner's records, 2019", date="2019", sd_m=1.0),
        ),
    )


def the_vault(old: Basis) -> Item[Any]:
    """Return the brick vault north of the chancel."""
    return numbered(
        "Chancel",
        made(
            vault.KIND,
            "1",
            VAULT,
            details=VaultDetails(
                state=State.CLOSED,
                construction=Construction.CHAMBER,
                coffins=8,
                depth_m=2.6,
                cover_m=0.4,
                entrance="A slab at the east end, under 0.3 m of earth.",
                sealed="1871",
                remarks="No machine over it: the roof has never been looked at.",
            ),
            basis=old,
        ),
    )


def seats_and_bins() -> tuple[Item[Any], ...]:
    """Return benches, bins, tap, lights and the notice board."""
    oak = BenchDetails(material="oak")
    return (
        made(bench.KIND, "porch", point(-1.6, -7.2), details=oak, basis=TAPED),
        made(bench.KIND, "ashes", point(12.6, -6.4), details=oak, basis=TAPED),
        made(
            bench.KIND,
            "meadow",
            point(-21.0, 10.8),
            details=BenchDetails(material="oak", fixed=False),
            basis=TAPED,
        ),
        made(
            tap.KIND,
            "tap",
            point(*_TAP),
            details=TapDetails(
                fed_by="the main", winter="Turned off at the lychgate in November."
            ),
            basis=TAPED,
        ),
        made(
            bin.KIND,
            "lychgate",
            point(-9.2, -34.0),
            details=BinDetails(takes=Takes.FLOWERS, emptied_by="The mowing team"),
            basis=TAPED,
        ),
        made(bin.KIND, "heap", HEAP, details=BinDetails(takes=Takes.COMPOST), basis=TAPED),
        made(
            notice_board.KIND,
            "lychgate",
            point(-3.6, -34.6),
            details=NoticeBoardDetails(
                says="Times of services. Whom to ask about a grave.",
                kept_by="The churchwardens",
            ),
            basis=TAPED,
        ),
        made(
            light.KIND,
            "porch",
            point(-2.9, -5.3),
            details=LightDetails(
                stands=Stands.BUILDING, height_m=2.6, switched="By a clock", fed_from="Church"
            ),
            basis=TAPED,
        ),
        made(
            light.KIND,
            "east path",
            point(30.0, 3.2),
            details=LightDetails(
                stands=Stands.POST,
                height_m=3.0,
                switched="At dusk",
                fed_from="The cable beside it",
            ),
            basis=TAPED,
        ),
    )


def levels() -> tuple[Item[Any], ...]:
    """Return spot levels above the sill of the porch, which is called 10.00."""
    spots = (
        (-5.1, -6.6), (-19.2, 2.6), (-40.0, -14.0), (-38.0, 8.5), (-36.0, 34.5), (-14.0, 30.0),
        (10.5, 20.0), (30.0, 24.0), (42.5, 20.0), (44.0, 1.8), (17.2, -13.5), (43.2, -33.0),
        (1.0, -35.2), (-22.5, -35.3),
    )  # fmt: skip
    return tuple(
        made(
            spot_level.KIND,
            str(n),
            point(along, aside),
            details=SpotLevelDetails(level_m=_level(along, aside), datum="porch sill, 10.00"),
            basis=TAPED,
        )
        for n, (along, aside) in enumerate(spots, 1)
    )


def _level(along: float, aside: float) -> float:
    # the ground falls gently to the north-east; the church stands on a low rise
    rise = 0.55 * 0.985 ** (along**2 / 12 + (aside - 3) ** 2 / 6)
    level: float = 9.42 + rise - 0.017 * along - 0.012 * (aside + 6.6)
    return round(level, 2)


def sections() -> tuple[Item[Any], ...]:
    """Return the two parts into which the register divides the ground."""
    inside = RING.buffer(-0.3)
    beyond = area((18.2, -60.0), (18.2, 60.0), (78.2, 60.0), (78.2, -60.0))
    # on whole millimetres, or the one keeps a hair along the edge of the other
    east = shapely.intersection(inside, beyond, grid_size=0.001)
    west = shapely.difference(inside, beyond, grid_size=0.001)
    told = {
        "old": ("Old churchyard", "", west, "Rows A to T."),
        "extension": (
            "Extension",
            "1952",
            east,
            "Rows U to Z; taken in from the glebe in 1951.",
        ),
    }
    return tuple(
        made(
            section.KIND,
            key,
            shape,
            details=SectionDetails(name=name, opened=opened, remarks=remarks),
            basis=TAPED,
        )
        for key, (name, opened, shape, remarks) in told.items()
    )


def figures() -> Item[Any]:
    """Return the parish's own figures; what is not said here is common practice."""
    return made(
        parish.KIND,
        "figures",
        details=ParishDetails(
            name="St Elfric, Harrowmere",
            enquiries="Parish office, Church Lane, Harrowmere\nTelephone 01632 960417",
            memorial_materials="Limestone, sandstone, York stone, slate, granite",
            mowing_m2_h=620.0,
            minutes_a_stone=1.6,
            mowing_source="Own sessions of 2025: 14 visits, hours noted each time.",
            new_graves_a_year=1.1,
            remarks="Invented for this sample; enter your own diocese's regulations.",
        ),
    )
