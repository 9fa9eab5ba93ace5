"""The adjustment: one least-squares answer from all that was measured."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from plan_editor.errors import CannotUse
from plan_editor.survey.adjustment.equations import SWING, named, rows_of
from plan_editor.survey.adjustment.normal import network_of, settled
from plan_editor.survey.adjustment.observed import (
    Adjusted,
    Angle,
    Bearing,
    Hand,
    Observed,
    Offset,
    Station,
    Tape,
)
from plan_editor.survey.adjustment.outcome import Answer, told
from plan_editor.survey.adjustment.reliability import reliability
from plan_editor.survey.adjustment.worlds import started

LOST_FROM = 10.0
"""From this semi-axis on, in metres, a point is as good as not measured."""


def adjust(
    stations: Sequence[Station],
    observed: Sequence[Observed],
    *,
    scale_factor: float = 1.0,
    hands: Sequence[Hand] = (),
) -> Adjusted:
    """Return the adjustment of everything that was measured, at once.

    Each measurement counts by its own standard deviation, and so do the stations that have one.
    Standard errors and ellipses follow from those standard deviations, not from the residuals:
    ``s0`` says whether they were honest. Suspected measurements are named, not left out.

    A point that may lie at two places is open unless a hand or another measurement settles it;
    it and one that is not determined, and what hangs on either, take no part. Determined is
    here what can be placed step by step from the stations (see ``approximate``).

    Args:
        stations: points whose places are known before; none twice.
        observed: the book. Order does not matter.
        scale_factor: grid metres to a metre on the ground.
        hands: on which side of a line points lie.

    Raises:
        CannotUse: a number makes no sense, or a measurement goes from a point to itself.
    """
    _refuse_nonsense(stations, observed, scale_factor)
    start = started(stations, observed, hands, scale_factor)
    answer = answered(stations, observed, start.places, scale_factor)
    while lost := _lost(answer):
        kept = {name: place for name, place in start.places.items() if name not in lost}
        start = replace(start, places=kept)
        answer = answered(stations, observed, kept, scale_factor)
    return told(stations, observed, start, answer, scale_factor)


def answered(
    stations: Sequence[Station],
    observed: Sequence[Observed],
    places: dict[str, complex],
    scale_factor: float,
) -> Answer:
    """Return the least squares near a start.

    Args:
        stations: as in ``adjust``.
        observed: what names a point without a place is left out.
        places: by name, about where they are; swings among them.
        scale_factor: grid metres to a metre on the ground.
    """
    held = sorted(s.name for s in stations if s.sd == 0.0)
    free = sorted(places.keys() - set(held), key=lambda n: (n.startswith(SWING), n))
    names = (*free, *held)
    place = {name: n for n, name in enumerate(names)}
    rows = rows_of(stations, observed, place, scale_factor)
    at = np.array([(places[n].real, places[n].imag) for n in names]).reshape(-1, 2)
    swings = sum(name.startswith(SWING) for name in free)
    network = network_of(rows, at, unknown=len(free), swings=swings)
    found = settled(network, at, 1.0 / rows.sd**2)
    inverse = found.factor.inverse()
    return Answer(
        names=names,
        network=network,
        found=found,
        covariances=network.covariances(inverse),
        checks=reliability(rows, found.over, network.variances(found.change, inverse)),
    )


def _lost(answer: Answer) -> set[str]:
    """Return the places looked for that nothing holds."""
    sizes = np.trace(answer.covariances, axis1=1, axis2=2)
    points = answer.network.unknown - answer.network.swings
    sizes[points:] = 0.0
    return {answer.names[n] for n in np.flatnonzero(sizes > LOST_FROM**2 / 6.0)}


def _refuse_nonsense(
    stations: Sequence[Station], observed: Sequence[Observed], scale_factor: float
) -> None:
    names = set()
    for station in stations:
        if station.name in names:
            raise CannotUse(f"Nothing was adjusted: the mark “{station.name}” is there twice.")
        names.add(station.name)
        figures = (station.east, station.north, station.sd)
        if not all(map(math.isfinite, figures)) or station.sd < 0.0:
            raise CannotUse(
                f"Nothing was adjusted: the mark “{station.name}” has a figure that is no "
                "number, or a standard deviation below 0."
            )
    if not 0.5 < scale_factor < 2.0:
        raise CannotUse(f"Nothing was adjusted: {scale_factor} is no local scale factor.")
    for one in observed:
        fault = _fault(one)
        if fault:
            raise CannotUse(f"Nothing was adjusted: {one.key} {fault}.")


def _fault(one: Observed) -> str:
    """Return what makes no sense about a measurement; nothing if all does."""
    between, figures = named(one), _figures(one)
    if len(set(between)) < len(between) or "" in between:
        return "does not name different points"
    if not all(map(math.isfinite, figures)):
        return "has a figure that is no number"
    if figures[-1] <= 0.0:
        return "has a standard deviation that is not above 0"
    if isinstance(one, Tape) and one.metres < 0.0:
        return "has a length below 0"
    return ""


def _figures(one: Observed) -> tuple[float, ...]:
    """Return the numbers of a measurement, its standard deviation last."""
    match one:
        case Offset():
            return one.along, one.aside, one.sd
        case Bearing() | Angle():
            return one.degrees, one.sd_deg
        case _:
            return one.metres, one.sd
