"""The sheet that a base plan shows, as far as it is known."""

from dataclasses import dataclass

from plan_editor.geometry.bending import Extent

MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """What is known of a base plan before it is fitted.

    Args:
        upward: y counts up, as in a drawing; the pixels of a scan count down.
        extent: how far it reaches; None where it is not known.
        dots_per_inch: of a scan, across and down; None where it is not known, and of a drawing.
    """

    upward: bool = False
    extent: Extent | None = None
    dots_per_inch: tuple[float, float] | None = None

    @property
    def handed(self) -> float:
        """The sign that a fit to the ground turns areas with: below 0 where y counts down."""
        return 1.0 if self.upward else -1.0
