"""Make the visitor's slip: one page."""

from typing import Any

import shapely

from plan_editor.drawing.page import Sizes
from plan_editor.drawing.panel import Panel, headed, paragraphs, words
from plan_editor.errors import CannotPrint
from plan_editor.ground.clearance import Zone, zones
from plan_editor.ground.rules import Purpose
from plan_editor.ground.walking import Way, way_to
from plan_editor.ground.way_words import in_words as told_way
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.printing.plan_page import PlanPage, printed
from plan_editor.printing.quiet_map import Numbered, QuietMap, drawn
from plan_editor.printing.sheet import Asked, Paper, Printed, Supplied
from plan_editor.printing.usual import (
    Extent,
    acknowledgements,
    block,
    north_and_bar,
    shown,
    under,
    underlays,
)
from plan_editor.records.resting import named, place_of, resting_at, row_told
from plan_editor.records.safety import unsafe

Headed = tuple[tuple[str, tuple[str, ...]], ...]
"""Headings, and the lines under each."""

_ROUND_M = 6.0

_CAUTIONS = (
    "The ground is uneven: graves sink, kerbs and roots lie hidden in the grass. Take care, "
    "and keep to the paths where you can.",
    "Keep away from stones that are fenced off or hatched here, and do not lean on any stone.",
    "The plan shows what is recorded; the place of an old grave may be less sure than it "
    "looks.",
)
_NOBODY = "No burial is entered for it yet."
_NO_WAY = (
    "No way was found: the plan has neither gate, boundary nor path from which to walk there, "
    "or it is walled in."
)


def compose(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the slip of one grave, stone or entry.

    Raises:
        CannotPrint: it has no place on the plan, or does not fit.
    """
    kept, refused = under(plan, asked, supplied.backdrops)
    thing, place = _thing(plan, asked)
    kept_off = zones(plan, unsafe(plan, on=asked.date), purpose=Purpose.PEOPLE)
    way = way_to(plan, place.id, [z.shape for z in kept_off])
    about = _map(plan, place, way, kept_off)
    told = _told(plan, thing, place, way)
    extent = _extent(place, way)
    middle = ((extent[0] + extent[2]) / 2, (extent[1] + extent[3]) / 2)
    cautions = (*_CAUTIONS, *acknowledgements(kept))
    title = place.called()
    page = PlanPage(
        headline=(title, plan.name),
        block=block(plan, asked, title=title, document="Visitor's slip", prefix="SLIP"),
        extent=extent,
        panels=lambda scale, width, sizes: (
            *_large(told, width, sizes),
            north_and_bar(plan, middle, scale, width, sizes),
            paragraphs("Mind", cautions, width, size=sizes.body, head=sizes.head),
        ),
        draw=lambda viewport: drawn(about, viewport, underlays(kept, viewport)),
        will_do=lambda _: True,
        papers=(Paper.A4,),
        remarks=refused,
    )
    return printed(plan, page, asked)


def _thing(plan: Plan, asked: Asked) -> tuple[Item[Any], Item[Any]]:
    thing = None if asked.item is None else plan.items.get(asked.item)
    if thing is None:
        raise CannotPrint("A slip is of one grave, stone or entry. Nothing was printed.")
    place = place_of(plan, thing.id)
    if place is None:
        raise CannotPrint(
            f"{thing.called()} has no place on the plan yet. Nothing was printed. Say in which"
            " grave it belongs first."
        )
    return thing, place


def _map(plan: Plan, place: Item[Any], way: Way | None, kept_off: tuple[Zone, ...]) -> QuietMap:
    return QuietMap(
        items=shown(plan),
        marked=(place,),
        numbered=(Numbered(shape=place.lies, text=place.number or place.called(), boxed=True),),
        zones=tuple(z.shape for z in kept_off),
        ringed=tuple(k.footprint for z in kept_off for k in z.kept_from),
        ways=(way.places,) if way else (),
        size_mm=2.6,
    )


def _told(plan: Plan, thing: Item[Any], place: Item[Any], way: Way | None) -> Headed:
    """Return headings, and the lines under each."""
    names = tuple(map(named, resting_at(plan, thing.id))) or (_NOBODY,)
    if way is None:
        return (("Who rests here", names), ("The way", (_NO_WAY,)))
    grave = getattr(place.details, "grave", None) or place.id
    row = row_told(plan, grave) if grave in plan.items else ""
    lines = (*told_way(way), *((row,) if row else ()), *way.assumed)
    return (
        ("Who rests here", names),
        (f"The way: about {max(1, round(way.length_m))} m", lines),
    )


def _large(told: Headed, width: float, sizes: Sizes) -> tuple[Panel, ...]:
    size = sizes.body * 1.15
    return tuple(
        headed(head, [words(line, width, size=size) for line in lines], width, size=sizes.head)
        for head, lines in told
    )


def _extent(place: Item[Any], way: Way | None) -> Extent:
    """Return the ground that is shown: the way and a little round it."""
    shapes = [place.lies, *([shapely.LineString(way.places)] if way else [])]
    e0, n0, e1, n1 = shapely.union_all(shapes).bounds
    return e0 - _ROUND_M, n0 - _ROUND_M, e1 + _ROUND_M, n1 + _ROUND_M
