"""The best projective fit through points, by true least squares on the ground."""

import math
from collections.abc import Sequence

from plan_editor.errors import CannotUse
from plan_editor.geometry.mappings import Eight
from plan_editor.survey.fits.models import Control
from plan_editor.survey.fits.straight_fits import Solved, Two, affine

Row = Sequence[float]
Point = tuple[float, float, float, float, float]
"""x, y, east, north about their means and in units of their spread; weight."""

_STEPS = 60
_STILL = 1e-13
_HARDLY_MORE = 1.0 + 1e-9
_LEAST_DAMPING = 1e-6
_FLAT = 1e-11
"""A pivot smaller than this share of the largest number says that the points fix no fit."""


def projective(control: Sequence[Control], weights: Sequence[float]) -> Solved:
    """Return the projective fit whose squared misfits on the ground sum to the least.

    Begun with the linear equations (east · (g·x + h·y + 1) = a·x + b·y + c …), which do not
    minimise anything on the ground, then improved step by step (Gauss-Newton, damped after
    Levenberg and Marquardt) until it stands still.

    Raises:
        CannotUse: the points lie so that they fix no such fit.
    """
    frame = _Frame(control)
    points = frame.points(control, weights)
    best, squares = _improved(_begun(points), points)
    over = tuple(frame.metres(v) for v in _misfits(best, points))
    without = [_without(best, points, n) for n in range(len(points))]
    known = [w for w in without if w is not None]
    checked = len(known) == len(points)
    unit = frame.spread_m**2
    return Solved(
        straight=affine(control, weights).straight,
        bend=frame.numbers(best),
        residuals=over,
        left_out=tuple(frame.metres(missed) for missed, _ in known) if checked else None,
        squares=squares * unit,
        eased=tuple(max(0.0, squares - w[1]) * unit if w else 0.0 for w in without),
        surplus=2 * len(points) - 8,
    )


class _Frame:
    """Coordinates about their means, in units of their spread, for the sake of the digits."""

    def __init__(self, control: Sequence[Control]) -> None:
        self._x, self._y, self._spread = _centred([(c.x, c.y) for c in control])
        self._east, self._north, self.spread_m = _centred([(c.east, c.north) for c in control])

    def points(self, control: Sequence[Control], weights: Sequence[float]) -> list[Point]:
        s, m = self._spread, self.spread_m
        return [
            (
                (c.x - self._x) / s,
                (c.y - self._y) / s,
                (c.east - self._east) / m,
                (c.north - self._north) / m,
                w,
            )
            for c, w in zip(control, weights, strict=True)
        ]

    def metres(self, misfit: Two) -> Two:
        return misfit[0] * self.spread_m, misfit[1] * self.spread_m

    def numbers(self, fit: Sequence[float]) -> Eight:
        """Return a fit of these coordinates as one of the base plan's and the plan's own."""
        a, b, c, d, e, f, g, h = fit
        s, m = self._spread, self.spread_m
        g, h = g / s, h / s
        last = 1.0 - g * self._x - h * self._y
        if abs(last) < _FLAT:
            raise _fixes_nothing()
        east = (m * a / s + self._east * g, m * b / s + self._east * h)
        north = (m * d / s + self._north * g, m * e / s + self._north * h)
        c = m * c - m * (a * self._x + b * self._y) / s + self._east * last
        f = m * f - m * (d * self._x + e * self._y) / s + self._north * last
        return (
            east[0] / last,
            east[1] / last,
            c / last,
            north[0] / last,
            north[1] / last,
            f / last,
            g / last,
            h / last,
        )


def _centred(places: Sequence[Two]) -> tuple[float, float, float]:
    count = len(places)
    x, y = math.fsum(p[0] for p in places) / count, math.fsum(p[1] for p in places) / count
    squares = math.fsum((p[0] - x) ** 2 + (p[1] - y) ** 2 for p in places)
    return x, y, math.sqrt(squares / count)


def _begun(points: Sequence[Point]) -> list[float]:
    rows, right, weights = [], [], []
    for x, y, east, north, weight in points:
        rows.append((x, y, 1.0, 0.0, 0.0, 0.0, -east * x, -east * y))
        rows.append((0.0, 0.0, 0.0, x, y, 1.0, -north * x, -north * y))
        right += [east, north]
        weights += [weight, weight]
    found = _least_squares(rows, right, weights, damping=0.0)
    if found is None:
        raise _fixes_nothing()
    return found


def _improved(fit: list[float], points: Sequence[Point]) -> tuple[list[float], float]:
    """Return the fit that misses the least, and the weighted sum of its squared misfits."""
    squares, damping = _squares(fit, points), 0.0
    for _ in range(_STEPS):
        step = _step(fit, points, damping)
        if step is None or max(map(abs, step)) < _STILL:
            break
        tried = [n + more for n, more in zip(fit, step, strict=True)]
        reached = _squares(tried, points)
        # near the least the sum hardly changes any more: its last digits decide nothing
        if reached <= squares * _HARDLY_MORE:
            fit, squares, damping = tried, reached, damping / 10
        else:
            damping = max(damping * 10, _LEAST_DAMPING)
    return fit, squares


def _without(
    fit: list[float], points: Sequence[Point], left_out: int
) -> tuple[Two, float] | None:
    """Return by how much a point is missed by the fit to the others, and their squares."""
    others = [p for n, p in enumerate(points) if n != left_out]
    if len(others) < 4 or _step(fit, others, 0.0) is None:
        return None
    found, squares = _improved(fit, others)
    (missed,) = _misfits(found, [points[left_out]])
    return missed, squares


def _step(fit: Sequence[float], points: Sequence[Point], damping: float) -> list[float] | None:
    rows, right, weights = [], [], []
    for (x, y, east, north, weight), (de, dn) in zip(
        points, _misfits(fit, points), strict=True
    ):
        below = fit[6] * x + fit[7] * y + 1.0
        here_e, here_n = east + de, north + dn
        u, v, w = x / below, y / below, 1.0 / below
        rows.append((u, v, w, 0.0, 0.0, 0.0, -here_e * u, -here_e * v))
        rows.append((0.0, 0.0, 0.0, u, v, w, -here_n * u, -here_n * v))
        right += [-de, -dn]
        weights += [weight, weight]
    return _least_squares(rows, right, weights, damping=damping)


def _misfits(fit: Sequence[float], points: Sequence[Point]) -> list[Two]:
    a, b, c, d, e, f, g, h = fit
    found = []
    for x, y, east, north, _ in points:
        below = g * x + h * y + 1.0 or _FLAT
        found.append(((a * x + b * y + c) / below - east, (d * x + e * y + f) / below - north))
    return found


def _squares(fit: Sequence[float], points: Sequence[Point]) -> float:
    misfits = zip(points, _misfits(fit, points), strict=True)
    return math.fsum(p[4] * (e * e + n * n) for p, (e, n) in misfits)


def _least_squares(
    rows: Sequence[Row], right: Row, weights: Row, *, damping: float
) -> list[float] | None:
    """Return the least squares solution; None where the points leave it open."""
    count = len(rows[0])
    weighted = [[w * n for n in row] for w, row in zip(weights, rows, strict=True)]
    normal = [
        [
            math.fsum(p[i] * q[j] for p, q in zip(weighted, rows, strict=True))
            for j in range(count)
        ]
        + [math.fsum(p[i] * t for p, t in zip(weighted, right, strict=True))]
        for i in range(count)
    ]
    for i in range(count):
        normal[i][i] *= 1.0 + damping
    return _eliminated(normal)


def _eliminated(rows: list[list[float]]) -> list[float] | None:
    """Return the solution of equations, their right side last, by Gauss with pivots."""
    count = len(rows)
    largest = max(abs(n) for row in rows for n in row[:count])
    for i in range(count):
        pivot = max(range(i, count), key=lambda k: abs(rows[k][i]))
        rows[i], rows[pivot] = rows[pivot], rows[i]
        if abs(rows[i][i]) < _FLAT * largest:
            return None
        for k in range(count):
            if k != i:
                share = rows[k][i] / rows[i][i]
                rows[k] = [n - share * m for n, m in zip(rows[k], rows[i], strict=True)]
    return [rows[i][count] / rows[i][i] for i in range(count)]


def _fixes_nothing() -> CannotUse:
    return CannotUse(
        "The base plan was not placed, and nothing was changed: for a projective fit there must"
        " be four points of which no three lie in one line. Choose points at the corners of the"
        " plan."
    )
