"""What one more tape would do, told before it is measured.

Adding one measurement changes the covariance by a matrix of rank one (Sherman and Morrison,
Annals of Mathematical Statistics 21, 1950), so each tape is tried without adjusting again.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

import numpy as np

from plan_editor.survey.adjustment.dissection import Real
from plan_editor.survey.adjustment.ellipses import CHI_SQUARE_95
from plan_editor.survey.adjustment.observed import Adjusted, Observed, Standing, Tape
from plan_editor.survey.adjustment.outcome import Answer
from plan_editor.survey.adjustment.taping import usual

SHORTEST = 1.0
"""Nobody tapes a point from nearer than this to see where it is; metres."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """A tape that could be added between two points.

    Args:
        start, end: names; ``end`` is the point that it is for.
        metres: what it would read, on the ground.
        sd: standard deviation that is expected of it.
    """

    start: str
    end: str
    metres: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Trials:
    """Tapes that could be added, over a network that is adjusted.

    Args:
        answer: the network.
        ends: names of points that may be taped from, the best known first.
        marks: names of stations.
        taped: pairs of names between which there is a tape.
        usual_sd: of a tape in this book; None where there is none in it.
        reach: of a tape, in metres on the ground.
    """

    answer: Answer
    ends: tuple[str, ...]
    marks: frozenset[str]
    taped: frozenset[frozenset[str]]
    usual_sd: float | None
    reach: float

    def to(self, point: str, at: complex) -> tuple[Extra, ...]:
        """Return all that could be added to a point that lies at a place."""
        places = self.answer.places
        scale = self.answer.network.rows.scale_factor
        extras = []
        for end in self.ends:
            metres = abs(places[end] - at) / scale
            fresh = end != point and frozenset((end, point)) not in self.taped
            if fresh and SHORTEST <= metres <= self.reach:
                sd = self.usual_sd or usual().tape.sd(metres)
                extras.append(Extra(start=end, end=point, metres=metres, sd=sd))
        return tuple(extras)

    def semi_axis_after(self, extra: Extra) -> float:
        """Return the longer semi-axis of the 95 % ellipse of its end once it is added."""
        pull = self.pull(extra)
        n = self.answer.number(extra.end)
        own = self.answer.covariances[n]
        moved = self.answer.moved_by(pull)
        after = own - np.outer(moved[n], moved[n]) / (extra.sd**2 + float(np.sum(pull * moved)))
        return float(np.sqrt(CHI_SQUARE_95 * np.linalg.eigvalsh(after)[-1]))

    def pull(self, extra: Extra) -> Real:
        """Return how a tape's length changes with each place looked for, unknown by 2."""
        a, b = self.answer.places[extra.start], self.answer.places[extra.end]
        unit = (b - a) / abs(b - a) / self.answer.network.rows.scale_factor
        pull = np.zeros((self.answer.network.unknown + 1, 2))  # held points share the last
        for name, way in ((extra.start, -unit), (extra.end, unit)):
            pull[min(self.answer.number(name), len(pull) - 1)] = (way.real, way.imag)
        return pull[:-1]


def trials(
    answer: Answer, adjusted: Adjusted, observed: Sequence[Observed], reach: float
) -> Trials:
    """Return the tapes that could be added, from marks and from points that are well known."""
    good = [p for p in adjusted.points if p.known or p.standing is Standing.GOOD]
    tapes = [one for one in observed if isinstance(one, Tape)]
    return Trials(
        answer=answer,
        ends=tuple(p.name for p in sorted(good, key=lambda p: (not p.known, p.name))),
        marks=frozenset(p.name for p in adjusted.points if p.known),
        taped=frozenset(frozenset((one.start, one.end)) for one in tapes),
        usual_sd=median(one.sd for one in tapes) if tapes else None,
        reach=reach,
    )


def likeness_after(trial: Trials, rows: tuple[int, int], extra: Extra) -> float:
    """Return how alike two standardised residuals would be, 0 to 1, once a tape is added.

    At 1 nothing tells a blunder in the one from one in the other. Source of separability:
    Förstner, Reliability and discernability of extended Gauss-Markov models, Deutsche
    Geodätische Kommission A 98, 1983.
    """
    answer = trial.answer
    pull = trial.pull(extra)
    moved = answer.moved_by(pull)
    sure = extra.sd**2 + float(np.sum(pull * moved))
    ties = [answer.row_pull(n) for n in rows]
    by = [float(np.sum(tie * moved)) for tie in ties]
    before = answer.residual_covariance(rows)
    return likeness(before + np.outer(by, by) / sure)


def likeness(covariance: Real) -> float:
    """Return the correlation of two residuals, without its sign."""
    (a, between), (_, b) = covariance.tolist()
    return min(1.0, abs(between) / float(np.sqrt(a * b))) if a > 0.0 < b else 1.0
