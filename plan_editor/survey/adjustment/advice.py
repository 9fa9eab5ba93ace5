"""Which extra tape would help most: a point that is weak, unchecked or open, or a blunder."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from plan_editor.geometry.lengths import as_metres
from plan_editor.survey.adjustment.equations import SWING, named
from plan_editor.survey.adjustment.extra_tapes import Extra, Trials, trials
from plan_editor.survey.adjustment.network import answered
from plan_editor.survey.adjustment.observed import (
    Adjusted,
    Found,
    Observed,
    Standing,
    Station,
    Tape,
)
from plan_editor.survey.adjustment.outcome import WEAK_FROM
from plan_editor.survey.adjustment.telling_apart import suspicions

REACH = 30.0
"""Metres of a common tape."""

MANY = 3
"""So many suspected measurements with one mark in common cast doubt on the mark."""

ROUND = 24
"""Places on a circle at which a point with one tie is tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """What to measure next, and why.

    Args:
        text: in plain words.
        why: ``suspect`` or the point's standing.
        point: the point that it is for.
        start, end: between which points to tape; empty where none is in reach.
        metres: what the tape should read, about; None where that is not known.
        sd: the standard deviation that was reckoned with; None where no tape is named.
        before, after: longer semi-axis of the point's 95 % ellipse without and with it, in
            metres; None where the point has no place.
        keys: of the measurements that it is about; of a suspicion only.
    """

    text: str
    why: str
    point: str
    start: str = ""
    end: str = ""
    metres: float | None = None
    sd: float | None = None
    before: float | None = None
    after: float | None = None
    keys: tuple[str, ...] = ()

    @property
    def gain(self) -> float | None:
        """By how many metres the semi-axis shrinks."""
        if self.before is None or self.after is None:
            return None
        return self.before - self.after


def advise(
    adjusted: Adjusted,
    stations: Sequence[Station],
    observed: Sequence[Observed],
    *,
    reach: float = REACH,
) -> tuple[Advice, ...]:
    """Return what to measure next: suspected blunders first, then points, the worst first.

    A tape from a mark, or from a point that is well known, is tried for each; the one after
    which the point's ellipse is smallest, to the centimetre, is named.

    Args:
        adjusted: what ``adjust`` gave of the same stations and book.
        stations: as they went into it.
        observed: likewise.
        reach: the longest tape, in metres on the ground.
    """
    places = {
        p.name: complex(p.east, p.north)
        for p in adjusted.points
        if p.east is not None and p.north is not None
    }
    places |= {SWING + name: complex(degrees) for name, degrees in adjusted.swings}
    answer = answered(stations, observed, places, adjusted.scale_factor)
    trial = trials(answer, adjusted, observed, reach)
    return (*_blunders(adjusted, observed, trial), *_points(adjusted, observed, trial))


def _blunders(
    adjusted: Adjusted, observed: Sequence[Observed], trial: Trials
) -> Iterator[Advice]:
    yield from _marks(adjusted, observed, trial)
    for suspicion in suspicions(adjusted, observed, trial):
        extra = suspicion.extra
        yield Advice(
            text=suspicion.text,
            why="suspect",
            point=suspicion.point,
            start=extra.start if extra else "",
            end=extra.end if extra else "",
            metres=extra.metres if extra else None,
            sd=extra.sd if extra else None,
            keys=suspicion.keys,
        )


def _marks(adjusted: Adjusted, observed: Sequence[Observed], trial: Trials) -> Iterator[Advice]:
    """Return which mark most of many suspected measurements have in common."""
    keys = {m.key for m in adjusted.measurements if m.suspect}
    ones = [one for one in observed if one.key in keys]
    by_mark = Counter(name for one in ones for name in named(one) if name in trial.marks)
    for mark, count in by_mark.most_common(1):
        if count >= MANY and 2 * count > len(ones):
            yield Advice(
                text=f"{count} of {len(ones)} suspected measurements have {mark} in common. "
                "See whether its coordinates are right, and the mark the one that is meant.",
                why="suspect",
                point=mark,
                keys=tuple(one.key for one in ones if mark in named(one)),
            )


def _points(
    adjusted: Adjusted, observed: Sequence[Observed], trial: Trials
) -> Iterator[Advice]:
    of = {
        standing: [p for p in adjusted.points if p.standing is standing and not p.known]
        for standing in Standing
    }
    for point in of[Standing.UNDETERMINED]:
        yield _undetermined(point.name, observed, trial)
    for point in of[Standing.AMBIGUOUS]:
        yield _ambiguous(point, trial)
    for standing in (Standing.WEAK, Standing.UNCHECKED):
        for point in sorted(of[standing], key=lambda p: -(p.ellipse.a if p.ellipse else 0.0)):
            yield _placed(point, trial)


def _placed(point: Found, trial: Trials) -> Advice:
    before = point.ellipse.a if point.ellipse else 0.0
    extras = trial.to(point.name, trial.answer.places[point.name])
    if not extras:
        return _out_of_reach(point.name, point.standing, trial)
    tried = [(trial.semi_axis_after(extra), extra) for extra in extras]
    # of tapes that do as well to the centimetre, the shortest from a mark
    after, extra = min(
        tried,
        key=lambda one: (round(one[0], 2), one[1].start not in trial.marks, one[1].metres),
    )
    tape = f"Tape {point.name} from {extra.start} ({as_metres(extra.metres, 1)})"
    return Advice(
        text=f"{tape}: {_what_for(point, before, after)}.",
        why=point.standing,
        point=point.name,
        start=extra.start,
        end=extra.end,
        metres=extra.metres,
        sd=extra.sd,
        before=before,
        after=after,
    )


def _what_for(point: Found, before: float, after: float) -> str:
    falls = ""
    if as_metres(after) != as_metres(before):
        falls = f"its error falls from {as_metres(before)} to {as_metres(after)}"
    if point.standing is Standing.UNCHECKED:
        return f"nothing checks it yet{falls and f', and {falls}'}"
    if after > WEAK_FROM:
        return f"{falls or 'that helps little'}, and it will need another after that"
    return falls


def _ambiguous(point: Found, trial: Trials) -> Advice:
    places = [complex(*choice) for choice in point.choices]
    by_end: dict[str, list[Extra]] = {}
    for place in places:
        for extra in trial.to(point.name, place):
            by_end.setdefault(extra.start, []).append(extra)
    reached = {end: e for end, e in by_end.items() if len(e) == len(places)}
    if not reached:
        return _out_of_reach(point.name, point.standing, trial)
    end = max(reached, key=lambda end: _least_gap(reached[end]))
    read = " or ".join(as_metres(extra.metres, 1) for extra in reached[end])
    return Advice(
        text=f"Tape {point.name} from {end}: it may lie at {_count(len(places))} places, and "
        f"the tape reads {read}. Or write on which side of its marks it lies.",
        why=point.standing,
        point=point.name,
        start=end,
        end=point.name,
        sd=reached[end][0].sd,
    )


def _least_gap(extras: list[Extra]) -> float:
    return min(abs(a.metres - b.metres) for a, b in combinations(extras, 2))


def _count(number: int) -> str:
    return {2: "two", 3: "three", 4: "four"}.get(number, str(number))


def _undetermined(name: str, observed: Sequence[Observed], trial: Trials) -> Advice:
    tapes = [one for one in observed if isinstance(one, Tape) and name in (one.start, one.end)]
    ties = {one.end if one.start == name else one.start: one for one in tapes}
    placed = sorted(end for end in ties if end in trial.answer.names)
    if not placed:
        return Advice(
            text=f"{name} hangs on nothing whose place is known. Tape it from two marks, and "
            "from a third to check.",
            why=Standing.UNDETERMINED,
            point=name,
        )
    first = placed[0]
    end = _crossing_best(name, first, ties[first].metres, trial)
    if end is None:
        return _out_of_reach(name, Standing.UNDETERMINED, trial)
    known = f"its tie to {first} leaves" if len(placed) == 1 else "its ties leave"
    return Advice(
        text=f"Tape {name} from {end} as well: {known} its place open.",
        why=Standing.UNDETERMINED,
        point=name,
        start=end,
        end=name,
    )


def _crossing_best(name: str, first: str, metres: float, trial: Trials) -> str | None:
    """Return from where a tape would cross a tie best, all round the tie's circle."""
    middle = trial.answer.places[first]
    scale = trial.answer.network.rows.scale_factor
    turns = np.exp(2j * np.pi * np.arange(ROUND) / ROUND)
    worth: dict[str, float] = {}
    for turn in turns.tolist():
        for extra in trial.to(name, middle + metres * scale * turn):
            way = middle + metres * scale * turn - trial.answer.places[extra.start]
            sine = abs((way / abs(way) / turn).imag)
            worth[extra.start] = worth.get(extra.start, 0.0) + sine
    return max(worth, key=lambda end: (worth[end], end), default=None)


def _out_of_reach(name: str, standing: Standing, trial: Trials) -> Advice:
    return Advice(
        text=f"{name} is {standing}, and no mark or well-known point from which it is not "
        f"taped yet lies within {as_metres(trial.reach, 0)}. Set a mark nearer to it.",
        why=standing,
        point=name,
    )
