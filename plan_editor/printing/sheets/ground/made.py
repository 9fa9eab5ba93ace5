"""Make the plan of the ground: one page with the plan, then schedules."""

from collections import Counter
from collections.abc import Sequence
from functools import partial

from plan_editor.drawing.compose import compose as composed
from plan_editor.drawing.compose import protected
from plan_editor.drawing.dates import in_words
from plan_editor.drawing.grid import grid_ticks
from plan_editor.drawing.ink import Clipped
from plan_editor.drawing.key_panel import key_panel
from plan_editor.drawing.labels import Placed, place
from plan_editor.drawing.obstacles import obstacles
from plan_editor.drawing.page import Sizes
from plan_editor.drawing.panel import Panel, paragraphs
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wish import Wish
from plan_editor.drawing.wishes import wishes
from plan_editor.drawing.zones import ringed
from plan_editor.plan.plan import Plan
from plan_editor.printing.plan_page import Drawn, PlanPage, printed
from plan_editor.printing.sheet import Asked, Printed, Supplied
from plan_editor.printing.sheets.ground.tables import tables
from plan_editor.printing.sheets.ground.told import Told, told_by
from plan_editor.printing.usual import (
    block,
    extent_of,
    middle_of,
    north_and_scale,
    under,
    underlays,
)

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


_FEW = 0.1
_MOST = 20

_NUMBERS = "A stone on a numbered grave is known by the number of the grave."


def compose(plan: Plan, asked: Asked, supplied: Supplied) -> Printed:
    """Return the plan of the ground and its schedules.

    Raises:
        CannotPrint: it does not fit; the text says which scale or paper would.
    """
    kept, refused = under(plan, asked, supplied.backdrops)
    told = told_by(plan, asked, kept)
    title = f"The ground as known on {in_words(asked.date)}"
    page = PlanPage(
        headline=(title, plan.name),
        block=block(plan, asked, title=title, document="Plan of the ground", prefix="GROUND"),
        extent=extent_of(told.items),
        panels=partial(_panels, told, middle_of(told.items)),
        draw=lambda viewport: _drawn(told, viewport),
        will_do=lambda viewport: _readable(told, viewport),
        remarks=refused,
    )
    return printed(plan, page, asked, tables=tables(told))


def _drawn(told: Told, viewport: Viewport) -> Drawn:
    labels = _placed(told, _labels(told, viewport), viewport)
    stones = [s.item.shape for s in told.unsafe if s.item.shape is not None]
    over = (*ringed(stones, viewport), *labels.ink)
    return Drawn(
        ink=(
            *underlays(told.backdrops, viewport),
            *grid_ticks(viewport, told.plan.grid),
            *protected(told.groups, viewport),
            *composed(told.groups, viewport),
            Clipped(box=viewport.frame, ink=over),
        ),
        remarks=_left_out(told, labels.left_out),
    )


def _readable(told: Told, viewport: Viewport) -> bool:
    """Return whether nearly all numbers and names find room."""
    wanted = _labels(told, viewport)
    return len(_placed(told, wanted, viewport).left_out) <= _FEW * len(wanted)


def _placed(told: Told, wanted: Sequence[Wish], viewport: Viewport) -> Placed:
    return place(wanted, obstacles(told.groups, viewport), viewport.frame)


def _labels(told: Told, viewport: Viewport) -> tuple[Wish, ...]:
    """Return what is written, names before numbers; stones on a numbered grave without."""
    every = (item for group in told.groups for item in group.items)
    unlabelled = frozenset(n for n, item in enumerate(every) if item.id in told.by_grave)
    wanted = [w for w in wishes(told.groups, viewport) if w.own not in unlabelled]
    return tuple(sorted(wanted, key=lambda w: -w.size))


def _left_out(told: Told, left_out: Sequence[Wish]) -> tuple[str, ...]:
    """Return a remark on what was not written: a few by name, many of a kind by count."""
    if not left_out:
        return ()
    kinds = [item.kind for group in told.groups for item in group.items]
    counts = Counter(kinds[w.own] for w in left_out)
    many = {kind: count for kind, count in counts.items() if count > _MOST}
    listed = [w.text for w in left_out if kinds[w.own] not in many]
    listed += [f"the numbers of {count} {kind.plural.lower()}" for kind, count in many.items()]
    return (
        f"There was no room to write these numbers and names on the plan: {', '.join(listed)}."
        " What they belong to is drawn. A larger scale has more room.",
    )


def _panels(
    told: Told, middle: tuple[float, float], scale: float, width: float, sizes: Sizes
) -> tuple[Panel, ...]:
    mind = (_NUMBERS, *_CAUTIONS) if told.by_grave else _CAUTIONS
    made = [
        north_and_scale(told.plan, middle, scale, width, sizes),
        key_panel(told.key, width, size=sizes.body, head=sizes.head),
    ]
    if told.known:
        heading = "How places are known (± standard deviation)"
        made.append(paragraphs(heading, told.known, width, size=sizes.body, head=sizes.head))
    made.append(paragraphs("Mind", mind, width, size=sizes.body, head=sizes.head))
    return tuple(made)
