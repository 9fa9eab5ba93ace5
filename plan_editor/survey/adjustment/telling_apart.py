"""Suspected blunders in words, and the tape that would tell which of two is wrong."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from plan_editor.geometry.bearings import as_degrees
from plan_editor.geometry.lengths import as_metres
from plan_editor.survey.adjustment.equations import measures, named
from plan_editor.survey.adjustment.extra_tapes import Extra, Trials, likeness_after
from plan_editor.survey.adjustment.observed import Adjusted, Bearing, Observed, Offset, Tape
from plan_editor.survey.adjustment.reliability import LEAST_REDUNDANCY

TOO_ALIKE = 0.9
"""Two residuals more alike than this are not told apart: either may be the blunder. Our own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspicion:
    """What to do about a suspected blunder.

    Args:
        text: in plain words.
        keys: of the measurements, any one of which may be the wrong one.
        point: the point that they are about.
        extra: the tape that would tell them apart best; None where there is just one, or none.
    """

    text: str
    keys: tuple[str, ...]
    point: str
    extra: Extra | None = None


def suspicions(
    adjusted: Adjusted, observed: Sequence[Observed], trial: Trials
) -> Iterator[Suspicion]:
    """Return what to do about each suspected blunder, the likeliest first, no two the same."""
    ranks = adjusted.measurements
    rows = _rows(observed, trial)
    order = sorted({m.suspect for m in ranks} - {0})
    told: dict[frozenset[str], Suspicion] = {}
    for rank in order:
        group = [rows[n] for n, m in enumerate(ranks) if m.suspect == rank and n in rows]
        found = _suspicion(group, observed, trial)
        told.setdefault(frozenset(found.keys), found)
    yield from told.values()


def _rows(observed: Sequence[Observed], trial: Trials) -> dict[int, int]:
    """Return the rows of measurements, by their number among what came out."""
    numbered = trial.answer.network.rows.numbered()
    wanted = [(n, what) for n, one in enumerate(observed) for what in measures(one)]
    return {k: numbered[pair] for k, pair in enumerate(wanted) if pair in numbered}


def _suspicion(group: list[int], observed: Sequence[Observed], trial: Trials) -> Suspicion:
    if len(group) == 1:
        group = [*group, *_just_like(group[0], trial)]
    rows = trial.answer.network.rows
    ones = [observed[rows.given[n]] for n in group]
    keys = tuple(one.key for one in ones)
    if len(group) == 1:
        point = named(ones[0])[-1]
        return Suspicion(text=_again(ones[0], group[0], trial), keys=keys, point=point)
    points = _points_of(ones, trial)
    extra = _telling(group, points, trial)
    words = [_words(one, _what(n, trial)) for one, n in zip(ones, group, strict=True)]
    these = f"{', '.join(words[:-1])} or {words[-1]}"
    text = f"One is wrong, and the book does not tell which: {these}."
    if extra is None:
        return Suspicion(text=f"{text} Measure them again.", keys=keys, point=points[0])
    way = f"Tape {extra.end} from {extra.start} ({as_metres(extra.metres, 1)})"
    return Suspicion(text=f"{text} {way} to tell.", keys=keys, point=extra.end, extra=extra)


def _just_like(row: int, trial: Trials) -> list[int]:
    """Return the row whose residual is most like that of a suspected one, if it is too like."""
    answer = trial.answer
    rows, change = answer.network.rows, answer.found.change
    moved = np.concatenate((answer.moved_by(answer.row_pull(row)), np.zeros((1, 2))))
    places = np.where(rows.places < answer.network.unknown, rows.places, -1)
    between = (change * moved[places]).sum(axis=(1, 2))
    sure = rows.sd * np.sqrt(answer.checks.redundancy)
    other = (answer.checks.redundancy >= LEAST_REDUNDANCY) & (rows.given >= 0)
    other[row] = False
    alike = np.abs(between) / np.where(other, sure * sure[row], np.inf)
    most = int(np.argmax(alike))
    return [most] if alike[most] > TOO_ALIKE else []


def _telling(group: list[int], points: list[str], trial: Trials) -> Extra | None:
    """Return the tape after which the rows of a group are least alike."""
    places = trial.answer.places
    extras = [extra for point in points for extra in trial.to(point, places[point])]
    pairs = list(combinations(group, 2))
    alike = [max(likeness_after(trial, pair, extra) for pair in pairs) for extra in extras]
    return extras[int(np.argmin(alike))] if extras else None


def _points_of(ones: list[Observed], trial: Trials) -> list[str]:
    """Return the points that all measurements name, or else all that any names, no marks."""
    names = [{name for name in named(one) if name not in trial.marks} for one in ones]
    shared = set.intersection(*names) or set.union(*names)
    return sorted(shared) or [named(ones[0])[-1]]


def _again(one: Observed, row: int, trial: Trials) -> str:
    """Return the sentence on a measurement that is told from all others."""
    answer = trial.answer
    measured = answer.network.rows.measured[row]
    else_says = measured + answer.found.over[row] / answer.checks.redundancy[row]
    what = _what(row, trial)
    read = as_degrees if what in ("bearing", "angle") else as_metres
    return (
        f"Measure {_words(one, what)} again: {read(measured, 2)} was written, and all the rest "
        f"says {read(else_says, 2)}."
    )


def _what(row: int, trial: Trials) -> str:
    rows = trial.answer.network.rows
    return rows.names[int(np.searchsorted(rows.sorts, row, side="right")) - 1]


def _words(one: Observed, what: str) -> str:
    match one:
        case Tape():
            return f"the tape from {one.start} to {one.end}"
        case Offset():
            line = f"the line from {one.start} to {one.end}"
            measure = "distance of" if what == "along" else "offset of"
            return f"the {measure} {one.point} {'along' if what == 'along' else 'from'} {line}"
        case Bearing():
            return f"the bearing from {one.start} to {one.end}"
        case _:
            return f"the angle at {one.at} from {one.back} to {one.fore}"
