"""Make the mowing map: one page."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import shapely

from plan_editor.drawing.areas import area_ink
from plan_editor.drawing.backdrop import Backdrop
from plan_editor.drawing.compose import Group, grouped
from plan_editor.drawing.compose import compose as composed
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.ink import Clipped, Ink, Stroke
from plan_editor.drawing.key_panel import key_panel
from plan_editor.drawing.labels import Obstacles, Wish, place
from plan_editor.drawing.legend import HIGH, WIDE, Entry, entries
from plan_editor.drawing.page import Sizes
from plan_editor.drawing.panel import Panel, headed, paragraphs, words
from plan_editor.drawing.schedule import Column, Table, table_panel
from plan_editor.drawing.tones import pale
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.zones import RUST, ringed, zone_entries, zone_ground, zone_ink
from plan_editor.ground.clearance import Zone, zones
from plan_editor.ground.rules import Purpose
from plan_editor.kinds import cordon, grass, grave, memorial, tree
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Kind
from plan_editor.plan.look import Hatch, Look, Pattern, Pen
from plan_editor.plan.plan import Plan
from plan_editor.printing.plan_page import Drawn, PlanPage, choose, first_page
from plan_editor.printing.sheet import Asked, Printed
from plan_editor.printing.usual import (
    acknowledgements,
    block,
    extent_of,
    north_and_scale,
    remarks_on,
    shown,
    under,
    underlays,
)
from plan_editor.records.safety import unsafe

SETTLING_MONTHS = 12
"""How long a grave settles after it was dug; custom of the trade, six to twelve months."""

_MOSS = "#44662F"
_FRESH = Look(
    pen=Pen(width=0.35, colour="#8A6410"),
    hatch=Hatch(pattern=Pattern.CROSSED, spacing=1.2, pen=Pen(width=0.18, colour="#8A6410")),
)
_MOST = 30
_TOLD_APART = {grave.KIND.name, memorial.KIND.name, tree.KIND.name}
_MEADOWS = {grass.Regime.SPRING, grass.Regime.SUMMER, grass.Regime.ROUGH}

_CAUTIONS = (
    "Keep out of the hatched zones, also on foot. A leaning stone may fall without warning; "
    "a knock or a machine’s shaking may bring it down. Only trained people test memorials.",
    "Machines throw stones and wire: keep everybody else 15 m away (makers’ manuals), and stop "
    "when somebody comes nearer.",
    "Leave 0.3 m round every stone to trim by hand; no string trimmer against stone or bark.",
    "A stone looks worse than this map says: keep away and tell the churchwarden.",
)
_DEFER = (
    "What the diocese, the local authority, the insurer and the machine’s maker ask for goes "
    "before this map."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """What the map tells.

    Args:
        items: everything drawn.
        zones: to keep out of.
        resting: grass that is left uncut until a date after the map's.
        by_hand: grass that is trimmed by hand only.
        other: meadow without a date.
        mown: all other grass.
        fresh: graves dug within the last year.
        barriers: as they stand on the ground.
        backdrops: base plans under it.
    """

    date: str
    items: tuple[Item[Any], ...]
    zones: tuple[Zone, ...]
    resting: tuple[Item[grass.GrassDetails], ...]
    by_hand: tuple[Item[grass.GrassDetails], ...]
    other: tuple[Item[grass.GrassDetails], ...]
    mown: tuple[Item[grass.GrassDetails], ...]
    fresh: tuple[Item[grave.GraveDetails], ...]
    barriers: tuple[Item[cordon.CordonDetails], ...]
    backdrops: tuple[Backdrop, ...]

    @property
    def marked(self) -> tuple[Item[Any], ...]:
        """What is drawn in full strength."""
        return (*self.resting, *self.other, *self.by_hand, *self.barriers)


def compose(plan: Plan, asked: Asked, backdrops: tuple[Backdrop, ...]) -> Printed:
    """Return the mowing map.

    Raises:
        CannotPrint: it does not fit; the text says which scale or paper would.
    """
    kept, refused = under(plan, asked, backdrops)
    told = _told(plan, asked, kept)
    title = _title(told)
    page = PlanPage(
        headline=(title, f"{plan.name} · mowing map of {in_words(asked.date)}".strip(" ·")),
        block=block(plan, asked, title=title, document="Mowing map", prefix="MOWING"),
        extent=_extent(told),
        panels=lambda scale, width, sizes: _panels(plan, told, scale, width, sizes),
        draw=lambda viewport: _drawn(told, viewport),
        good=500.0,
    )
    chosen = choose(page, asked)
    first, remarks = first_page(page, chosen, 1)
    return Printed(
        title=f"{title} – {plan.name}" if plan.name else title,
        paper=chosen.paper,
        scale=chosen.scale,
        pages=(first,),
        remarks=(*remarks, *refused, *remarks_on((first,))),
    )


def _told(plan: Plan, asked: Asked, backdrops: tuple[Backdrop, ...]) -> _Told:
    lawn = tuple(plan.of(grass.KIND))
    resting = tuple(i for i in lawn if _rests(i.details, asked.date))
    by_hand = tuple(i for i in lawn if i.details.regime is grass.Regime.BY_HAND)
    other = tuple(i for i in lawn if _undated(i.details))
    told = {i.id for i in (*resting, *by_hand, *other)}
    return _Told(
        date=asked.date,
        items=shown(plan),
        zones=zones(plan, unsafe(plan, on=asked.date), purpose=Purpose.MACHINE),
        resting=resting,
        by_hand=tuple(i for i in by_hand if i not in resting),
        other=other,
        mown=tuple(i for i in lawn if i.id not in told),
        fresh=tuple(g for g in plan.of(grave.KIND) if _settles(g.details.dug, asked.date)),
        barriers=tuple(plan.of(cordon.KIND)),
        backdrops=backdrops,
    )


def _undated(details: grass.GrassDetails) -> bool:
    return details.regime in _MEADOWS and not (details.uncut_from or details.uncut_until)


def _rests(details: grass.GrassDetails, date: str) -> bool:
    begun = not details.uncut_from or details.uncut_from <= date
    return begun and bool(details.uncut_until) and _last_day(details.uncut_until) > date


def _last_day(date: str) -> str:
    # "2026-07" rests through July
    return date + "9999-12-31"[len(date) :] if len(date) < len("2026-07-20") else date


def _settles(dug: str, date: str) -> bool:
    if not dug or dug > date:
        return False
    months = (int(date[:4]) - int(dug[:4])) * 12 + _month(date) - _month(dug)
    return months <= SETTLING_MONTHS


def _month(date: str) -> int:
    # a grave dug in a year without a month may have been dug in its last
    return int(date[5:7] or 12)


def _title(told: _Told) -> str:
    dates = [i.details.uncut_until for i in told.resting]
    return f"Where not to mow until {in_words(max(dates))}" if dates else "Where not to mow"


def _extent(told: _Told) -> tuple[float, float, float, float] | None:
    found = extent_of(told.items)
    if found is None or not told.zones:
        return found
    bounds = np.array([found, *(z.shape.bounds for z in told.zones)])
    low, high = bounds[:, :2].min(axis=0), bounds[:, 2:].max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def _drawn(told: _Told, viewport: Viewport) -> Drawn:
    marked = {i.id for i in told.marked}
    quiet = grouped(i for i in told.items if i.id not in marked)
    beneath = [g for g in quiet if g.kind.order <= grass.KIND.order]
    above = [g for g in quiet if g.kind.order > grass.KIND.order]
    stones = tuple(k for z in told.zones for k in z.kept_from)
    shapes = [z.shape for z in told.zones]
    labels = place(
        (*_numbers(told, viewport), *_until(told, viewport)),
        _clear_of(stones, viewport),
        viewport.frame,
    )
    over = (*ringed([k.footprint for k in stones], viewport), *labels.ink)
    ink: tuple[Ink, ...] = (
        *underlays(told.backdrops, viewport),
        *composed(beneath, viewport, _quiet),
        *composed(grouped(told.marked), viewport),
        _framed(zone_ground(shapes, viewport), viewport),
        *composed(above, viewport, _quiet),
        _framed(zone_ink(shapes, viewport), viewport),
        _framed(_fresh(told, viewport), viewport),
        _framed(over, viewport),
    )
    return Drawn(ink=ink, remarks=_left_out(labels.left_out))


def _quiet(kind: Kind, look: Look) -> Look | None:
    # what a grave space may be used for is nothing to a mower
    del look
    return None if kind.figure else pale(kind, kind.look)


def _left_out(texts: Sequence[str]) -> tuple[str, ...]:
    if not texts:
        return ()
    return (f"There was no room to write: {', '.join(texts)}.",)


def _framed(ink: tuple[Ink, ...], viewport: Viewport) -> Clipped:
    return Clipped(box=viewport.frame, ink=ink)


def _fresh(told: _Told, viewport: Viewport) -> tuple[Ink, ...]:
    if not told.fresh:
        return ()
    shapes = viewport.shapes([g.shape for g in told.fresh])
    return area_ink(shapes, _FRESH, np.array([], dtype=object))


def _numbers(told: _Told, viewport: Viewport) -> list[Wish]:
    """Return the number of each unsafe stone, in a box."""
    wishes = []
    for zone in told.zones:
        for kept in zone.kept_from:
            shape = viewport.shape(kept.footprint)
            x, y = float(shape.centroid.x), float(shape.centroid.y)
            wish = Wish(
                text=kept.item.number or "no number",
                places=np.zeros((0, 2)),
                target=(x, y),
                size=2.3,
                bold=True,
                colour=RUST,
                boxed=True,
            )
            half = np.array(wish.extent) / 2
            ways = np.array(
                [(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)]
            )
            wishes.append(_at(wish, (x, y) + ways * (half + 3.0)))
    return wishes


def _at(wish: Wish, places: Any) -> Wish:
    return replace(wish, places=places)


def _until(told: _Told, viewport: Viewport) -> list[Wish]:
    """Return the day until which each piece of grass is left, in the middle of it."""
    wishes = []
    for item in told.resting:
        shape = viewport.shape(item.shape) if item.shape is not None else shapely.Point()
        point = shape.representative_point()
        steps = np.array([(0, 0), (0, 5), (0, -5), (8, 0), (-8, 0)])
        wishes.append(
            Wish(
                text=f"uncut until {in_words(item.details.uncut_until)}",
                places=np.array([(point.x, point.y)]) + steps,
                target=(float(point.x), float(point.y)),
                size=2.6,
                bold=True,
                colour=_MOSS,
                boxed=True,
            )
        )
    return wishes


def _clear_of(stones: Sequence[Any], viewport: Viewport) -> Obstacles:
    shapes = viewport.shapes([k.footprint for k in stones])
    around = shapely.buffer(shapes, 1.5) if len(shapes) else np.array([], dtype=object)
    return Obstacles(open=np.array([], dtype=object), solid=around)


def _panels(
    plan: Plan, told: _Told, scale: float, width: float, sizes: Sizes
) -> tuple[Panel, ...]:
    made = [
        north_and_scale(plan, scale, width, sizes),
        key_panel(_key(told), width, size=sizes.body, head=sizes.head),
    ]
    if told.zones:
        made.append(_zones_panel(told, width, sizes))
    if told.resting or told.by_hand or told.other or told.mown:
        made.append(_areas_panel(told, width, sizes))
    cautions = (*_CAUTIONS, *_by_rule(told), _DEFER, *acknowledgements(told.backdrops))
    made.append(paragraphs("Mind", cautions, width, size=sizes.body, head=sizes.head))
    return tuple(made)


def _key(told: _Told) -> tuple[Entry, ...]:
    zone = zone_entries() if told.zones else ()
    fresh = (_fresh_entry(),) if told.fresh else ()
    marked = {i.id for i in told.marked}
    quiet = grouped(i for i in told.items if i.id not in marked)
    few = [g for g in quiet if g.kind.name in _TOLD_APART]
    rest = len(few) < len([g for g in quiet if g.kind != grass.KIND])
    return (
        *zone,
        *fresh,
        *entries(grouped(told.marked)),
        *entries(_one_look(few), _quiet),
        *((_grey_entry(),) if rest else ()),
    )


def _grey_entry() -> Entry:
    line = np.array([(-WIDE / 2, 0.0), (WIDE / 2, 0.0)])
    look = pale(grass.KIND, Look())
    pen = (look.pen if look else None) or Pen()
    return Entry(
        text="Grey: other things on the ground", sample=(Stroke(lines=(line,), pen=pen),)
    )


def _one_look(groups: Sequence[Group]) -> tuple[Group, ...]:
    """Return one group of each kind, with its plain line in the key."""
    return tuple({g.kind.name: replace(g, when=None) for g in groups}.values())


def _fresh_entry() -> Entry:
    room = shapely.box(-WIDE / 2 + 1.5, -HIGH / 2 + 0.6, WIDE / 2 - 1.5, HIGH / 2 - 0.6)
    sample = area_ink(np.array([room], dtype=object), _FRESH, np.array([], dtype=object))
    return Entry(text="Fresh grave, still settling: no machine on it", sample=sample)


def _zones_panel(told: _Told, width: float, sizes: Sizes) -> Panel:
    total = sum(z.area_m2 for z in told.zones)
    each = [
        f"{' + '.join(k.item.number or 'no number' for k in z.kept_from)} ({z.area_m2:.0f} m²)"
        for z in told.zones
    ]
    stones = sum(len(z.kept_from) for z in told.zones)
    listed = (
        f"{stones} stones; their numbers stand in boxes on the map."
        if stones > _MOST
        else f"{'; '.join(each)}."
    )
    heading = f"Keep out: {total:.0f} m² round unsafe stones"
    return headed(heading, (words(listed, width, size=sizes.body),), width, size=sizes.head)


def _areas_panel(told: _Told, width: float, sizes: Sizes) -> Panel:
    rows = [
        (f"{_name(i)}: uncut until {in_words(i.details.uncut_until)}", _area(i))
        for i in told.resting
    ]
    rows += [(_by_hand(i), _area(i)) for i in told.by_hand]
    rows += [(f"{_name(i)}: no date recorded, ask first", _area(i)) for i in told.other]
    rows += [(_mown(i, told.date), _area(i)) for i in told.mown]
    table = Table(
        heading="Grass",
        columns=(Column(title="Piece", share=3.2), Column(title="m²", share=1.0, figures=True)),
        rows=tuple(_merged(rows)),
        note="",
    )
    return table_panel(table, width, size=sizes.body)


def _merged(rows: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
    totals: dict[str, float] = {}
    for what, area in rows:
        totals[what] = totals.get(what, 0.0) + float(area)
    return [(what, f"{area:.0f}") for what, area in totals.items()]


def _name(item: Item[grass.GrassDetails]) -> str:
    when = grass.KIND.when(item.details)
    return item.details.name or (when.legend if when else grass.KIND.legend)


def _mown(item: Item[grass.GrassDetails], date: str) -> str:
    told = item.details
    if told.uncut_from > date:
        return f"{_name(item)}: mow; rests from {in_words(told.uncut_from)}"
    if told.uncut_until:
        return f"{_name(item)}: to be cut since {in_words(told.uncut_until)}"
    return "Mow short"


def _by_hand(item: Item[grass.GrassDetails]) -> str:
    name = item.details.name
    return f"{name}: trim by hand only" if name else "Trim by hand only"


def _area(item: Item[grass.GrassDetails]) -> str:
    return f"{item.shape.area:.2f}" if item.shape is not None else "0"


def _by_rule(told: _Told) -> tuple[str, ...]:
    """Return on whose word the zones rest, and what was assumed."""
    rules = {z.rule.name: z.rule for z in told.zones}
    lines = [r.source for r in rules.values()]
    assumed = [k for z in told.zones for k in z.kept_from if k.assumed]
    if assumed:
        numbers = ", ".join(k.item.number or "no number" for k in assumed[:8])
        more = f" and {len(assumed) - 8} more" if len(assumed) > 8 else ""
        tall = dict(next(iter(rules.values())).assume).get("height_m", 0.0)
        lines.append(f"Height not recorded, taken as {tall:g} m: {numbers}{more}.")
    return tuple(lines)
