"""Make the safety map: one page with the map, then tables."""

from functools import partial

from plan_editor.drawing.compose import grouped
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.key_panel import key_panel
from plan_editor.drawing.legend import entries
from plan_editor.drawing.page import Sizes
from plan_editor.drawing.panel import Panel, paragraphs
from plan_editor.drawing.zones import RUST, zone_entries
from plan_editor.ground.clearance import Zone, zones
from plan_editor.ground.rules import Purpose
from plan_editor.kinds import cordon
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan
from plan_editor.printing.plan_page import PlanPage, printed
from plan_editor.printing.quiet_map import Numbered, QuietMap, drawn, readable
from plan_editor.printing.sheet import Asked, Paper, Printed, Supplied
from plan_editor.printing.sheets.safety.rows import concerned, cordons, tables
from plan_editor.printing.tables import Lying
from plan_editor.printing.usual import (
    acknowledgements,
    block,
    extent_without_crowns,
    middle_of,
    north_and_bar,
    shown,
    under,
    underlays,
)
from plan_editor.records.safety import Standing, standings, unsafe

_TABLE = Lying(paper=Paper.A4, across=True)

_CAUTIONS = (
    "Keep out of the hatched zones: what is unsafe may fall without warning. Do not touch it, "
    "lean on it or work beside it.",
    "A zone is not a barrier. A barrier needs a dated notice that says why and whom to ask, "
    "and somebody who looks at it again.",
    "Only trained people test or make safe. What was made safe for now still needs repair; "
    "its owner has to be found, and leave asked for.",
    "The rules of the diocese, the council and the insurer go before this map.",
)


def compose(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the safety map and its tables.

    Raises:
        CannotPrint: it does not fit; the text says which scale or paper would.
    """
    kept, refused = under(plan, asked, supplied.backdrops)
    told = concerned(plan, asked.date)
    kept_off = zones(plan, unsafe(plan, on=asked.date), purpose=Purpose.PEOPLE)
    barriers = cordons(plan, asked.date)
    items = shown(plan)
    about = _map(items, told, kept_off, barriers)
    title = _title(told)
    own = (*_untold(plan, asked.date), *_CAUTIONS, *_source(kept_off))
    mind = (*own, *acknowledgements(kept))
    page = PlanPage(
        headline=(title, f"{plan.name} · safety map of {in_words(asked.date)}".strip(" ·")),
        block=block(plan, asked, title=title, document="Safety map", prefix="SAFETY"),
        extent=extent_without_crowns(items),
        panels=lambda scale, width, sizes: (
            north_and_bar(plan, middle_of(items), scale, width, sizes),
            *_key(kept_off, barriers, width, sizes),
            paragraphs("Mind", mind, width, size=sizes.body, head=sizes.head),
        ),
        draw=lambda viewport: drawn(about, viewport, underlays(kept, viewport)),
        will_do=partial(readable, about),
        papers=(Paper.A4, Paper.A3),
        remarks=refused,
    )
    made = tables(plan, told, kept_off, asked.date)
    return printed(plan, page, asked, tables=made, lying=_TABLE)


def _title(told: tuple[Standing, ...]) -> str:
    count = sum(s.unsafe for s in told)
    if not count:
        return "Nothing is recorded as unsafe"
    return (
        "1 thing is unsafe: keep off" if count == 1 else f"{count} things are unsafe: keep off"
    )


def _map(
    items: tuple[Item, ...],
    told: tuple[Standing, ...],
    kept_off: tuple[Zone, ...],
    barriers: tuple[Item[cordon.CordonDetails], ...],
) -> QuietMap:
    placed = [s for s in told if s.item.shape is not None]
    failed = [s for s in placed if s.unsafe]
    return QuietMap(
        items=items,
        marked=(*(s.item for s in placed), *barriers),
        numbered=tuple(_written(s) for s in placed),
        zones=tuple(z.shape for z in kept_off),
        ringed=tuple(s.item.lies for s in failed),
        size_mm=2.4,
    )


def _written(told: Standing) -> Numbered:
    name = told.item.number or told.item.called()
    return Numbered(
        shape=told.item.lies,
        text=name if told.unsafe else f"{name}, made safe",
        boxed=told.unsafe,
        colour=RUST,
    )


def _key(
    kept_off: tuple[Zone, ...],
    barriers: tuple[Item[cordon.CordonDetails], ...],
    width: float,
    sizes: Sizes,
) -> tuple[Panel, ...]:
    if not kept_off and not barriers:
        return ()
    found = (*(zone_entries() if kept_off else ()), *entries(grouped(barriers)))
    return (key_panel(found, width, size=sizes.body, head=sizes.head),)


def _untold(plan: Plan, on: str) -> tuple[str, ...]:
    stones = standings(plan, on=on, kinds=("memorial",))
    untold = sum(s.latest is None for s in stones)
    if not untold:
        return ()
    return (
        f"{untold} of {len(stones)} stones have no recorded inspection: that they are not on "
        "this map does not mean that they are safe.",
    )


def _source(kept_off: tuple[Zone, ...]) -> tuple[str, ...]:
    rules = {z.rule.name: z.rule.source for z in kept_off}
    assumed = {
        k.item.number or k.item.called() for z in kept_off for k in z.kept_from if k.assumed
    }
    told = list(dict.fromkeys(rules.values()))
    if assumed:
        names = ", ".join(sorted(assumed)[:8])
        told.append(f"Height not recorded, the rule's own figure taken: {names}.")
    return tuple(told)
