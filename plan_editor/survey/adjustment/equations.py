"""Measurements as rows of numbers: what they would be at given places, and how that changes.

A row is one number measured between up to three places; a place is a point (east, north) or a
swing (degrees, nothing). Metres on the grid are metres on the ground times the scale factor.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from plan_editor.survey.adjustment.dissection import Real, Whole
from plan_editor.survey.adjustment.observed import (
    Angle,
    Bearing,
    Observed,
    Offset,
    Station,
    Tape,
)

SWING = "\0swing of "
"""What comes before the name of a swing among the places; no point is called so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """All measurements of a network, sort by sort.

    The sorts are tapes, offsets along, offsets aside, bearings, angles, and the coordinates of
    stations, east and north.

    Args:
        sorts: where each sort begins, and where the last ends.
        places: n by 3, numbers of the places of a row, -1 where it has fewer.
        measured: n, in ground metres or degrees.
        sd: n, standard deviations, likewise.
        given: n, the number in the book of the measurement that the row belongs to, -1 for a
            station.
        scale_factor: grid metres to a metre on the ground.
    """

    sorts: tuple[int, ...]
    places: Whole
    measured: Real
    sd: Real
    given: Whole
    scale_factor: float

    @property
    def names(self) -> tuple[str, ...]:
        """Return what each sort measures."""
        return ("distance", "along", "aside", "bearing", "angle", "east", "north")

    def of(self, sort: int) -> slice:
        """Return which rows are of a sort, by its number in ``names``."""
        return slice(self.sorts[sort], self.sorts[sort + 1])

    def numbered(self) -> dict[tuple[int, str], int]:
        """Return the rows of the book, by number in the book and what is measured."""
        row: dict[tuple[int, str], int] = {}
        for sort, what in enumerate(self.names[:5]):
            of = self.of(sort)
            numbers = self.given[of].tolist()
            row.update(((n, what), of.start + k) for k, n in enumerate(numbers))
        return row

    def linear(self, at: Real) -> tuple[Real, Real]:
        """Return by how much what is computed exceeds what was measured, and how that changes.

        Args:
            at: p by 2, east and north of the points, degrees and 0 of the swings.

        Returns:
            n numbers, and n by 3 by 2 changes to a metre (or degree) of each place's numbers.
        """
        at = np.concatenate((at, np.zeros((1, 2))))  # -1 is nothing, and a swing of nothing
        computed = np.empty(len(self.measured))
        change = np.zeros((len(self.measured), 3, 2))
        for sort, formula in enumerate(_FORMULAS):
            rows = self.of(sort)
            if rows.start < rows.stop:
                where = at[self.places[rows]]
                computed[rows], change[rows] = formula(where, self.scale_factor)
        over = computed - self.measured
        turned = slice(self.sorts[3], self.sorts[5])
        over[turned] = (over[turned] + 180.0) % 360.0 - 180.0
        return over, change


def rows_of(
    stations: Sequence[Station],
    observed: Sequence[Observed],
    place: Mapping[str, int],
    scale_factor: float,
) -> Rows:
    """Return a book as rows.

    Args:
        stations: those with a standard deviation above 0 are measured coordinates.
        observed: the book; what names a place that is not in ``place`` is left out.
        place: numbers of the places by name; a swing's name begins with ``SWING``.
        scale_factor: grid metres to a metre on the ground.
    """
    parts: tuple[list[tuple[int, int, int, float, float, int]], ...] = tuple(
        [] for _ in _FORMULAS
    )
    for number, one in enumerate(observed):
        for sort, names, measured, sd in _numbers(one):
            at = [place.get(name, -2) if name else -1 for name in names]
            if -2 not in at:
                parts[sort].append((at[0], at[1], at[2], measured, sd, number))
    for station in stations:
        if station.sd > 0.0 and station.name in place:
            one_place = (place[station.name], -1, -1)
            parts[5].append((*one_place, station.east, station.sd, -1))
            parts[6].append((*one_place, station.north, station.sd, -1))
    table = np.array([row for part in parts for row in part], dtype=float).reshape(-1, 6)
    return Rows(
        sorts=(0, *np.cumsum([len(part) for part in parts]).tolist()),
        places=table[:, :3].astype(np.int64),
        measured=table[:, 3],
        sd=table[:, 4],
        given=table[:, 5].astype(np.int64),
        scale_factor=scale_factor,
    )


def named(one: Observed) -> tuple[str, ...]:
    """Return the points that a measurement lies between."""
    match one:
        case Tape() | Bearing():
            return one.start, one.end
        case Offset():
            return one.start, one.end, one.point
        case _:
            return one.at, one.back, one.fore


def measures(one: Observed) -> tuple[str, ...]:
    """Return what the one or two numbers of a measurement measure."""
    match one:
        case Offset():
            return "along", "aside"
        case Bearing():
            return ("bearing",)
        case Angle():
            return ("angle",)
        case _:
            return ("distance",)


_Number = tuple[int, tuple[str, str, str], float, float]


def _numbers(one: Observed) -> tuple[_Number, ...]:
    """Return sort, names, measured and sd of the one or two numbers of a measurement."""
    match one:
        case Tape():
            return ((0, (one.start, one.end, ""), one.metres, one.sd),)
        case Offset():
            names = (one.start, one.end, one.point)
            return (1, names, one.along, one.sd), (2, names, one.aside, one.sd)
        case Bearing():
            swing = SWING + one.swing if one.swing else ""
            return ((3, (one.start, one.end, swing), one.degrees, one.sd_deg),)
        case _:
            return ((4, (one.at, one.back, one.fore), one.degrees, one.sd_deg),)


_Computed = tuple[Real, Real]


def _distance(where: Real, scale_factor: float) -> _Computed:
    unit, length = _way(where[:, 0], where[:, 1])
    change = np.zeros_like(where)
    change[:, 1] = unit / scale_factor
    change[:, 0] = -change[:, 1]
    return length / scale_factor, change


def _along(where: Real, scale_factor: float) -> _Computed:
    unit, length = _way(where[:, 0], where[:, 1])
    right = _to_the_right(unit)
    out = where[:, 2] - where[:, 0]
    aside = _dot(out, right)
    # turning the line by a little turns the foot by as much times the offset
    swung = right * (aside / length)[:, None]
    change = np.stack((-unit - swung, swung, unit), axis=1)
    return _dot(out, unit) / scale_factor, change / scale_factor


def _aside(where: Real, scale_factor: float) -> _Computed:
    unit, length = _way(where[:, 0], where[:, 1])
    right = _to_the_right(unit)
    out = where[:, 2] - where[:, 0]
    swung = right * (_dot(out, unit) / length)[:, None]
    change = np.stack((swung - right, -swung, right), axis=1)
    return _dot(out, right) / scale_factor, change / scale_factor


def _bearing(where: Real, _: float) -> _Computed:
    degrees, turn = _direction(where[:, 0], where[:, 1])
    change = np.stack((-turn, turn, np.zeros_like(turn)), axis=1)
    change[:, 2, 0] = -1.0
    return degrees - where[:, 2, 0], change


def _angle(where: Real, _: float) -> _Computed:
    back, back_turn = _direction(where[:, 0], where[:, 1])
    fore, fore_turn = _direction(where[:, 0], where[:, 2])
    change = np.stack((back_turn - fore_turn, -back_turn, fore_turn), axis=1)
    return fore - back, change


def _east(where: Real, _: float) -> _Computed:
    change = np.zeros_like(where)
    change[:, 0, 0] = 1.0
    return where[:, 0, 0], change


def _north(where: Real, _: float) -> _Computed:
    change = np.zeros_like(where)
    change[:, 0, 1] = 1.0
    return where[:, 0, 1], change


_FORMULAS = (_distance, _along, _aside, _bearing, _angle, _east, _north)


def _way(start: Real, end: Real) -> tuple[Real, Real]:
    """Return direction and length of ways; of one without length, north and a nanometre."""
    way = end - start
    length = np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-9)
    unit = way / length[:, None]
    unit[length <= 1e-9] = (0.0, 1.0)
    return unit, length


def _direction(start: Real, end: Real) -> tuple[Real, Real]:
    """Return bearings in degrees, and how they change to a metre of the end."""
    unit, length = _way(start, end)
    turn = np.degrees(_to_the_right(unit) / length[:, None])
    return np.degrees(np.arctan2(unit[:, 0], unit[:, 1])), turn


def _to_the_right(unit: Real) -> Real:
    return np.stack((unit[:, 1], -unit[:, 0]), axis=1)


def _dot(a: Real, b: Real) -> Real:
    total: Real = a[:, 0] * b[:, 0] + a[:, 1] * b[:, 1]
    return total
