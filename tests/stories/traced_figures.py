"""How well something was traced: each corner of a grave beside where it truly is."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt
from statistics import median

import numpy as np
from counted_hand import Effort
from graves import Space

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

WITHIN_M, NEVER_M, SHARE = 0.25, 0.5, 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What came out.

    Args:
        wanted, traced: graves drawn on the scan, and those of them that are now on the plan.
        strangers: graves on the plan that are none of them.
        numbered: of those traced, how many bear their true number.
        misses: of every corner east and north, in metres, with the stated standard deviation.
    """

    wanted: int
    traced: int
    strangers: int
    numbered: int
    misses: tuple[tuple[float, float, float], ...]

    @property
    def far(self) -> tuple[float, ...]:
        """How far each corner is from where it truly is, in metres."""
        return tuple(sqrt(e * e + n * n) for e, n, _ in self.misses)

    @property
    def near(self) -> float:
        """The share of corners that are near enough."""
        return _share(f <= WITHIN_M for f in self.far)

    @property
    def as_stated(self) -> float:
        """The share of misses, east and north by themselves, within twice what is stated."""
        return _share(abs(m) <= 2 * sd for e, n, sd in self.misses for m in (e, n))

    @property
    def within_circle(self) -> float:
        """The share of corners no farther off than twice what is stated each way."""
        return _share(f <= 2 * m[2] for f, m in zip(self.far, self.misses, strict=True))

    @property
    def rms(self) -> float:
        """Root mean square of the misses, each way."""
        return sqrt(sum(f * f for f in self.far) / (2 * len(self.far)))


def compared(plan: Plan, truth: Iterable[Space]) -> Figures:
    """Return how well graves were traced; which is which is told by where they lie."""
    spaces = list(truth)
    items = [i for i in plan.of(grave.KIND) if i.rectangle is not None]
    found = {s.number: _nearest(s, items) for s in spaces}
    there = {n: i for n, i in found.items() if i is not None}
    misses = [
        (e - e0, n - n0, item.basis.sd_m or 0.0)
        for s in spaces
        if (item := there.get(s.number)) is not None
        for (e, n), (e0, n0) in _pairs(item, s)
    ]
    return Figures(
        wanted=len(spaces),
        traced=len(there),
        strangers=len(items) - len({i.id for i in there.values()}),
        numbered=sum(i.number == n for n, i in there.items()),
        misses=tuple(misses),
    )


def table(figures: Figures, examples: Effort, whole: Effort) -> str:
    """Return what came out, line by line."""
    n = max(1, figures.traced)
    rows = (
        ("graves drawn on the scan", f"{figures.wanted}"),
        ("traced", f"{figures.traced}"),
        ("on the plan, and none of these", f"{figures.strangers}"),
        ("with their true number", f"{figures.numbered}"),
        ("corners within 0.25 m", f"{figures.near:.1%}"),
        ("farthest corner", f"{max(figures.far):.3f} m"),
        ("half of the corners within", f"{median(figures.far):.3f} m"),
        ("root mean square, each way", f"{figures.rms:.3f} m"),
        ("mean, east and north", f"{_mean(figures, 0):+.3f}, {_mean(figures, 1):+.3f} m"),
        ("stated standard deviation", _stated(figures)),
        ("misses each way within twice that", f"{figures.as_stated:.1%}"),
        ("corners within twice that in all", f"{figures.within_circle:.1%}"),
        ("for the examples", f"{_told(examples)}"),
        ("in all", f"{_told(whole)}"),
        ("clicks a grave", f"{whole.clicks / n:.2f}"),
        ("keystrokes a grave", f"{whole.keys / n:.2f}"),
        ("clicks and keystrokes a grave", f"{(whole.clicks + whole.keys) / n:.2f}"),
    )
    wide = max(len(title) for title, _ in rows)
    return "\n".join(f"{title:<{wide}}  {value}" for title, value in rows)


def _nearest(space: Space, items: list[Item]) -> Item | None:
    truth = space.rectangle.outline()
    over = [i for i in items if i.shape is not None and i.shape.intersects(truth)]
    best = max(over, key=lambda i: i.shape.intersection(truth).area, default=None)
    if best is None or best.shape.intersection(truth).area < truth.area / 2:
        return None
    return best


def _pairs(
    item: Item, space: Space
) -> Iterable[tuple[tuple[float, float], tuple[float, float]]]:
    rectangle = item.rectangle
    assert isinstance(rectangle, Rectangle)
    return zip(rectangle.corners(), space.rectangle.corners(), strict=True)


def _share(true: Iterable[bool]) -> float:
    told = list(true)
    return sum(told) / len(told)


def _mean(figures: Figures, which: int) -> float:
    return float(np.mean([m[which] for m in figures.misses]))


def _stated(figures: Figures) -> str:
    return ", ".join(f"{sd:.3f} m" for sd in sorted({m[2] for m in figures.misses}))


def _told(effort: Effort) -> str:
    return f"{effort.clicks} clicks, {effort.keys} keys, {effort.notches} notches of the wheel"
