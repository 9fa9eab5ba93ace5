"""The north-up picture that is wanted of a scan, and which level of the scan is fine enough."""

import math
from dataclasses import dataclass

from plan_editor.errors import CannotUse
from plan_editor.geometry.bending import Extent, sound, unit_side
from plan_editor.geometry.mappings import Mapping, Places
from plan_editor.scans.tiles import Level, Pyramid


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Where the wanted pixels lie.

    Args:
        west: easting of the left edge in metres.
        north: northing of the upper edge in metres.
        metres_per_pixel: the side of a pixel.
    """

    west: float
    north: float
    metres_per_pixel: float

    def ground(self, places: Places) -> Places:
        """Return the east and north of places on the picture, pixels right and down."""
        return places * (self.metres_per_pixel, -self.metres_per_pixel) + (
            self.west,
            self.north,
        )


def sheet_of(pyramid: Pyramid) -> Extent:
    """Return the extent of a scan in its own pixels."""
    return 0.0, 0.0, float(pyramid.width), float(pyramid.height)


def pixel_side(pyramid: Pyramid, mapping: Mapping) -> float:
    """Return the side in metres of a square as large on the ground as a usual scan pixel.

    Raises:
        CannotUse: the scan would be flattened, folded over or torn open.
    """
    sheet = sheet_of(pyramid)
    if not sound(mapping, sheet):
        raise folded()
    return unit_side(mapping, sheet)


def level_of(pyramid: Pyramid, mapping: Mapping, grid: Grid) -> Level:
    """Return the level whose pixels are about as large on the ground as those wanted.

    Raises:
        CannotUse: the scan would be flattened, folded over or torn open.
    """
    scan_pixels = grid.metres_per_pixel / pixel_side(pyramid, mapping)
    return pyramid.levels[pyramid.level_for(scan_pixels)]


def count(metres: float, side: float) -> int:
    """Return how many pixels of a side cover a length."""
    # a hair less, so that a whole number of pixels does not become one more by rounding
    return max(1, math.ceil(metres / side - 1e-6))


def folded() -> CannotUse:
    """Return the refusal of a fit that leaves no whole sheet."""
    return CannotUse(
        "The scan cannot be laid on the ground: this fit would flatten it to a line, fold it "
        "over or tear it open. Nothing was changed; check the points that were clicked and "
        "their coordinates, or choose a kind of fit that bends less."
    )
