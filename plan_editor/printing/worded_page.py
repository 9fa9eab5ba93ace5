"""Pages of words: a heading and paragraphs in the largest lettering that one page takes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.drawing.dates import in_words
from plan_editor.drawing.ink import Stroke
from plan_editor.drawing.panel import Panel, stacked, words
from plan_editor.errors import CannotPrint
from plan_editor.plan.look import Pen
from plan_editor.printing.sheet import Asked, Paper
from plan_editor.records.wordings import Worded, Wording, worded

A4_HIGH = Paper.A4.value[1]

_DATED = ("date", "until", "found")
_SMALLER = 0.95
_OFTEN = 14
"""Lettering may shrink to a half before words are called too long."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """Sizes of lettering in millimetres, and the gap between paragraphs as part of the body."""

    heading: float
    body: float
    gap: float = 0.8


def paper_of(asked: Asked) -> tuple[Paper, float]:
    """Return the paper, and by how much everything is larger on it than on A4."""
    paper = asked.paper or Paper.A4
    return paper, paper.value[1] / A4_HIGH


def filled(wording: Wording, given: dict[str, str]) -> Worded:
    """Return a wording with its blanks filled in, days in words."""
    told = {n: in_words(v) if n in _DATED else v for n, v in given.items()}
    return worded(wording.words, told)


def remarks_of(wording: Wording, found: Worded) -> tuple[str, ...]:
    """Return what whoever prints words should know of their blanks."""
    told = [
        f"“{{{name}}}” in the words of “{wording.title}” is nothing that can be filled in; it"
        " stands as it is."
        for name in found.unknown
    ]
    told += [
        f"“{{{name}}}” is not known; a line is left to write it on." for name in found.by_hand
    ]
    if "contact" in found.by_hand:
        told.append("Fill in “Enquiries to” in the parish's figures, and it is printed.")
    if not wording.own:
        told.append(wording.source)
    return tuple(told)


def fitted(make: Callable[[float], Panel], high: float, title: str) -> Panel:
    """Return a panel in the largest lettering in which it is no higher than that.

    Args:
        make: makes it, given a part of the full size of lettering.
        high: in millimetres.
        title: of what does not fit, for whoever is told.

    Raises:
        CannotPrint: even at half the size it is too high.
    """
    tried = (make(_SMALLER**n) for n in range(_OFTEN))
    found = next((p for p in tried if p.height <= high), None)
    if found is None:
        raise CannotPrint(
            f"{title}: there are more words than can be read on one page. Nothing was printed."
            " Shorten them."
        )
    return found


def column_of(found: Worded, width: float, sizes: Lettering, bold: Sequence[str] = ()) -> Panel:
    """Return a heading and paragraphs in a width; lines end where they end in the words.

    Args:
        found: the words.
        width: in millimetres.
        sizes: of the lettering.
        bold: paragraphs that stand out.
    """
    head = words(found.heading, width, size=sizes.heading, bold=True, leading=1.12)
    body = [_paragraph(p, width, sizes.body, bold=p in bold) for p in found.paragraphs]
    return stacked((head, *body), sizes.body * sizes.gap)


def lines_to_write_on(count: int, width: float, apart: float) -> Panel:
    """Return empty lines for writing by hand."""
    ends = (np.array([(0.0, -apart * n), (width, -apart * n)]) for n in range(1, count + 1))
    pen = Pen(width=0.18, colour="#808080")
    return Panel(width=width, height=apart * count, ink=(Stroke(lines=tuple(ends), pen=pen),))


def text_lines(text: str, width: float, size: float, *, bold: bool = False) -> Panel:
    """Return lines of text as they are broken, each wrapped where it must be."""
    return _paragraph(text, width, size, bold=bold)


def _paragraph(text: str, width: float, size: float, *, bold: bool) -> Panel:
    lines = [line for line in text.splitlines() if line.strip()]
    return stacked([words(line, width, size=size, bold=bold) for line in lines], 0.0)
