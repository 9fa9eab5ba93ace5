"""Points that are sifted out before they come on the plan: far from the others, or twice."""

from dataclasses import dataclass
from itertools import pairwise
from math import cos, hypot, radians
from statistics import median

from plan_editor.exchange.points import FilePoint
from plan_editor.plan.checks import spoken

FAR_M = 5_000.0
"""A point farther than this from the middle of the others is not of this churchyard."""

ONE_PLACE_M = 0.1
"""One name measured twice, nearer than this, is one point; the first is taken."""

SAME_M = 0.005
"""Two points of different names nearer than this are perhaps one."""

_DEGREE_M = 111_200.0
"""Of latitude, to a part in two hundred."""

_MOST = 5
"""So many are named in one sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sifted:
    """What is left of some points, and why the others are not.

    Args:
        points: in their order.
        left_out: a sentence for each that is not taken.
        warnings: whole sentences.
        metres: of a unit of x and of y, about there.
    """

    points: tuple[FilePoint, ...]
    left_out: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    metres: tuple[float, float] = (1.0, 1.0)


def alone(points: tuple[FilePoint, ...], *, degrees: bool) -> Sifted:
    """Return points without those that lie far from the middle of all."""
    x, y = median(p.x for p in points), median(p.y for p in points)
    metres = (_DEGREE_M * cos(radians(y)), _DEGREE_M) if degrees else (1.0, 1.0)
    kept, left_out = [], []
    for point in points:
        off = hypot((point.x - x) * metres[0], (point.y - y) * metres[1])
        if off <= FAR_M:
            kept.append(point)
        else:
            left_out.append(_far(point, off, (x, y)))
    return Sifted(points=tuple(kept), left_out=tuple(left_out), metres=metres)


def twice(sifted: Sifted) -> Sifted:
    """Return points with each name once.

    Of a name that was measured twice at one place the first is taken; where the places differ
    none is, since nobody can tell which is right.
    """
    by_name: dict[str, list[FilePoint]] = {}
    for point in sifted.points:
        by_name.setdefault(spoken(point.name) or f"\0{point.line}", []).append(point)
    dropped: set[int] = set()
    left_out: list[str] = []
    for group in (g for g in by_name.values() if len(g) > 1):
        first = group[0]
        off = max(_apart(first, p, sifted.metres) for p in group)
        lines = ", ".join(str(p.line) for p in group)
        told = f"{first.name} comes {len(group)} times (lines {lines}), up to {off:.2f} m apart"
        if off <= ONE_PLACE_M:
            dropped.update(p.line for p in group[1:])
            left_out.append(f"{told}: the first was taken.")
        else:
            dropped.update(p.line for p in group)
            left_out.append(f"{told}: none was taken, for nobody can tell which is right.")
    kept = tuple(p for p in sifted.points if p.line not in dropped)
    return Sifted(
        points=kept,
        left_out=(*sifted.left_out, *left_out),
        warnings=_one_place(kept, sifted.metres),
        metres=sifted.metres,
    )


def _far(point: FilePoint, off: float, middle: tuple[float, float]) -> str:
    name = f"{point.name} (line {point.line})" if point.name else f"Line {point.line}"
    x, y = middle
    exchanged = hypot(point.y - x, point.x - y) * 10 < hypot(point.x - x, point.y - y)
    why = "; its coordinates seem to be exchanged" if exchanged else ""
    return f"{name} was left out: it lies {off / 1000:,.0f} km from the others{why}."


def _apart(one: FilePoint, other: FilePoint, metres: tuple[float, float]) -> float:
    return hypot((one.x - other.x) * metres[0], (one.y - other.y) * metres[1])


def _one_place(points: tuple[FilePoint, ...], metres: tuple[float, float]) -> tuple[str, ...]:
    """Return what is said of points of different names at one place."""
    loose = [p for p in points if not p.joined]
    order = sorted(loose, key=lambda p: (p.x, p.y))
    pairs = [
        f"{one.name or one.line} and {other.name or other.line}"
        for one, other in pairwise(order)
        if one.code == other.code and _apart(one, other, metres) <= SAME_M
    ]
    if not pairs:
        return ()
    more = f", and {len(pairs) - _MOST} more pairs" if len(pairs) > _MOST else ""
    return (f"At one place lie {'; '.join(pairs[:_MOST])}{more}. Both of each are taken.",)
