"""What stands beside the mowing map: key, zones, areas, cautions."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely

from plan_editor.drawing.areas import area_ink
from plan_editor.drawing.compose import Group, grouped
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.ink import Stroke
from plan_editor.drawing.key_panel import key_panel
from plan_editor.drawing.legend import HIGH, WIDE, Entry, entries
from plan_editor.drawing.page import Sizes
from plan_editor.drawing.panel import Panel, headed, paragraphs, words
from plan_editor.drawing.schedule import Column, Table, table_panel
from plan_editor.drawing.tones import pale
from plan_editor.drawing.zones import zone_entries
from plan_editor.ground.clearance import KeptFrom
from plan_editor.kinds import grass, grave, memorial, tree
from plan_editor.plan.item import Item
from plan_editor.plan.look import Look, Pen
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheets.mowing.drawn import FRESH, quiet
from plan_editor.printing.sheets.mowing.told import Told
from plan_editor.printing.usual import (
    acknowledgements,
    north_and_scale,
)

_MOST = 30


_TOLD_APART = {grave.KIND.name, memorial.KIND.name, tree.KIND.name}


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


def panels(
    plan: Plan, told: Told, scale: float, width: float, sizes: Sizes
) -> tuple[Panel, ...]:
    """Return what stands beside the map, in the order of reading."""
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


def _key(told: Told) -> tuple[Entry, ...]:
    zone = zone_entries() if told.zones else ()
    fresh = (_fresh_entry(),) if told.fresh else ()
    marked = {i.id for i in told.marked}
    rest_of_it = grouped(i for i in told.items if i.id not in marked)
    few = [g for g in rest_of_it if g.kind.name in _TOLD_APART]
    rest = len(few) < len([g for g in rest_of_it if g.kind != grass.KIND])
    return (
        *zone,
        *fresh,
        *entries(grouped(told.marked)),
        *entries(_one_look(few), quiet),
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
    sample = area_ink(np.array([room], dtype=object), FRESH, np.array([], dtype=object))
    return Entry(text="Fresh grave, still settling: no machine on it", sample=sample)


def _zones_panel(told: Told, width: float, sizes: Sizes) -> Panel:
    total = sum(z.area_m2 for z in told.zones)
    each = [
        f"{' + '.join(_unbroken(k) for k in z.kept_from)} ({z.area_m2:.0f}\u00a0m²)"
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


def _unbroken(kept: KeptFrom) -> str:
    # no line ends within a number
    return (kept.item.number or "no number").replace(" ", "\u00a0")


def _areas_panel(told: Told, width: float, sizes: Sizes) -> Panel:
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


def _by_rule(told: Told) -> tuple[str, ...]:
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
