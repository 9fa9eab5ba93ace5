"""Pieces of a page beside the plan: laid out in a width, then put where they belong."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from plan_editor.drawing.ink import Clipped, Fill, Ink, Picture, Points, Stroke, Text
from plan_editor.drawing.lettering import LEADING, wrapped
from plan_editor.plan.look import INK


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A piece of a page: its ink lies right of and below its top left corner, at 0, 0."""

    width: float
    height: float
    ink: tuple[Ink, ...]

    def at(self, left: float, top: float) -> tuple[Ink, ...]:
        """Return its ink with the top left corner there."""
        return tuple(moved(piece, left, top) for piece in self.ink)


def moved(ink: Ink, x: float, y: float) -> Ink:
    """Return ink shifted to the right and upwards."""
    match ink:
        case Stroke():
            return replace(ink, lines=_shifted(ink.lines, x, y))
        case Fill():
            return replace(ink, rings=_shifted(ink.rings, x, y))
        case Text():
            return replace(ink, x=ink.x + x, y=ink.y + y)
        case Picture():
            left, right = ink.left + x, ink.right + x
            return replace(ink, left=left, right=right, bottom=ink.bottom + y, top=ink.top + y)
        case Clipped():  # pragma: no branch  # there is no other
            left, bottom, right, top = ink.box
            return Clipped(
                box=(left + x, bottom + y, right + x, top + y),
                ink=tuple(moved(piece, x, y) for piece in ink.ink),
            )


def stacked(panels: Sequence[Panel], gap: float) -> Panel:
    """Return panels one below the other."""
    ink: list[Ink] = []
    top = 0.0
    for panel in panels:
        ink.extend(panel.at(0.0, -top))
        top += panel.height + gap
    width = max((p.width for p in panels), default=0.0)
    return Panel(width=width, height=max(0.0, top - gap), ink=tuple(ink))


def beside(panels: Sequence[Panel], gap: float) -> Panel:
    """Return panels one beside the other, their tops level."""
    ink: list[Ink] = []
    left = 0.0
    for panel in panels:
        ink.extend(panel.at(left, 0.0))
        left += panel.width + gap
    height = max((p.height for p in panels), default=0.0)
    return Panel(width=max(0.0, left - gap), height=height, ink=tuple(ink))


def words(  # noqa: PLR0913  # how running text can be set
    text: str,
    width: float,
    *,
    size: float,
    bold: bool = False,
    colour: str = INK,
    leading: float = LEADING,
) -> Panel:
    """Return running text, broken into lines."""
    lines = wrapped(text, size, width, bold=bold)
    ink = tuple(
        Text(
            text=line, x=0.0, y=-size * (0.8 + leading * n), size=size, bold=bold, colour=colour
        )
        for n, line in enumerate(lines)
    )
    return Panel(width=width, height=len(lines) * size * leading, ink=ink)


def headed(heading: str, panels: Sequence[Panel], width: float, *, size: float) -> Panel:
    """Return panels under a heading."""
    head = words(heading, width, size=size, bold=True)
    return stacked((head, *panels), size * 0.35)


def paragraphs(
    heading: str, texts: Sequence[str], width: float, *, size: float, head: float
) -> Panel:
    """Return paragraphs under a heading, each begun by a dash."""
    indent = size * 0.9
    made = []
    for text in texts:
        body = words(text, width - indent, size=size)
        dash = Text(text="–", x=0.0, y=-size * 0.8, size=size)
        ink = (dash, *body.at(indent, 0.0))
        made.append(Panel(width=width, height=body.height, ink=ink))
    return headed(heading, (stacked(made, size * 0.3),), width, size=head)


def _shifted(points: Sequence[Points], x: float, y: float) -> tuple[Points, ...]:
    by = np.array([x, y])
    return tuple(p + by for p in points)
