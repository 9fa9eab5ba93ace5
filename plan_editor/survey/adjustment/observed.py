"""What was measured in the field, ready to be adjusted: between points that have names."""

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A point whose place is known before: a mark.

    Args:
        name: as the field book calls it.
        east, north: metres about the plan's origin, on the grid.
        sd: standard deviation of east and of north, in metres; 0.0 holds it fixed.
    """

    name: str
    east: float
    north: float
    sd: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """A distance by tape: a tie, a leg's length, a check.

    Args:
        key: which line of which book, so that what comes out is found again.
        start, end: names of points.
        metres: on the ground, level (already reduced for slope).
        sd: standard deviation, in metres.
    """

    key: str
    start: str
    end: str
    metres: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Offset:
    """A point by distance along a base line, and square off it.

    Args:
        key: which line of which book.
        start, end: names of the ends of the base line; it is measured from the start.
        point: name of the point.
        along: metres on the ground from the start to the foot of the offset.
        aside: metres on the ground square to the line, more than 0 to the right of it.
        sd: standard deviation of either, in metres.
    """

    key: str
    start: str
    end: str
    point: str
    along: float
    aside: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """A bearing clockwise from grid north; ``swing`` says which were turned alike.

    Args:
        key: which line of which book.
        start, end: names of points.
        degrees: as read.
        sd_deg: standard deviation.
        swing: name of what all bearings of one compass or instrument are off by together, a
            number to be found; empty where the bearing is taken as it is.
    """

    key: str
    start: str
    end: str
    degrees: float
    sd_deg: float
    swing: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Angle:
    """An included angle at a point, clockwise from the back sight to the fore sight.

    Args:
        key: which line of which book.
        at, back, fore: names of points.
        degrees: 0 to 360.
        sd_deg: standard deviation.
    """

    key: str
    at: str
    back: str
    fore: str
    degrees: float
    sd_deg: float


Observed = Tape | Offset | Bearing | Angle


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """On which hand a point lies of one who stands at ``start`` and looks to ``end``."""

    point: str
    start: str
    end: str
    right: bool


class Standing(StrEnum):
    """How well a point's place is known after the adjustment."""

    GOOD = "good"
    SUSPECTED = "suspected"  # a suspected measurement names it, or carries it off its ellipse
    WEAK = "weak"
    UNCHECKED = "unchecked"
    UNDETERMINED = "undetermined"
    AMBIGUOUS = "ambiguous"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ellipse:
    """Where a point lies with 95 % certainty: semi-axes in metres, bearing of the longer."""

    a: float
    b: float
    bearing_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A point after the adjustment.

    Args:
        name: as the field book calls it.
        east, north: metres about the plan's origin; None where undetermined or ambiguous.
        sd_east, sd_north: standard errors, in metres; None as above.
        ellipse: None as above.
        standing: how well it is known.
        choices: of an ambiguous point, the places at which it may lie.
        known: whether it is a station, whose place was known before.
    """

    name: str
    east: float | None
    north: float | None
    sd_east: float | None
    sd_north: float | None
    ellipse: Ellipse | None
    standing: Standing
    choices: tuple[tuple[float, float], ...] = ()
    known: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A measurement after the adjustment; an offset gives two, ``along`` and ``aside``.

    Args:
        key: which line of which book.
        what: ``distance``, ``along``, ``aside``, ``bearing`` or ``angle``.
        residual: adjusted less measured, in ground metres, or in degrees.
        standardised: the residual over its own standard deviation; None if nothing checks it.
        redundancy: the share of an error that shows in the residual: 0 unchecked, near 1 well
            checked.
        suspect: the first one is 1, the next most likely 2 …; 0 where it is not suspected.
        used: whether it took part; not where it hangs on an undetermined point.
    """

    key: str
    what: str
    residual: float
    standardised: float | None
    redundancy: float
    suspect: int = 0
    used: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Adjusted:
    """What came out of an adjustment.

    Args:
        points: every point, stations first.
        measurements: every measurement, in the order in which they were given.
        dof: measurements beyond what is needed.
        s0: the standard deviation of a measurement of weight 1; near 1 where the standard
            deviations that were given are honest; None where nothing checks anything.
        scale_factor: grid metres to a metre on the ground.
        swings: what the bearings of each name are off by, in degrees, to be added to them.
    """

    points: tuple[Found, ...]
    measurements: tuple[Checked, ...]
    dof: int
    s0: float | None
    scale_factor: float
    swings: tuple[tuple[str, float], ...] = ()

    def point(self, name: str) -> Found:
        """Return the point of that name.

        Raises:
            KeyError: there is none.
        """
        return {p.name: p for p in self.points}[name]
