"""Arcs and circles through places, and the straight pieces by which the plan keeps them."""

from dataclasses import dataclass
from math import acos, atan2, ceil, cos, hypot, pi, sin

from plan_editor.geometry.tolerance import FARTHEST, SAME

SAGITTA = 0.002
"""A piece of a curve bulges by no more than this beyond its chord, in metres.

The finest line on paper, 0.18 mm of the ISO 128 series, covers 18 mm of ground at 1:100: such a
chord cannot be told from its arc. A circle of radius r loses 4/3 SAGITTA / r of its area by it,
a quarter of a percent at 1 m, and one of 5 m needs 112 pieces.
"""

Place = tuple[float, float]
"""East and north in metres about the plan's origin."""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle: its middle, and its radius in metres."""

    middle: Place
    radius: float

    def corners(self, first: Place | None = None) -> tuple[Place, ...]:
        """Return the corners of the ring that stands for it, anticlockwise.

        They lie on the circle, so that the ring is a hair too small between them.

        Args:
            first: the first corner lies in this direction; None for east.
        """
        begin = 0.0 if first is None else _angle(self.middle, first)
        count = max(8, ceil(2 * pi / _step(self.radius)))
        return tuple(self.at(begin + 2 * pi * n / count) for n in range(count))

    def at(self, angle: float) -> Place:
        """Return the place on it at an angle about its middle, anticlockwise from east."""
        return (
            self.middle[0] + self.radius * cos(angle),
            self.middle[1] + self.radius * sin(angle),
        )


@dataclass(frozen=True, slots=True)
class Arc:
    """A piece of a circle.

    Args:
        circle: of which.
        begin: the angle of its start about the middle, in radians anticlockwise from east.
        sweep: how far it goes on from there, in radians, clockwise if negative.
        end: where it ends.
    """

    circle: Circle
    begin: float
    sweep: float
    end: Place

    @property
    def length(self) -> float:
        """Along the curve, in metres."""
        return abs(self.sweep) * self.circle.radius

    @property
    def way(self) -> Place:
        """The direction in which it arrives at its end: east and north, 1 long."""
        angle = self.begin + self.sweep
        side = 1.0 if self.sweep > 0 else -1.0
        return -sin(angle) * side, cos(angle) * side

    def places(self) -> tuple[Place, ...]:
        """Return the corners after its start, up to its end, which is exactly as it was given.

        The pieces bulge by ``SAGITTA`` at most: a chord over an angle t falls short of its arc
        by r (1 - cos(t / 2)) at its middle.
        """
        count = max(2, ceil(abs(self.sweep) / _step(self.circle.radius)))
        between = tuple(
            self.circle.at(self.begin + self.sweep * n / count) for n in range(1, count)
        )
        return (*between, self.end)


def circle_through(one: Place, two: Place, three: Place) -> Circle | None:
    """Return the circle through three places, or None where they lie in a line.

    So do places whose circle would reach farther than any plan.
    """
    e1, n1 = two[0] - one[0], two[1] - one[1]
    e2, n2 = three[0] - one[0], three[1] - one[1]
    turn = 2.0 * (e1 * n2 - n1 * e2)
    if turn == 0.0:
        return None
    far1, far2 = e1 * e1 + n1 * n1, e2 * e2 + n2 * n2
    east, north = (n2 * far1 - n1 * far2) / turn, (e1 * far2 - e2 * far1) / turn
    radius = hypot(east, north)
    if not SAME < radius < FARTHEST:
        return None
    return Circle((one[0] + east, one[1] + north), radius)


def arc_through(start: Place, through: Place, end: Place) -> Arc | None:
    """Return the arc from a start through a place to its end, or None where it is straight.

    It is so where the three lie in a line, to the half millimetre.
    """
    circle = circle_through(start, through, end)
    if circle is None:
        return None
    begin = _angle(circle.middle, start)
    to_end = (_angle(circle.middle, end) - begin) % (2 * pi)
    to_through = (_angle(circle.middle, through) - begin) % (2 * pi)
    sweep = to_end if to_through < to_end else to_end - 2 * pi
    if circle.radius * (1 - cos(sweep / 2)) <= SAME:
        return None
    return Arc(circle, begin, sweep, end)


def _angle(middle: Place, place: Place) -> float:
    return atan2(place[1] - middle[1], place[0] - middle[0])


def _step(radius: float) -> float:
    """Return the angle of a piece that bulges as much as it may, in radians."""
    return 2 * acos(1 - SAGITTA / radius) if radius > SAGITTA else pi / 2
