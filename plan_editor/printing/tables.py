"""Further pages of a sheet: tables under the sheet's headline, with its title block."""

from collections.abc import Sequence
from dataclasses import replace

from plan_editor.drawing.page import Arrangement, head_height, inner, page_ink, sizes_for
from plan_editor.drawing.panel import Panel
from plan_editor.drawing.schedule import Table, flowed
from plan_editor.drawing.title_block import TitleBlock, title_block
from plan_editor.printing.sheet import Page, Paper

PAPER = Paper.A4
"""Tables are read upright, on the paper that everybody has, whatever the plan is on."""

_PAD = 4.0


def table_panels(block: TitleBlock, tables: Sequence[Table]) -> tuple[Panel, ...]:
    """Return tables as panels, one for each further page."""
    left, bottom, right, top = _free(block)
    size = sizes_for(*PAPER.value).body
    return flowed(tables, right - left, top - bottom, size=size)


def table_page(block: TitleBlock, headline: tuple[str, str], table: Panel, sheet: int) -> Page:
    """Return one page of tables."""
    width, height = PAPER.value
    left, _, right, top = _free(block)
    frame = inner(width, height)
    made = title_block(
        replace(block, sheet=sheet, scale=None, paper=PAPER.name), frame[2] - frame[0]
    )
    sizes = sizes_for(width, height)
    places = Arrangement(
        width=width,
        height=height,
        plan=(frame[0], frame[1], frame[2], frame[3] - head_height(sizes)),
        columns=((left, top, right - left),),
        per_column=(1,),
        block=(frame[0], frame[1] + made.height, frame[2] - frame[0]),
        sizes=sizes,
    )
    return Page(width=width, height=height, ink=page_ink(places, headline, (table,), made))


def _free(block: TitleBlock) -> tuple[float, float, float, float]:
    left, bottom, right, top = inner(*PAPER.value)
    low = bottom + title_block(block, right - left).height
    high = top - head_height(sizes_for(*PAPER.value))
    return left + _PAD, low + _PAD, right - _PAD, high - _PAD
