"""Pens of the plan in the words of DXF: colours, line weights, line types."""

from dataclasses import dataclass
from functools import cache
from typing import Any, TypeAlias

import numpy as np
from ezdxf.colors import RGB, aci2rgb, rgb2int
from ezdxf.document import Drawing as Document
from ezdxf.lldxf.const import VALID_DXF_LINEWEIGHTS

from plan_editor.plan.look import INK, Pen

Attributes: TypeAlias = dict[str, Any]

CONTINUOUS = "Continuous"
CENTRE_LINE = (8.0, 2.0, 2.0, 2.0)
"""Dashes of the line along the middle of something that has a width: a chain line (ISO 128)."""

_PAPER_OR_SCREEN = 7  # black on white paper, white on a dark screen


@dataclass(frozen=True, slots=True, kw_only=True)
class Dressed:
    """A pen as a drawing knows it.

    Args:
        colour: number of the nearest of the 255 numbered colours.
        true_colour: 24 bits; None where the number says it all.
        weight: hundredths of a millimetre, one of the widths that DXF knows.
        line_type: name of a line type of the drawing.
    """

    colour: int
    true_colour: int | None
    weight: int
    line_type: str

    def attributes(self) -> Attributes:
        """Return it as attributes of an entity or a layer."""
        told: Attributes = {
            "color": self.colour,
            "lineweight": self.weight,
            "linetype": self.line_type,
        }
        return told if self.true_colour is None else told | {"true_color": self.true_colour}


def dressed(document: Document, pen: Pen) -> Dressed:
    """Return a pen in the words of DXF; its line type is added to the drawing if it must be."""
    number, true_colour = _colour(pen.colour)
    return Dressed(
        colour=number,
        true_colour=true_colour,
        weight=_weight(pen.width),
        line_type=line_type(document, pen.dash),
    )


def line_type(document: Document, dash: tuple[float, ...]) -> str:
    """Return the name of the line type with these dashes, in millimetres on paper.

    One that the drawing lacks is added.
    """
    if not dash:
        return CONTINUOUS
    name = "DASH-" + "-".join(f"{length:g}" for length in dash)
    if name not in document.linetypes:
        lengths = [length if i % 2 == 0 else -length for i, length in enumerate(dash)]
        words = " on, ".join(f"{length:g} mm" for length in dash)
        document.linetypes.add(name, [sum(dash), *lengths], description=f"{words} off")
    return name


@cache
def _weight(millimetres: float) -> int:
    return min(VALID_DXF_LINEWEIGHTS, key=lambda known: abs(known - millimetres * 100))


@cache
def _colour(colour: str) -> tuple[int, int | None]:
    """Return the nearest numbered colour, and the true one; ink is drawn as the paper wants."""
    if colour.upper() == INK.upper():
        return _PAPER_OR_SCREEN, None
    wanted = RGB.from_hex(colour)
    off = (_numbered() - np.array(wanted)).astype(float)
    return 1 + int(np.argmin((off**2).sum(axis=1))), rgb2int(wanted)


@cache
def _numbered() -> np.ndarray[Any, np.dtype[np.int64]]:
    return np.array([tuple(aci2rgb(i)) for i in range(1, 256)])
