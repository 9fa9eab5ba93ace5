"""What came out of an adjustment, told point by point and measurement by measurement."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain

import numpy as np
import numpy.typing as npt

from plan_editor.survey.adjustment.dissection import Real, Whole
from plan_editor.survey.adjustment.ellipses import CHI_SQUARE_95, ellipse_95
from plan_editor.survey.adjustment.equations import SWING, measures, named
from plan_editor.survey.adjustment.normal import Network, Settled
from plan_editor.survey.adjustment.observed import (
    Adjusted,
    Checked,
    Ellipse,
    Found,
    Observed,
    Standing,
    Station,
)
from plan_editor.survey.adjustment.reliability import LEAST_REDUNDANCY, Reliability, suspects
from plan_editor.survey.adjustment.worlds import Start

WEAK_FROM = 0.10
"""A point is weak from this semi-axis of its 95 % ellipse on, in metres.

Our own rule, as no published one was found for tapes in churchyards: 0.10 m is where imported
coordinates are warned of as well, and about the half of a common gap between grave spaces.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A network at its least squares.

    Args:
        names: of the places, those looked for first.
        network, found: the sums.
        covariances: unknown by 2 by 2.
        checks: of the rows.
    """

    names: tuple[str, ...]
    network: Network
    found: Settled
    covariances: Real
    checks: Reliability

    @property
    def places(self) -> dict[str, complex]:
        """Return the places found, by name."""
        pairs = zip(self.names, self.found.at.tolist(), strict=True)
        return {name: complex(east, north) for name, (east, north) in pairs}

    def number(self, name: str) -> int:
        """Return which of the places a point is."""
        return self.names.index(name)

    def moved_by(self, pull: Real) -> Real:
        """Return the covariance of all places looked for with a linear form of them.

        Args:
            pull: unknown by 2, the form's coefficients.
        """
        return self.found.factor.solved(pull[:, :, None])[:, :, 0]

    def row_pull(self, row: int) -> Real:
        """Return the coefficients of a row, unknown by 2."""
        pull = np.zeros((self.network.unknown, 2))
        for place, change in zip(
            self.network.rows.places[row], self.found.change[row], strict=True
        ):
            if 0 <= place < self.network.unknown:
                pull[place] += change
        return pull

    def residual_covariance(self, rows: Sequence[int]) -> Real:
        """Return the covariance of the residuals of some rows, square."""
        pulls = [self.row_pull(n) for n in rows]
        moved = [self.moved_by(pull) for pull in pulls]
        spread = np.diag(self.network.rows.sd[list(rows)] ** 2)
        return np.asarray(spread - np.array([[np.sum(a * b) for b in moved] for a in pulls]))


def told(
    stations: Sequence[Station],
    observed: Sequence[Observed],
    start: Start,
    answer: Answer,
    scale_factor: float,
) -> Adjusted:
    """Return an answer in words of the field book."""
    rows, found = answer.network.rows, answer.found
    surplus = len(rows.measured) - 2 * answer.network.unknown + answer.network.swings
    ranks = _ranks(answer)
    squares = float(np.sum((found.over / rows.sd) ** 2))
    return Adjusted(
        points=_points(stations, observed, start, answer=answer, ranks=ranks),
        measurements=_measurements(observed, answer, ranks),
        dof=surplus,
        s0=math.sqrt(squares / surplus) if surplus > 0 else None,
        scale_factor=scale_factor,
        swings=tuple(
            (name.removeprefix(SWING), float(found.at[n, 0]))
            for n, name in enumerate(answer.names)
            if name.startswith(SWING)
        ),
    )


def _ranks(answer: Answer) -> Whole:
    """Return of each row how soon it is suspected of a blunder: 1 first, 0 not at all."""
    ranks = np.zeros(len(answer.network.rows.measured), dtype=np.int64)
    for number, group in enumerate(
        suspects(answer.network, answer.found, answer.checks), start=1
    ):
        ranks[group] = np.where(ranks[group] == 0, number, ranks[group])
    return ranks


def _points(
    stations: Sequence[Station],
    observed: Sequence[Observed],
    start: Start,
    *,
    answer: Answer,
    ranks: Whole,
) -> tuple[Found, ...]:
    known = [s.name for s in stations]
    stood, others = set(known), set(chain.from_iterable(named(one) for one in observed))
    place = {name: n for n, name in enumerate(answer.names)}
    checks, given = answer.checks, answer.network.rows.given >= 0
    checked = _touched(answer, (checks.redundancy >= LEAST_REDUNDANCY) & given)
    carried = checked & _carried(answer, np.flatnonzero(ranks))
    doubted = _touched(answer, ranks > 0) | carried

    def found(name: str) -> Found:
        n, held = place[name], name in stood
        return _found(
            answer,
            n,
            known=held,
            checked=held or bool(checked[n]),
            doubted=not held and bool(doubted[n]),
        )

    return tuple(
        found(name) if name in place else _open(name, start.choices.get(name, ()))
        for name in (*known, *sorted(others - stood))
    )


def _touched(answer: Answer, chosen: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """Return which places some of the chosen measurements touch."""
    touched = np.zeros(len(answer.names) + 1, dtype=bool)
    touched[answer.network.rows.places[chosen].ravel()] = True
    return touched[:-1]


def _carried(answer: Answer, suspected: Whole) -> npt.NDArray[np.bool_]:
    """Return which places some suspected measurement carries out of their 95 % ellipses.

    Left out by itself, a row of residual v, variance s² and redundancy r takes the places
    Q a v / (s² r) away. Source: Cook, Detection of influential observation in linear
    regression, Technometrics 19, 1977.
    """
    points = answer.network.unknown - answer.network.swings
    carried = np.zeros(len(answer.names), dtype=bool)
    own = answer.covariances[:points]
    ee, en, nn = own[:, 0, 0], own[:, 0, 1], own[:, 1, 1]
    for row in suspected.tolist():
        by = answer.found.over[row] / answer.checks.redundancy[row]
        moved = answer.moved_by(answer.row_pull(row))[:points]
        east, north = (moved * by / answer.network.rows.sd[row] ** 2).T
        far = nn * east**2 - 2 * en * east * north + ee * north**2
        carried[:points] |= far > CHI_SQUARE_95 * (ee * nn - en**2)
    return carried


def _open(name: str, choices: tuple[complex, ...]) -> Found:
    return Found(
        name=name,
        east=None,
        north=None,
        sd_east=None,
        sd_north=None,
        ellipse=None,
        standing=Standing.AMBIGUOUS if len(choices) > 1 else Standing.UNDETERMINED,
        choices=tuple((z.real, z.imag) for z in choices) if len(choices) > 1 else (),
    )


def _found(answer: Answer, n: int, *, known: bool, checked: bool, doubted: bool) -> Found:
    east, north = answer.found.at[n].tolist()
    ((ee, en), (_, nn)) = (
        answer.covariances[n].tolist() if n < answer.network.unknown else ((0.0, 0.0),) * 2
    )
    ellipse = ellipse_95(ee, en, nn)
    return Found(
        name=answer.names[n],
        east=east,
        north=north,
        sd_east=math.sqrt(ee),
        sd_north=math.sqrt(nn),
        ellipse=ellipse,
        standing=_standing(ellipse, checked=checked, doubted=doubted),
        known=known,
    )


def _standing(ellipse: Ellipse, *, checked: bool, doubted: bool) -> Standing:
    if ellipse.a > WEAK_FROM:
        return Standing.WEAK
    if doubted:
        return Standing.SUSPECTED
    return Standing.GOOD if checked else Standing.UNCHECKED


def _measurements(
    observed: Sequence[Observed], answer: Answer, ranks: Whole
) -> tuple[Checked, ...]:
    """Return what came of each measurement, in the order of the book."""
    rows, checks = answer.network.rows, answer.checks
    row_of = rows.numbered()
    columns = (
        answer.found.over.tolist(),
        checks.standardised.tolist(),
        checks.redundancy.tolist(),
        ranks.tolist(),
    )
    told = []
    for number, one in enumerate(observed):
        for what in measures(one):
            n = row_of.get((number, what))
            told.append(
                _unused(one.key, what) if n is None else _checked(one.key, what, n, columns)
            )
    return tuple(told)


def _unused(key: str, what: str) -> Checked:
    return Checked(
        key=key, what=what, residual=0.0, standardised=None, redundancy=0.0, used=False
    )


def _checked(
    key: str,
    what: str,
    n: int,
    columns: tuple[list[float], list[float], list[float], list[int]],
) -> Checked:
    over, standardised, redundancy, rank = columns
    telling = redundancy[n] >= LEAST_REDUNDANCY
    return Checked(
        key=key,
        what=what,
        residual=over[n],
        standardised=standardised[n] if telling else None,
        redundancy=redundancy[n],
        suspect=rank[n],
    )
