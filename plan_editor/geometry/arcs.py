"""Circles and arcs as chains of chords that keep to a stated sagitta.

The sagitta is the greatest distance between a chord and its arc: r (1 - cos(half the angle)).
Corners lie on the curve, chords inside it.
"""

import math

import numpy as np
from numpy.typing import NDArray

SAGITTA = 0.002
"""How far, in metres, a chord may lie from its arc unless something else is asked for."""

WIDEST_STEP = math.pi / 4
"""However small a circle is, it has eight corners."""

Place = tuple[float, float]
"""Metres east and north."""

Chain = NDArray[np.float64]
"""n rows of metres east and north."""


def circle(centre: Place, radius: float, sagitta: float = SAGITTA) -> Chain:
    """Return a circle as a closed ring, clockwise from its northernmost point.

    Raises:
        ValueError: the radius or the sagitta is not longer than nothing.
    """
    ring = arc(centre, radius, start_deg=0.0, sweep_deg=360.0, sagitta=sagitta)
    ring[-1] = ring[0]
    return ring


def arc(
    centre: Place,
    radius: float,
    *,
    start_deg: float,
    sweep_deg: float,
    sagitta: float = SAGITTA,
) -> Chain:
    """Return an arc of a circle, from its start to its end.

    Args:
        centre: of the circle.
        radius: in metres.
        start_deg: bearing of the arc's start as seen from the centre.
        sweep_deg: how far it goes round, clockwise; negative is counter-clockwise.
        sagitta: in metres.

    Raises:
        ValueError: the radius or the sagitta is not longer than nothing.
    """
    if not (radius > 0.0 and sagitta > 0.0):
        raise ValueError("an arc needs a radius and a sagitta longer than nothing")
    sweep = math.radians(sweep_deg)
    step = min(WIDEST_STEP, 2.0 * math.acos(max(0.0, 1.0 - sagitta / radius)))
    chords = max(1, math.ceil(abs(sweep) / step))
    angles = math.radians(start_deg) + np.linspace(0.0, sweep, chords + 1)
    return np.column_stack(
        [centre[0] + radius * np.sin(angles), centre[1] + radius * np.cos(angles)]
    )


def arc_through(first: Place, second: Place, third: Place, sagitta: float = SAGITTA) -> Chain:
    """Return the arc from the first point through the second to the third.

    Raises:
        ValueError: the three lie in a line, or two of them at one place.
    """
    # seen from the first point; i is a quarter turn counter-clockwise
    p = complex(second[0] - first[0], second[1] - first[1])
    q = complex(third[0] - first[0], third[1] - first[1])
    turn = (p.conjugate() * q).imag
    if abs(turn) <= 1e-12 * abs(p) * abs(q):
        raise ValueError("no arc goes through three points in a line")
    middle = 1j * (abs(p) ** 2 * q - abs(q) ** 2 * p) / (-2.0 * turn)
    # the angle at the second point is half of what is left of the circle; its sign is the way
    # round: counter-clockwise where the third point lies left of the way to the second
    at_second = math.atan2(*_parts((-p).conjugate() * (q - p)))
    sweep = 2.0 * math.copysign(math.pi - abs(at_second), turn)
    return _between(first, third, first_from=-middle, sweep=sweep, sagitta=sagitta)


def bulged(start: Place, end: Place, bulge: float, sagitta: float = SAGITTA) -> Chain:
    """Return the arc between two points with a bulge; the straight line where it is nought.

    The bulge is the tangent of a quarter of the angle that the arc sweeps, positive
    counter-clockwise. Source: DXF reference, LWPOLYLINE, group code 42.
    """
    if bulge == 0.0 or start == end:
        return np.array([start, end], dtype=np.float64)
    chord = complex(end[0] - start[0], end[1] - start[1])
    sweep = 4.0 * math.atan(bulge)
    # the centre lies left of the chord's middle by (1 - bulge²) / 4 bulge chords
    middle = chord * complex(0.5, (1.0 - bulge**2) / (4.0 * bulge))
    return _between(start, end, first_from=-middle, sweep=sweep, sagitta=sagitta)


def _between(
    first: Place, last: Place, *, first_from: complex, sweep: float, sagitta: float
) -> Chain:
    """Return an arc that begins and ends exactly at two places.

    Args:
        first: where it begins.
        last: where it ends.
        first_from: the first place as seen from the centre, east + north·i.
        sweep: radians counter-clockwise.
        sagitta: in metres.
    """
    chain = arc(
        (first[0] - first_from.real, first[1] - first_from.imag),
        abs(first_from),
        start_deg=math.degrees(math.atan2(first_from.real, first_from.imag)),
        sweep_deg=-math.degrees(sweep),
        sagitta=sagitta,
    )
    chain[0], chain[-1] = first, last
    return chain


def _parts(number: complex) -> tuple[float, float]:
    return number.imag, number.real
