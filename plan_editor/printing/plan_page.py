"""A page with a plan on it: which paper, which scale, and everything that stands beside."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from plan_editor.drawing.arranging import Beside, arrangements
from plan_editor.drawing.ink import Anchor, Ink, Text
from plan_editor.drawing.page import Arrangement, Sizes, headline_panel, page_ink, sizes_for
from plan_editor.drawing.panel import Panel
from plan_editor.drawing.scales import INTERMEDIATE, PREFERRED, needed
from plan_editor.drawing.schedule import Table
from plan_editor.drawing.title_block import TitleBlock, title_block
from plan_editor.drawing.viewport import Viewport
from plan_editor.errors import CannotPrint
from plan_editor.plan.plan import Plan
from plan_editor.printing.sheet import Asked, Page, Paper, Printed
from plan_editor.printing.tables import UPRIGHT, Lying, table_page, table_panels
from plan_editor.printing.usual import Extent, remarks_on

_EMPTY = "There is nothing on the plan yet."
_EMPTY_SCALE = 200.0
_LOST = 0.5
"""A drawing that fills less of its frame is lost in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """The drawing of a plan in a viewport, and what whoever prints it should know."""

    ink: tuple[Ink, ...]
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPage:
    """What is to be laid out.

    Args:
        headline: the title, and the line below it.
        block: the title block, but for scale, paper and number of sheets.
        extent: what must be seen; None where the plan is empty.
        panels: what stands beside the drawing, given its scale, a width and sizes.
        draw: the drawing.
        will_do: whether it can be read in a viewport; where no paper is asked for, the smallest
            on which it can is taken.
        papers: where none is asked for, those tried, the smallest first; larger ones only where
            the ground fits none of them.
        remarks: what else whoever prints it should know.
    """

    headline: tuple[str, str]
    block: TitleBlock
    extent: Extent | None
    panels: Callable[[float, float, Sizes], Sequence[Panel]]
    draw: Callable[[Viewport], Drawn]
    will_do: Callable[[Viewport], bool]
    papers: tuple[Paper, ...] = tuple(Paper)
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A paper, a scale, and where everything is."""

    paper: Paper
    scale: float
    places: Arrangement


def printed(
    plan: Plan,
    page: PlanPage,
    asked: Asked,
    *,
    tables: Sequence[Table] = (),
    lying: Lying = UPRIGHT,
) -> Printed:
    """Return a sheet: the page with the plan, then tables on further pages.

    Args:
        plan: whose name the title bears.
        page: the first page.
        asked: what was asked for.
        tables: for the further pages.
        lying: the paper of those.

    Raises:
        CannotPrint: it does not fit; the text says which scale or paper would do.
    """
    chosen = choose(page, asked)
    further = table_panels(page.block, tables, lying)
    numbered = replace(page.block, sheets=1 + len(further))
    first, told = first_page(page, chosen, numbered.sheets)
    pages = (
        first,
        *(
            table_page(numbered, page.headline, panel, sheet, lying)
            for sheet, panel in enumerate(further, 2)
        ),
    )
    title, _ = page.headline
    return Printed(
        title=f"{title} – {plan.name}" if plan.name else title,
        paper=chosen.paper,
        scale=chosen.scale,
        pages=pages,
        remarks=(*told, *page.remarks, *remarks_on(pages)),
    )


def choose(page: PlanPage, asked: Asked) -> Chosen:
    """Return the paper and the scale: those asked for, or the best.

    Raises:
        CannotPrint: it does not fit; the text says which scale or paper would do.
    """
    if asked.scale is not None and not 1.0 <= asked.scale <= PREFERRED[-1] * 10:
        raise CannotPrint(
            f"1:{asked.scale:g} is no scale for a churchyard. Nothing was printed. Ask for one "
            "such as 1:200, or for none: then the largest that fits is taken."
        )
    papers = tuple(Paper) if asked.paper is None else (asked.paper,)
    if asked.scale is not None:
        found = next((c for p in papers if (c := _at_scale(page, p, asked.scale))), None)
        if found is None:
            raise CannotPrint(_would_do(page, asked, asked.scale))
        return found
    found = _best(page, papers) if asked.paper else _smallest(page)
    if found is None:
        raise CannotPrint(_too_large(page, papers))
    return found


def first_page(page: PlanPage, chosen: Chosen, sheets: int) -> tuple[Page, tuple[str, ...]]:
    """Return the page with the plan, and its remarks."""
    places = chosen.places
    viewport = viewport_for(page.extent, chosen)
    drawn = page.draw(viewport) if page.extent else Drawn(ink=(_nothing(places),))
    width = places.columns[0][2]
    panels = page.panels(chosen.scale, width, places.sizes)
    block = replace(page.block, scale=chosen.scale, paper=chosen.paper.name, sheets=sheets)
    ink = page_ink(places, page.headline, panels, title_block(block, places.block[2]))
    return Page(width=places.width, height=places.height, ink=(*drawn.ink, *ink)), drawn.remarks


def viewport_for(extent: Extent | None, chosen: Chosen) -> Viewport:
    """Return the viewport with an extent in the middle of the drawing's frame."""
    e0, n0, e1, n1 = extent or (0.0, 0.0, 0.0, 0.0)
    return Viewport(
        east=(e0 + e1) / 2, north=(n0 + n1) / 2, scale=chosen.scale, frame=chosen.places.plan
    )


def _smallest(page: PlanPage) -> Chosen | None:
    """Return the smallest paper on which the drawing can be read, or else the largest."""
    found = None
    for paper in page.papers:
        found = _best(page, (paper,)) or found
        if found and page.will_do(viewport_for(page.extent, found)):
            return found
    return found or _best(page, tuple(Paper))


def _best(page: PlanPage, papers: Sequence[Paper]) -> Chosen | None:
    """Return the largest scale on the first paper that the ground fits.

    An intermediate scale is taken only where the preferred one leaves most of the frame empty.
    """
    usual = next((c for p in papers if (c := _largest(page, p, PREFERRED))), None)
    if usual is None or _filled(page, usual) >= _LOST:
        return usual
    between = [s for s in INTERMEDIATE if s < usual.scale]
    return _largest(page, usual.paper, between) or usual


def _largest(page: PlanPage, paper: Paper, scales: Sequence[float]) -> Chosen | None:
    if page.extent is None:
        scales = (_EMPTY_SCALE,)
    return next((c for s in scales if (c := _at_scale(page, paper, s))), None)


def _at_scale(page: PlanPage, paper: Paper, scale: float) -> Chosen | None:
    """Return the arrangement that gives the drawing most room; None where none has enough."""
    found = max(
        _arrangements(page, paper, scale),
        key=lambda a: _slack(_size(page), a.room),
        default=None,
    )
    return Chosen(paper=paper, scale=scale, places=found) if found else None


def _arrangements(page: PlanPage, paper: Paper, scale: float) -> Iterator[Arrangement]:
    short, long = paper.value
    sizes = sizes_for(short, long)
    beside = Beside(
        panels=lambda width: page.panels(scale, width, sizes),
        head=lambda width: headline_panel(page.headline, width, sizes),
        block=lambda width: title_block(page.block, width).height,
    )
    least = needed(_size(page), scale)
    yield from arrangements((long, short), beside, least)
    yield from arrangements((short, long), beside, least)


def _slack(ground: tuple[float, float], room: tuple[float, float]) -> float:
    return min(mm / max(metres, 1e-3) for metres, mm in zip(ground, room, strict=True))


def _filled(page: PlanPage, chosen: Chosen) -> float:
    """Return which part of its frame the drawing fills."""
    wide, high = needed(_size(page), chosen.scale)
    across, up = chosen.places.room
    return wide * high / (across * up)


def _size(page: PlanPage) -> tuple[float, float]:
    e0, n0, e1, n1 = page.extent or (0.0, 0.0, 0.0, 0.0)
    return e1 - e0, n1 - n0


def _would_do(page: PlanPage, asked: Asked, scale: float) -> str:
    takes = next((p.name for p in Paper if _at_scale(page, p, scale)), None)
    larger = f"1:{scale:g} takes {takes}" if takes else f"no paper up to A1 takes 1:{scale:g}"
    on = asked.paper or Paper.A1
    best = _largest(page, on, PREFERRED)
    would = f"on {on.name} it fits at 1:{best.scale:g}" if best else _no_room(page, on)
    return (
        f"At 1:{scale:g} the ground does not fit on {on.name}: {would}; {larger}. "
        "Nothing was printed."
    )


def _no_room(page: PlanPage, paper: Paper) -> str:
    east, north = _size(page)
    return f"{east:,.0f} by {north:,.0f} m find no room on {paper.name} at any usual scale"


def _too_large(page: PlanPage, papers: Sequence[Paper]) -> str:
    return (
        f"The ground does not fit: {_no_room(page, papers[-1])}, down to 1:{PREFERRED[-1]:g}. "
        "Something on the plan may lie far from all the rest. Nothing was printed."
    )


def _nothing(places: Arrangement) -> Text:
    left, bottom, right, top = places.plan
    return Text(
        text=_EMPTY,
        x=(left + right) / 2,
        y=(bottom + top) / 2,
        size=places.sizes.head,
        anchor=Anchor.MIDDLE,
    )
