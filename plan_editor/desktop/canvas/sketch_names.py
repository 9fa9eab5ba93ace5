"""Where the names of a sketch's dots stand, so that none is written over another."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from plan_editor.desktop.canvas.labels import LABEL_PX
from plan_editor.drawing.sketch import SketchDot, Tone

HIGH = LABEL_PX + 4
PAD = 3
"""Left and right of a name."""

APART = 7
"""How far from its dot a name begins, in pixels."""

CELL = 64
"""The side of the squares in which names are looked for, in pixels."""

Cell = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A name and the box in which it stands, in pixels right and down from the origin."""

    text: str
    tone: Tone
    left: int
    top: int
    wide: int
    high: int

    def meets(self, other: "Named") -> bool:
        """Whether two boxes have anything in common."""
        return (
            self.left < other.left + other.wide
            and other.left < self.left + self.wide
            and self.top < other.top + other.high
            and other.top < self.top + self.high
        )


def placed_names(
    dots: Iterable[SketchDot], scale: float, width: Callable[[str], int]
) -> tuple[Named, ...]:
    """Return the names that have room, those of the first dots first.

    It depends on the scale alone, never on the view, so that nothing flickers.

    Args:
        dots: the dots; those of danger come first of all.
        scale: pixels to a metre.
        width: of a text, in pixels.
    """
    taken: dict[Cell, list[Named]] = {}
    found = []
    for dot in sorted(dots, key=lambda d: d.tone is not Tone.DANGER):
        for wish in _wishes(dot, scale, width(dot.text)) if dot.text else ():
            near = (other for cell in _cells(wish) for other in taken.get(cell, ()))
            if not any(map(wish.meets, near)):
                found.append(wish)
                for cell in _cells(wish):
                    taken.setdefault(cell, []).append(wish)
                break
    return tuple(found)


def _wishes(dot: SketchDot, scale: float, wide: int) -> Iterator[Named]:
    x, y = round(dot.east * scale), round(-dot.north * scale)
    wide += 2 * PAD
    for left, top in (
        (x + APART, y - HIGH // 2),
        (x - APART - wide, y - HIGH // 2),
        (x - wide // 2, y - APART - HIGH),
        (x - wide // 2, y + APART),
    ):
        yield Named(text=dot.text, tone=dot.tone, left=left, top=top, wide=wide, high=HIGH)


def _cells(named: Named) -> list[Cell]:
    return [
        (column, row)
        for column in range(named.left // CELL, (named.left + named.wide) // CELL + 1)
        for row in range(named.top // CELL, (named.top + named.high) // CELL + 1)
    ]
