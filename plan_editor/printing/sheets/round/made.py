"""Make the sheet of a round: a map with the things in walking order, then the table."""

from functools import partial

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.page import Sizes
from plan_editor.drawing.panel import Panel, paragraphs
from plan_editor.errors import CannotPrint, CannotUse
from plan_editor.plan.look import Pen
from plan_editor.plan.plan import Plan
from plan_editor.printing.plan_page import PlanPage, printed
from plan_editor.printing.quiet_map import Numbered, QuietMap, drawn, readable
from plan_editor.printing.sheet import Asked, Paper, Printed, Supplied
from plan_editor.printing.sheets.round.rows import tables
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
from plan_editor.records.inspection_round import Round, due_round
from plan_editor.records.methods import CAUTION

_TABLE = Lying(paper=Paper.A4, across=True)
_STEPS = Pen(width=0.25, colour="#808080", dash=(1.2, 0.8))

_CAUTIONS = (
    CAUTION,
    "Never push a leaning stone, and never go alone.",
    "Found dangerous? Keep people away at once: cordon, dated notice, tell the churchwarden, "
    "record it today. Do not lay a stone down without leave unless it cannot wait.",
    "The rules of the diocese, the council and the insurer go before this sheet.",
)
_NOTHING = "Nothing with a place on the plan is due for inspection on this day."


def compose(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the map of the round and its table.

    Raises:
        CannotPrint: it does not fit, or too much is due for one round.
    """
    kept, refused = under(plan, asked, supplied.backdrops)
    told = _told(plan, asked)
    items = shown(plan)
    about = _map(told, items)
    title = f"Round of inspection, {in_words(asked.date)}"
    middle = middle_of(items)
    page = PlanPage(
        headline=(title, plan.name),
        block=block(plan, asked, title=title, document="Round of inspection", prefix="ROUND"),
        extent=extent_without_crowns(items),
        panels=lambda scale, width, sizes: (
            north_and_bar(plan, middle, scale, width, sizes),
            *_beside(told, acknowledgements(kept), width, sizes),
        ),
        draw=lambda viewport: drawn(about, viewport, underlays(kept, viewport)),
        will_do=partial(readable, about),
        papers=(Paper.A4, Paper.A3),
        remarks=(*told.assumed, *refused),
    )
    return printed(plan, page, asked, tables=tables(told, asked.date), lying=_TABLE)


def _told(plan: Plan, asked: Asked) -> Round:
    try:
        return due_round(plan, asked.date)
    except CannotUse as fault:
        raise CannotPrint(str(fault)) from fault


def _map(told: Round, items: tuple) -> QuietMap:  # type: ignore[type-arg]  # of any kind
    pairs = zip(told.places[:-1], told.places[1:], told.straight, strict=True)
    return QuietMap(
        items=items,
        marked=tuple(s.item for s in told.stops),
        numbered=tuple(
            Numbered(shape=s.item.lies, text=str(n)) for n, s in enumerate(told.stops, 1)
        ),
        ways=tuple(told.places[n : n + 2] for n, (_, _, ok) in enumerate(pairs) if ok),
        pen=_STEPS,
        size_mm=1.8,
    )


def _beside(
    told: Round, sources: tuple[str, ...], width: float, sizes: Sizes
) -> tuple[Panel, ...]:
    return (
        paragraphs("The round", _walk(told), width, size=sizes.body, head=sizes.head),
        paragraphs("Mind", (*_CAUTIONS, *sources), width, size=sizes.body, head=sizes.head),
    )


def _walk(told: Round) -> tuple[str, ...]:
    if not told.stops:
        return (_NOTHING,)
    begun = told.gate.called() if told.gate else "the thing numbered 1"
    engineers = sum(s.method.calls_an_engineer for s in told.stops)
    lines = [
        f"Begin at {begun}. {len(told.stops)} to look at, numbered in the order in which to"
        f" walk: about {told.length_m:.0f} m on foot. What is pale is not due."
    ]
    if engineers:
        lines.append(f"{engineers} so tall that an engineer or mason is called: look only.")
    return (*lines, *told.assumed)
