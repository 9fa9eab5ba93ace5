"""The title block, low right on every sheet, with the fields of ISO 7200:2004."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.drawing.ink import Fill, Ink, Stroke, Text
from plan_editor.drawing.lettering import (
    CAPITAL,
    DESCENT,
    SMALLEST,
    shortened,
    size_of,
    wrapped,
)
from plan_editor.drawing.panel import Panel
from plan_editor.plan.look import Pen

WIDEST = 180.0
"""Width that ISO 7200 gives a title block, in millimetres; narrower beside a plan."""

_LABEL = SMALLEST
_VALUES = (size_of(2.5), size_of(2.1), SMALLEST)
_MARGIN = 0.9
_ROW = 2 * _MARGIN + CAPITAL * (_LABEL + _VALUES[0]) + 1.4
_LEADING = 1.15
_FRAME = Pen(width=0.35)
_RULE = Pen(width=0.18)
_SOFT = "#566268"


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBlock:
    """What a title block says.

    Args:
        owner: the legal owner: whose ground and plan it is.
        title: of the sheet.
        supplement: the second line of the title.
        document: what type of document it is.
        number: identification number, at most 16 characters.
        issued: date of issue, ISO.
        sheet, sheets: sheet so and so of so many.
        creator: who made it.
        approved: who approved it; empty leaves room for a name in ink.
        scale: the number in 1:200; None where the sheet holds no drawing.
        paper: size of the paper.
    """

    owner: str
    title: str
    supplement: str
    document: str
    number: str
    issued: str
    sheet: int
    sheets: int
    creator: str
    approved: str = ""
    scale: float | None
    paper: str

    @property
    def scale_words(self) -> str:
        """The scale under the word Scale, as ISO 5455 has it."""
        return "–" if self.scale is None else f"1 : {self.scale:g}"


@dataclass(frozen=True, slots=True)
class _Cell:
    label: str
    value: str
    share: float
    bold: bool = False
    most: int = 1


def title_block(says: TitleBlock, width: float) -> Panel:
    """Return the title block, as high as its rows."""
    rows = _broad(says) if width >= WIDEST * 0.8 else _narrow(says)
    ink: list[Ink] = []
    top = 0.0
    for row in rows:
        high = _ROW + _LEADING * _VALUES[0] * (max(_lines(c, width) for c in row) - 1)
        ink.extend(_row(row, top, high, width))
        top -= high
    frame = np.array([(0.0, 0.0), (width, 0.0), (width, top), (0.0, top)])
    back = Fill(rings=(frame,), colour="#FFFFFF")
    outline = Stroke(lines=(frame,), pen=_FRAME, closed=True)
    return Panel(width=width, height=-top, ink=(back, *ink, outline))


def _narrow(says: TitleBlock) -> tuple[tuple[_Cell, ...], ...]:
    return (
        (_Cell("Legal owner", says.owner, 1.0),),
        (_Cell("Title", _whole_title(says), 1.0, bold=True, most=2),),
        (_Cell("Document type", says.document, 0.62), _Cell("Scale", says.scale_words, 0.38)),
        (
            _Cell("Identification no.", says.number, 0.62),
            _Cell("Date of issue", says.issued, 0.38),
        ),
        (
            _Cell("Created by", says.creator, 0.4),
            _Cell("Approved by", says.approved, 0.34),
            _Cell(f"Sheet ({says.paper})", f"{says.sheet} of {says.sheets}", 0.26),
        ),
    )


def _broad(says: TitleBlock) -> tuple[tuple[_Cell, ...], ...]:
    return (
        (
            _Cell("Legal owner", says.owner, 0.36),
            _Cell("Title", _whole_title(says), 0.45, bold=True, most=2),
            _Cell("Scale", says.scale_words, 0.19),
        ),
        (
            _Cell("Document type", says.document, 0.19),
            _Cell("Created by", says.creator, 0.18),
            _Cell("Approved by", says.approved, 0.15),
            _Cell("Identification no.", says.number, 0.2),
            _Cell("Date of issue", says.issued, 0.15),
            _Cell(f"Sheet ({says.paper})", f"{says.sheet} of {says.sheets}", 0.13),
        ),
    )


def _whole_title(says: TitleBlock) -> str:
    return f"{says.title} – {says.supplement}" if says.supplement else says.title


def _row(cells: Sequence[_Cell], top: float, high: float, width: float) -> tuple[Ink, ...]:
    ink: list[Ink] = []
    left = 0.0
    for cell in cells:
        broad = cell.share * width
        ink.extend(_cell(cell, left, top, broad))
        if left:
            ink.append(Stroke(lines=(np.array([(left, top), (left, top - high)]),), pen=_RULE))
        left += broad
    if top:
        ink.append(Stroke(lines=(np.array([(0.0, top), (width, top)]),), pen=_RULE))
    return tuple(ink)


def _cell(cell: _Cell, left: float, top: float, broad: float) -> tuple[Ink, ...]:
    x, room = left + _MARGIN, broad - 2 * _MARGIN
    label = Text(
        text=cell.label, x=x, y=top - _MARGIN - _LABEL * CAPITAL, size=_LABEL, colour=_SOFT
    )
    size, lines = _within(cell, broad)
    first = top - _ROW + _MARGIN + _VALUES[0] * DESCENT * 0.4
    written = tuple(
        Text(
            text=shortened(line, size, room, bold=cell.bold),
            x=x,
            y=first - size * _LEADING * n,
            size=size,
            bold=cell.bold,
        )
        for n, line in enumerate(lines)
    )
    return (label, *written)


def _lines(cell: _Cell, width: float) -> int:
    return max(1, len(_within(cell, cell.share * width)[1]))


def _within(cell: _Cell, broad: float) -> tuple[float, tuple[str, ...]]:
    """Return a value as lines, and their size: smaller before anything is cut."""
    room = broad - 2 * _MARGIN
    lines: tuple[str, ...] = ()
    for size in _VALUES:
        lines = wrapped(cell.value, size, room, bold=cell.bold)
        if len(lines) <= cell.most:
            return size, lines
    rest = " ".join(lines[cell.most - 1 :])
    return _VALUES[-1], (*lines[: cell.most - 1], rest)
