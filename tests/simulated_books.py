"""Field books of invented churchyards, with chance errors of known size."""

import math
from dataclasses import dataclass, replace

import numpy as np

from plan_editor.survey.adjustment.observed import Hand, Observed, Offset, Station, Tape

TAPE_SD = 0.02
OFFSET_SD = 0.03
REACH = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SimulatedBook:
    """A book and what its maker knows."""

    stations: tuple[Station, ...]
    observed: tuple[Observed, ...]
    hands: tuple[Hand, ...]
    truth: dict[str, complex]

    def with_blunder(self, number: int, what: str, sds: float) -> "SimulatedBook":
        """Return the book with one of its figures wrong by so many standard deviations."""
        one = self.observed[number]
        if isinstance(one, Tape):
            wrong: Observed = replace(one, metres=one.metres + sds * one.sd)
        else:
            assert isinstance(one, Offset)
            wrong = replace(one, **{what: getattr(one, what) + sds * one.sd})
        return replace(
            self, observed=(*self.observed[:number], wrong, *self.observed[number + 1 :])
        )


def simulated(seed: int) -> SimulatedBook:
    """Return a book of 6 to 14 marks round a church and 15 to 40 points.

    Most points have 2 to 5 ties, some an offset from a base line between marks; half as many
    checks between neighbours as there are points. A point of two ties has its side stated.
    """
    chance = np.random.default_rng(seed)
    marks = _marks(chance)
    points = {f"P{n}": _spot(chance) for n in range(1, int(chance.integers(15, 41)) + 1)}
    truth = {**marks, **points}
    observed: list[Observed] = []
    hands: list[Hand] = []
    for name in points:
        if chance.random() < 0.2:
            observed += _offset(name, marks, truth, chance)
            continue
        ties = _ties(name, marks, truth, int(chance.integers(2, 6)), chance)
        observed += ties
        if len(ties) == 2:
            hands.append(_hand(name, ties, truth))
    observed += _checks(points, truth, chance)
    sd = float(chance.choice([0.0, 0.01]))
    stations = tuple(
        Station(name=n, east=z.real + sd * e, north=z.imag + sd * f, sd=sd)
        for (n, z), (e, f) in zip(
            marks.items(), chance.standard_normal((len(marks), 2)).tolist(), strict=True
        )
    )
    return SimulatedBook(
        stations=stations, observed=tuple(observed), hands=tuple(hands), truth=truth
    )


def tape(start: str, end: str, truth: dict[str, complex], chance: np.random.Generator) -> Tape:
    """Return a distance as it would be read."""
    read = abs(truth[end] - truth[start]) + TAPE_SD * chance.standard_normal()
    return Tape(key=f"{start} {end}", start=start, end=end, metres=float(read), sd=TAPE_SD)


def _marks(chance: np.random.Generator) -> dict[str, complex]:
    """Return corners of a church of 24 by 11 m, and ends of walls of a yard of 64 by 52 m."""
    church = [complex(20 + e, 20 + n) for e in (0, 12, 24) for n in (0, 11)]
    walls = [0j, 32 + 0j, 64 + 0j, 64 + 26j, 64 + 52j, 32 + 52j, 52j, 26j]
    more = chance.permutation(len(walls))[: int(chance.integers(0, 9))]
    wobble = chance.uniform(-1.0, 1.0, (len(church) + len(walls), 2))
    places = [*church, *(walls[n] for n in more)]
    return {f"M{n + 1}": place + complex(*wobble[n].tolist()) for n, place in enumerate(places)}


def _spot(chance: np.random.Generator) -> complex:
    """Return a place in the yard and outside the church."""
    while True:
        east, north = chance.uniform(2.0, 62.0), chance.uniform(2.0, 50.0)
        if not (18.0 < east < 46.0 and 18.0 < north < 33.0):
            return complex(east, north)


def _ties(
    name: str,
    marks: dict[str, complex],
    truth: dict[str, complex],
    count: int,
    chance: np.random.Generator,
) -> list[Tape]:
    """Return ties from near marks, of which the first two cross at more than 25 degrees."""
    near = sorted(marks, key=lambda mark: abs(truth[mark] - truth[name]))[: count + 2]
    order = [near[n] for n in chance.permutation(len(near))]
    crossing = [
        (a, b)
        for n, a in enumerate(order)
        for b in order[:n]
        if _sine(truth[name], truth[a], truth[b]) > math.sin(math.radians(25))
    ]
    first = crossing[0] if crossing else tuple(order[:2])
    chosen = [*first, *(mark for mark in order if mark not in first)][:count]
    return [tape(mark, name, truth, chance) for mark in chosen]


def _hand(name: str, ties: list[Tape], truth: dict[str, complex]) -> Hand:
    a, b = ties[0].start, ties[1].start
    right = ((truth[name] - truth[a]) / (truth[b] - truth[a])).imag < 0
    return Hand(point=name, start=a, end=b, right=right)


def _offset(
    name: str,
    marks: dict[str, complex],
    truth: dict[str, complex],
    chance: np.random.Generator,
) -> list[Observed]:
    start, end = (list(marks)[n] for n in chance.permutation(len(marks))[:2])
    way = truth[end] - truth[start]
    out = (truth[name] - truth[start]) / (way / abs(way))
    error = OFFSET_SD * chance.standard_normal(2)
    return [
        Offset(
            key=f"{start} {end} {name}",
            start=start,
            end=end,
            point=name,
            along=float(out.real + error[0]),
            aside=float(-out.imag + error[1]),
            sd=OFFSET_SD,
        )
    ]


def _checks(
    points: dict[str, complex], truth: dict[str, complex], chance: np.random.Generator
) -> list[Tape]:
    names = list(points)
    found: dict[tuple[str, str], Tape] = {}
    for name in chance.permutation(names)[: len(names) // 2].tolist():
        near = sorted(names, key=lambda other: abs(truth[other] - truth[name]))[1]
        pair = (min(name, near), max(name, near))
        found[pair] = tape(*pair, truth, chance)
    return list(found.values())


def _sine(point: complex, a: complex, b: complex) -> float:
    ways = (a - point) * (b - point).conjugate()
    return abs(ways.imag) / abs(ways)


def cemetery(count: int, seed: int = 0) -> SimulatedBook:
    """Return a large book: points 2.5 m apart, each with 3 ties and 2 checks to neighbours.

    The marks stand about 14 m apart, known to 0.01 m; 5 measurements to a point.
    """
    chance = np.random.default_rng(seed)
    side = math.ceil(math.sqrt(count))
    spots = [complex(2.5 * (n % side), 2.5 * (n // side)) for n in range(count)]
    wobble = chance.uniform(-1.0, 1.0, (count, 2)) @ np.array([1.0, 1.0j])
    truth = {
        f"P{n}": z + complex(w) for n, (z, w) in enumerate(zip(spots, wobble, strict=True))
    }
    marks = _mark_grid(2.5 * side, chance)
    truth |= marks
    names, places = list(marks), np.array(list(marks.values()))
    observed: list[Observed] = []
    for n in range(count):
        name = f"P{n}"
        near = np.argsort(np.abs(places - truth[name]))[:6]
        observed += [tape(names[k], name, truth, chance) for k in chance.permutation(near)[:3]]
        for other in (n + 1, n + side):
            observed.append(tape(name, f"P{other % count}", truth, chance))
    stations = tuple(
        Station(
            name=name,
            east=z.real + 0.01 * chance.standard_normal(),
            north=z.imag + 0.01 * chance.standard_normal(),
            sd=0.01,
        )
        for name, z in marks.items()
    )
    return SimulatedBook(stations=stations, observed=tuple(observed), hands=(), truth=truth)


def _mark_grid(width: float, chance: np.random.Generator) -> dict[str, complex]:
    steps = np.arange(-2.0, width + 14.0, 14.0).tolist()
    return {
        f"M{i}.{k}": complex(east + chance.uniform(-3, 3), north + chance.uniform(-3, 3))
        for i, east in enumerate(steps)
        for k, north in enumerate(steps)
    }
