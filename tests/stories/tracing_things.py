"""Tracing what the scan shows beside graves: walls, church, lychgate, paths, vault, trees.

Walls and paths are drawn as areas, along the lines by which the surveyor drew them. The middle
of the well is not inked, so it is no place to click, and the well is left.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from fittings import VAULT
from old_paper import pixels
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from tracing_graves import GraveTracer
from trees import STANDS
from yard import (
    PATH_M,
    ROUND_M,
    SOUTH,
    WALL_M,
    WEST,
    church,
    lychgate,
    main_path,
    round_path,
)

from plan_editor.plan.kind import Form, kind_named

INK_PX = 8.0
"""So far from where a thing truly is the line is looked for by which it is drawn."""

EVEN_M = 0.04
"""A curve is clicked so that its chords are off by less than this."""

Place = Sequence[float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing of the yard: what it is, and where it truly is."""

    kind: str
    shape: BaseGeometry


def things() -> Iterator[Thing]:
    """Return what the scan shows beside graves."""
    for run in (SOUTH[:2], SOUTH[2:], WEST):
        wall = LineString(run).buffer(WALL_M / 2, cap_style="flat", join_style="mitre")
        yield Thing(kind="wall", shape=wall)
    yield Thing(kind="building", shape=church())
    yield Thing(kind="building", shape=lychgate())
    for run, width in ((main_path(), PATH_M), (round_path(), ROUND_M)):
        yield Thing(kind="path", shape=run.buffer(width / 2, cap_style="flat"))
    yield Thing(kind="vault", shape=VAULT.outline())
    for stand in STANDS:
        if stand.old:
            yield Thing(kind="tree", shape=stand.foot.centroid)


def trace_things(tracer: GraveTracer) -> tuple[str, ...]:
    """Trace them all, and return lines that say how far each lies from where it truly is."""
    before = tracer.hand.effort.clicks, tracer.hand.effort.keys
    off: dict[str, list[float]] = {}
    for thing in things():
        off.setdefault(thing.kind, []).append(trace_thing(tracer, thing))
    lines = [
        f"{kind:<9} {len(far):>2}: farthest off {max(far):.2f} m, half {np.median(far):.2f} m"
        for kind, far in off.items()
    ]
    clicks = tracer.hand.effort.clicks - before[0]
    keys = tracer.hand.effort.keys - before[1]
    return (*lines, f"for these: {clicks} clicks, {keys} keys")


def trace_thing(tracer: GraveTracer, thing: Thing) -> float:
    """Trace one thing; return how far its outline lies from the true one at most, in metres."""
    kind = kind_named(thing.kind)
    assert kind is not None
    there = set(tracer.session.document.plan.items)
    tracer.choose_to_draw(kind.title)
    if thing.kind in {"wall", "path"}:
        _as_an_area(tracer)
    if not isinstance(thing.shape, Polygon):
        _click(tracer, thing.shape.coords)
    elif thing.kind == "vault":
        _click(tracer, VAULT.corners()[:3])
    else:
        _trace_area(tracer, thing.shape)
    tracer.hand.press(Qt.Key.Key_Escape)
    items = tracer.session.document.plan.items
    (made,) = (item for number, item in items.items() if number not in there)
    return float(shapely.hausdorff_distance(made.shape, thing.shape, densify=0.02))


def _trace_area(tracer: GraveTracer, area: Polygon) -> None:
    _click(tracer, _corners(area.exterior))
    tracer.hand.press(Qt.Key.Key_Return)
    for ring in area.interiors:
        tracer.hand.press(Qt.Key.Key_H)
        _click(tracer, _corners(ring))
        tracer.hand.press(Qt.Key.Key_Return)


def _as_an_area(tracer: GraveTracer) -> None:
    forms = tracer.panel.sections["drawing"].forms
    forms.setFocus()
    for _ in range(forms.findData(Form.AREA) - forms.currentIndex()):
        QTest.keyClick(forms, Qt.Key.Key_Down)
        tracer.hand.effort.keys += 1
    tracer.hand.effort.keys += 1  # Tab, from the list


def _click(tracer: GraveTracer, places: Iterable[Place]) -> None:
    """Click where these are inked; between the dashes of a line nobody clicks."""
    for pixel in pixels([(p[0], p[1]) for p in places]):
        try:
            tracer.paper.ink_near((pixel[0], pixel[1]), INK_PX)
        except LookupError:
            continue
        tracer.click(pixel, INK_PX)


def _corners(ring: BaseGeometry) -> Sequence[Place]:
    return list(shapely.simplify(ring, EVEN_M).coords)[:-1]
