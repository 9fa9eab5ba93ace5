"""Arcs, ellipses and bulges as points, no chord further from its curve than a tolerance."""

from math import acos, atan, ceil, isfinite, pi, tau

import numpy as np

from plan_editor.exchange.formats.dxf.pieces import Space

MOST_CHORDS = 100_000
"""Enough for a circle of 1,000 km radius within half a millimetre."""

_FEWEST_CHORDS = 32  # in a full turn, however small


class TooLarge(ValueError):
    """A curve so large that it would take too many points."""


def arc(centre: Space, u: Space, v: Space, turn: tuple[float, float], within: float) -> Space:
    """Return centre + u cos t + v sin t, for t from one value to another.

    The curve is the image of a unit circle under a map that stretches nothing by more than
    ``hypot(|u|, |v|)``, and by no more than the longer of the two where they are square to
    each other; so a chord of it is nearer than the sagitta of that radius.

    Args:
        centre: shape (3,).
        u: a radius of an arc, or a half-axis of an ellipse, shape (3,).
        v: the other, square to it.
        turn: first and last t, in radians, the last the greater.
        within: greatest distance between chord and curve.

    Raises:
        TooLarge: it would take too many points, or a number is not finite.
    """
    first, last = turn
    radius = max(float(np.linalg.norm(u)), float(np.linalg.norm(v)))
    t = np.linspace(first, last, chords(radius, last - first, within) + 1)[:, None]
    return np.asarray(centre + np.cos(t) * u + np.sin(t) * v)


def chords(radius: float, span: float, within: float) -> int:
    """Return how many chords keep to an arc of that span, in radians.

    Raises:
        TooLarge: more than ``MOST_CHORDS``.
    """
    if not isfinite(radius * span):
        raise TooLarge
    widest = 2 * acos(max(0.0, 1 - within / radius)) if radius > within else pi
    if widest * MOST_CHORDS < abs(span):
        raise TooLarge
    return max(1, ceil(abs(span) / min(widest, tau / _FEWEST_CHORDS)))


def anticlockwise(start: float, end: float) -> tuple[float, float]:
    """Return start and end of a turn, in radians, with the end up to a full turn further."""
    span = (end - start) % tau
    return start, start + (span if span > 1e-9 else tau)


def bulged(corners: Space, bulges: Space, *, closed: bool, within: float) -> Space:
    """Return a polyline with its bulges drawn as arcs.

    A bulge is the tangent of a quarter of the angle that the arc to the next corner turns
    through, anticlockwise where it is positive (DXF reference, LWPOLYLINE, group 42).

    Args:
        corners: shape (n, 3), all of one z.
        bulges: shape (n,), that of the last corner only used where it is closed.
        closed: whether it returns to its first corner.
        within: greatest distance between chord and arc.

    Raises:
        TooLarge: an arc of it would take too many points.
    """
    ends = np.roll(corners, -1, axis=0)
    if not closed:
        corners, ends, bulges = corners[:-1], ends[:-1], bulges[:-1]
    if not len(corners):
        return ends
    if not bulges.any():
        return np.concatenate([corners[:1], ends])
    runs = [
        _run(start, end, float(bulge), within)
        for start, end, bulge in zip(corners, ends, bulges, strict=True)
    ]
    return np.concatenate([corners[:1], *runs])


def _run(start: Space, end: Space, bulge: float, within: float) -> Space:
    chord = end - start
    if bulge == 0.0 or not chord.any():
        return end[None, :]
    left = np.array([-chord[1], chord[0], 0.0])
    centre = (start + end) / 2 + left * (1 - bulge * bulge) / (4 * bulge)
    u = start - centre
    v = np.array([-u[1], u[0], 0.0])
    points = arc(centre, u, v, (0.0, 4 * atan(bulge)), within)[1:]
    points[-1] = end
    return points
