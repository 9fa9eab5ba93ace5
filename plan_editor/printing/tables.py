"""Further pages of a sheet: tables under the sheet's headline, with its title block."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from plan_editor.drawing.page import Arrangement, head_height, inner, page_ink, sizes_for
from plan_editor.drawing.panel import Panel
from plan_editor.drawing.schedule import Table, flowed
from plan_editor.drawing.title_block import WIDEST, TitleBlock, title_block
from plan_editor.printing.sheet import Page, Paper

_PAD = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """A paper, and whether it lies across, with its longer side below."""

    paper: Paper
    across: bool = False

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in millimetres."""
        short, long = self.paper.value
        return (long, short) if self.across else (short, long)

    @property
    def room(self) -> float:
        """Width of a table on it, in millimetres."""
        left, _, right, _ = inner(*self.size)
        return right - left - 2 * _PAD


UPRIGHT = Lying(paper=Paper.A4)
"""Tables are read upright, on the paper that everybody has, whatever the plan is on."""


def table_panels(
    block: TitleBlock,
    tables: Sequence[Table],
    lying: Lying = UPRIGHT,
    *,
    over: Panel | None = None,
) -> tuple[Panel, ...]:
    """Return tables as panels, one for each further page; one may stand over the first."""
    left, bottom, right, top = _free(block, lying)
    size = sizes_for(*lying.size).body
    return flowed(tables, right - left, top - bottom, size=size, over=over)


def table_page(
    block: TitleBlock,
    headline: tuple[str, str],
    table: Panel,
    sheet: int,
    lying: Lying = UPRIGHT,
) -> Page:
    """Return one page of tables."""
    width, height = lying.size
    left, _, right, top = _free(block, lying)
    frame = inner(width, height)
    made = title_block(
        replace(block, sheet=sheet, scale=None, paper=lying.paper.name), _block_width(lying)
    )
    sizes = sizes_for(width, height)
    places = Arrangement(
        width=width,
        height=height,
        plan=(frame[0], frame[1], frame[2], frame[3] - head_height(sizes)),
        columns=((left, top, right - left),),
        per_column=(1,),
        block=(frame[2] - made.width, frame[1] + made.height, made.width),
        sizes=sizes,
    )
    return Page(width=width, height=height, ink=page_ink(places, headline, (table,), made))


def _block_width(lying: Lying) -> float:
    left, _, right, _ = inner(*lying.size)
    return min(right - left, WIDEST)


def _free(block: TitleBlock, lying: Lying) -> tuple[float, float, float, float]:
    left, bottom, right, top = inner(*lying.size)
    low = bottom + title_block(block, _block_width(lying)).height
    high = top - head_height(sizes_for(*lying.size))
    return left + _PAD, low + _PAD, right - _PAD, high - _PAD
