"""What is looked for in a scan: rectangles of some sizes, at some bearings."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Span:
    """From the least to the greatest, both in."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """Half way between."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A size with its spread, in metres.

    Args:
        width: along the head line.
        length: from head to foot.
    """

    width: Span
    length: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """What is looked for.

    Args:
        sizes: one or more.
        bearings: of head lines, in degrees clockwise from grid north, with their spread; the
            rectangle lies to the right. ``high`` may pass 360. None: at any bearing.
    """

    sizes: tuple[Size, ...]
    bearings: tuple[Span, ...] = ()
