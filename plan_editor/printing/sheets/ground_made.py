"""Make the plan of the ground: one page with the plan, then schedules."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from plan_editor.drawing.backdrop import Backdrop
from plan_editor.drawing.compose import Group, grouped, protected
from plan_editor.drawing.compose import compose as composed
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.grid import grid_ticks
from plan_editor.drawing.ink import Clipped
from plan_editor.drawing.key_panel import key_panel
from plan_editor.drawing.labels import Wish, place
from plan_editor.drawing.legend import Entry, entries, protection_entries
from plan_editor.drawing.obstacles import obstacles
from plan_editor.drawing.page import Sizes
from plan_editor.drawing.panel import Panel, paragraphs
from plan_editor.drawing.schedule import Column, Table
from plan_editor.drawing.sources import sources
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wishes import wishes
from plan_editor.drawing.zones import ringed, stone_entry
from plan_editor.ground.clearance import zones
from plan_editor.ground.measures import measures
from plan_editor.ground.rules import Purpose
from plan_editor.kinds import memorial
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.printing.plan_page import Drawn, PlanPage, choose, first_page
from plan_editor.printing.sheet import Asked, Page, Printed
from plan_editor.printing.tables import table_page, table_panels
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
from plan_editor.records.safety import Standing, standings

_CAUTIONS = (
    "A plan cannot show burials that nobody recorded. Probe before digging; excavation needs a "
    "competent person, and services located first.",
    "Measure from a print only at full size (100 %, “actual size”): check the scale bar with a "
    "ruler. For setting out measure on the ground, from the marks.",
    "A ringed stone is unsafe and may fall without warning. Only trained people test "
    "memorials.",
    "Root protection is for screening only. The rules of the diocese, local regulations and "
    "licensed practice go before this plan.",
)
_NUMBERS = "A stone on a numbered grave is known by the number of the grave."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """What the plan tells.

    Args:
        items: everything drawn.
        groups: the same, by what they look like.
        unsafe: standing of each stone that is unsafe.
        backdrops: base plans under it.
        key: its lines.
        known: how places are known, and what must be printed with base plans.
        by_grave: stones that are known by the number of their grave.
    """

    plan: Plan
    items: tuple[Item[Any], ...]
    groups: tuple[Group, ...]
    unsafe: tuple[Standing, ...]
    backdrops: tuple[Backdrop, ...]
    key: tuple[Entry, ...]
    known: tuple[str, ...]
    by_grave: frozenset[ItemId]


def compose(plan: Plan, asked: Asked, backdrops: tuple[Backdrop, ...]) -> Printed:
    """Return the plan of the ground and its schedules.

    Raises:
        CannotPrint: it does not fit; the text says which scale or paper would.
    """
    kept, refused = under(plan, asked, backdrops)
    told = _told(plan, asked, kept)
    title = f"The ground as known on {in_words(asked.date)}"
    page = PlanPage(
        headline=(title, plan.name),
        block=block(plan, asked, title=title, document="Plan of the ground", prefix="GROUND"),
        extent=extent_of(told.items),
        panels=lambda scale, width, sizes: _panels(told, scale, width, sizes),
        draw=lambda viewport: _drawn(told, viewport),
        good=250.0,
    )
    chosen = choose(page, asked)
    further = table_panels(page.block, _tables(told))
    sheets = 1 + len(further)
    first, remarks = first_page(page, chosen, sheets)
    numbered = replace(page.block, sheets=sheets)
    pages: tuple[Page, ...] = (
        first,
        *(table_page(numbered, page.headline, panel, 2 + n) for n, panel in enumerate(further)),
    )
    return Printed(
        title=f"{title} – {plan.name}" if plan.name else title,
        paper=chosen.paper,
        scale=chosen.scale,
        pages=pages,
        remarks=(*remarks, *refused, *remarks_on(pages)),
    )


def _told(plan: Plan, asked: Asked, backdrops: tuple[Backdrop, ...]) -> _Told:
    items = shown(plan)
    groups = grouped(items)
    unsafe = tuple(s for s in standings(plan, on=asked.date) if s.unsafe)
    ringed_stone = (stone_entry(),) if unsafe else ()
    return _Told(
        plan=plan,
        items=items,
        groups=groups,
        unsafe=unsafe,
        backdrops=backdrops,
        key=(*ringed_stone, *entries(groups), *protection_entries(groups)),
        known=(*sources(items), *acknowledgements(backdrops)),
        by_grave=_known_by_grave(plan),
    )


def _drawn(told: _Told, viewport: Viewport) -> Drawn:
    wanted = _labels(told, viewport)
    labels = place(wanted, obstacles(told.groups, viewport), viewport.frame)
    stones = [s.memorial.shape for s in told.unsafe if s.memorial.shape is not None]
    over = (*ringed(stones, viewport), *labels.ink)
    return Drawn(
        ink=(
            *underlays(told.backdrops, viewport),
            *grid_ticks(viewport, told.plan.grid),
            *protected(told.groups, viewport),
            *composed(told.groups, viewport),
            Clipped(box=viewport.frame, ink=over),
        ),
        remarks=_left_out(labels.left_out),
    )


def _labels(told: _Told, viewport: Viewport) -> tuple[Wish, ...]:
    """Return what is written, names before numbers; stones on a numbered grave without."""
    every = (item for group in told.groups for item in group.items)
    unlabelled = frozenset(n for n, item in enumerate(every) if item.id in told.by_grave)
    wanted = [w for w in wishes(told.groups, viewport) if w.own not in unlabelled]
    return tuple(sorted(wanted, key=lambda w: -w.size))


def _left_out(texts: Sequence[str]) -> tuple[str, ...]:
    if not texts:
        return ()
    listed = ", ".join(texts[:40])
    more = f" and {len(texts) - 40} more" if len(texts) > 40 else ""
    return (f"There was no room to write: {listed}{more}. A larger scale has more room.",)


def _panels(told: _Told, scale: float, width: float, sizes: Sizes) -> tuple[Panel, ...]:
    mind = (_NUMBERS, *_CAUTIONS) if told.by_grave else _CAUTIONS
    made = [
        north_and_scale(told.plan, scale, width, sizes),
        key_panel(told.key, width, size=sizes.body, head=sizes.head),
    ]
    if told.known:
        heading = "How places are known (± standard deviation)"
        made.append(paragraphs(heading, told.known, width, size=sizes.body, head=sizes.head))
    made.append(paragraphs("Mind", mind, width, size=sizes.body, head=sizes.head))
    return tuple(made)


def _known_by_grave(plan: Plan) -> frozenset[ItemId]:
    """Return the stones that stand on a numbered grave."""
    return frozenset(
        stone.id
        for stone in plan.of(memorial.KIND)
        if (on := stone.details.grave) and on in plan.items and plan.items[on].number
    )


def _tables(told: _Told) -> tuple[Table, ...]:
    made = [_quantities(told.plan)] if told.items else []
    return (*made, _unsafe(told)) if told.unsafe else tuple(made)


def _quantities(plan: Plan) -> Table:
    rows = tuple(
        (
            m.kind.plural,
            str(m.count),
            f"{m.area_m2:,.1f}" if m.area_m2 else "",
            f"{m.length_m:,.1f}" if m.length_m else "",
        )
        for m in measures(plan)
        if m.kind.drawn and m.kind.legend
    )
    return Table(
        heading="What there is",
        note="Areas and lengths on the flat, in metres of the grid; a line with a width counts "
        "with both. They are as exact as the places of the things measured.",
        columns=(
            Column(title="Kind", share=4.0),
            Column(title="Number", share=1.5, figures=True),
            Column(title="Area, m²", share=2.0, figures=True),
            Column(title="Length, m", share=2.0, figures=True),
        ),
        rows=rows,
    )


def _unsafe(told: _Told) -> Table:
    reach = {p: _distances(told, p) for p in Purpose}
    rows = tuple(
        (
            s.memorial.number or "no number",
            _on(told.plan, s),
            "" if (tall := s.memorial.details.height_m) is None else f"{tall:.2f}",
            in_words(s.latest.details.date) if s.latest else "",
            (s.latest.details.action if s.latest else "") or "to be decided",
            reach[Purpose.PEOPLE].get(s.memorial.id, ""),
            reach[Purpose.MACHINE].get(s.memorial.id, ""),
        )
        for s in sorted(told.unsafe, key=lambda s: s.memorial.number)
    )
    return Table(
        heading="Unsafe memorials",
        note="By the latest inspection of each. Keep away: metres from the stone by a local "
        "rule; no published distance is known. Fence off, tell the family, and have a trained "
        "person make it safe. * height not recorded, taken from the rule.",
        columns=(
            Column(title="Stone", share=1.5),
            Column(title="On", share=1.6),
            Column(title="Height, m", share=1.1, figures=True),
            Column(title="Inspected", share=1.9),
            Column(title="Found, and what to do", share=4.0),
            Column(title="People, m", share=1.1, figures=True),
            Column(title="Machines, m", share=1.2, figures=True),
        ),
        rows=rows,
    )


def _distances(told: _Told, purpose: Purpose) -> dict[ItemId, str]:
    ids = [s.memorial.id for s in told.unsafe]
    return {
        kept.item.id: f"{kept.distance_m:.1f}" + ("*" if kept.assumed else "")
        for zone in zones(told.plan, ids, purpose=purpose)
        for kept in zone.kept_from
    }


def _on(plan: Plan, standing: Standing) -> str:
    on = standing.memorial.details.grave
    return plan.items[on].called() if on and on in plan.items else ""
