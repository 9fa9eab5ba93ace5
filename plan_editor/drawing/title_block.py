"""The title block, low right on every sheet, with the fields of ISO 7200:2004."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.drawing.ink import Fill, Ink, Stroke, Text
from plan_editor.drawing.lettering import CAPITAL, shortened, wrapped
from plan_editor.drawing.panel import Panel
from plan_editor.plan.look import Pen

WIDEST = 180.0
"""Width that ISO 7200 gives a title block, in millimetres; narrower beside a plan."""

_ROW = 7.6
_TITLE_ROW = 10.8
_LABEL = 1.8
_VALUES = (2.9, 2.5, 2.15)
_MARGIN = 1.0
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
        """The scale as ISO 5455 words it."""
        return "–" if self.scale is None else f"SCALE 1 : {self.scale:g}"


@dataclass(frozen=True, slots=True)
class _Cell:
    label: str
    value: str
    share: float
    bold: bool = False


def title_block(says: TitleBlock, width: float) -> Panel:
    """Return the title block, as high as its rows."""
    rows = _broad(says) if width >= WIDEST * 0.8 else _narrow(says)
    ink: list[Ink] = []
    top = 0.0
    for row in rows:
        high = _TITLE_ROW if any(c.label == "Title" for c in row) else _ROW
        ink.extend(_row(row, top, high, width))
        top -= high
    frame = np.array([(0.0, 0.0), (width, 0.0), (width, top), (0.0, top)])
    back = Fill(rings=(frame,), colour="#FFFFFF")
    outline = Stroke(lines=(frame,), pen=_FRAME, closed=True)
    return Panel(width=width, height=-top, ink=(back, *ink, outline))


def _narrow(says: TitleBlock) -> tuple[tuple[_Cell, ...], ...]:
    return (
        (_Cell("Legal owner", says.owner, 1.0),),
        (_Cell("Title", _whole_title(says), 1.0, bold=True),),
        (
            _Cell("Document type", says.document, 0.4),
            _Cell("Scale", says.scale_words, 0.36),
            _Cell(f"Sheet ({says.paper})", f"{says.sheet} of {says.sheets}", 0.24),
        ),
        (_Cell("Created by", says.creator, 0.5), _Cell("Approved by", says.approved, 0.5)),
        (
            _Cell("Identification no.", says.number, 0.6),
            _Cell("Date of issue", says.issued, 0.4),
        ),
    )


def _broad(says: TitleBlock) -> tuple[tuple[_Cell, ...], ...]:
    return (
        (
            _Cell("Legal owner", says.owner, 0.36),
            _Cell("Title", _whole_title(says), 0.42, bold=True),
            _Cell("Scale", says.scale_words, 0.22),
        ),
        (
            _Cell("Document type", says.document, 0.2),
            _Cell("Created by", says.creator, 0.2),
            _Cell("Approved by", says.approved, 0.16),
            _Cell("Identification no.", says.number, 0.18),
            _Cell("Date of issue", says.issued, 0.14),
            _Cell(f"Sheet ({says.paper})", f"{says.sheet} of {says.sheets}", 0.12),
        ),
    )


def _whole_title(says: TitleBlock) -> str:
    return f"{says.title} – {says.supplement}" if says.supplement else says.title


def _row(cells: Sequence[_Cell], top: float, high: float, width: float) -> tuple[Ink, ...]:
    ink: list[Ink] = []
    left = 0.0
    for cell in cells:
        broad = cell.share * width
        ink.extend(_cell(cell, left, top, broad, high))
        if left:
            ink.append(Stroke(lines=(np.array([(left, top), (left, top - high)]),), pen=_RULE))
        left += broad
    if top:
        ink.append(Stroke(lines=(np.array([(0.0, top), (width, top)]),), pen=_RULE))
    return tuple(ink)


def _cell(cell: _Cell, left: float, top: float, broad: float, high: float) -> tuple[Ink, ...]:
    x, room = left + _MARGIN, broad - 2 * _MARGIN
    label = Text(
        text=cell.label, x=x, y=top - _MARGIN - _LABEL * CAPITAL, size=_LABEL, colour=_SOFT
    )
    size, lines = _within(cell.value, room, 2 if high > _ROW else 1, bold=cell.bold)
    first = top - _MARGIN - _LABEL * CAPITAL - size * 1.25
    written = tuple(
        Text(text=line, x=x, y=first - size * 1.2 * n, size=size, bold=cell.bold)
        for n, line in enumerate(lines)
    )
    return (label, *written)


def _within(value: str, room: float, most: int, *, bold: bool) -> tuple[float, tuple[str, ...]]:
    """Return a value as lines, and their size: smaller before anything is cut."""
    lines: tuple[str, ...] = ()
    for size in _VALUES:
        lines = wrapped(value, size, room, bold=bold)
        if len(lines) <= most:
            return size, lines
    rest = " ".join(lines[most - 1 :])
    size = _VALUES[-1]
    return size, (*lines[: most - 1], shortened(rest, size, room, bold=bold))
