"""What lies under the ink: a base plan, made ready for the paper or the canvas."""

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from plan_editor.drawing.ink import Points
from plan_editor.geometry.mappings import Mapping
from plan_editor.ground.base_plans import Laid


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """A text of a foreign drawing, in the drawing's units.

    Args:
        x, y: where its baseline begins.
        height: of the lettering (of the em), as the size of a text in ink.
        turn_deg: turned anticlockwise.
    """

    text: str
    x: float
    y: float
    height: float
    turn_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineWork:
    """The lines and texts of a foreign drawing, in its own units, x right and y up."""

    lines: tuple[Points, ...]
    texts: tuple[Lettering, ...] = ()


class Scan(Protocol):
    """A scan that can be had at any size."""

    def resampled(
        self, mapping: Mapping, extent: tuple[float, float, float, float], metres: float
    ) -> NDArray[np.uint8]:
        """Return the ground of an extent, north up; white where there is no scan.

        Args:
            mapping: from pixels to metres on the ground, as ``Laid.mapping``.
            extent: least east and north, greatest east and north, in metres.
            metres: length of a pixel's side on the ground.
        """
        ...


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Backdrop:
    """A base plan with what is drawn of it."""

    laid: Laid
    content: LineWork | Scan
