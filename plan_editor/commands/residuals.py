"""The points of a fit sketched over the ground: how far each is missed, exaggerated."""

from math import hypot

import numpy as np

from plan_editor.commands.control import Points, Trial, lines, suspect
from plan_editor.drawing.sketch import Sketch, SketchDot, SketchLine, Tone
from plan_editor.geometry.mappings import Mapping
from plan_editor.survey.fits.models import Control

FACTORS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
"""Arrows are drawn so many times too long."""

LEAST_M = 0.0005
"""What a point is missed by less than this, half a stored millimetre, is nothing."""

LONGEST_SHARE = 0.12
"""The longest arrow is at most so long, as a share of how far the points lie apart."""


def arrows(trial: Trial, chosen: int | None) -> Sketch:
    """Return an arrow from each point to where the fit has it, ``factor`` times too long.

    Args:
        trial: the points and the fit; without a fit there are only dots.
        chosen: the point that is chosen in the list, or None.
    """
    told = lines(trial)
    tones = [_tone(trial, n, chosen) for n in range(len(told))]
    dots = (
        SketchDot(east=p.control.east, north=p.control.north, text=line.name, tone=tone)
        for p, line, tone in zip(trial.points, told, tones, strict=True)
    )
    used = [n for n, p in enumerate(trial.points) if p.used]
    found = trial.fit
    if found is None:
        return Sketch(dots=tuple(dots))
    long = factor(trial)
    drawn = tuple(
        _arrow(trial.points[n].control, off, long, tones[n])
        for n, off in zip(used, found.residuals, strict=True)
        if hypot(*off) >= LEAST_M
    )
    return Sketch(lines=drawn, dots=tuple(dots))


def on_paper(points: Points, mapping: Mapping) -> Sketch:
    """Return dots where the points were clicked on a base plan that lies just anywhere."""
    here = np.array([(p.control.x, p.control.y) for p in points]).reshape(-1, 2)
    names = [line.name for line in lines(Trial(points=points))]
    places = mapping.to_ground(here).tolist()
    return Sketch(
        dots=tuple(
            SketchDot(east=east, north=north, text=name)
            for (east, north), name in zip(places, names, strict=True)
        )
    )


def factor(trial: Trial) -> int:
    """Return how many times too long the arrows are drawn."""
    if trial.fit is None:
        return 1
    longest = max(hypot(*off) for off in trial.fit.residuals)
    places = np.array([(c.east, c.north) for c in trial.fit.control])
    room = LONGEST_SHARE * float(np.hypot(*(places.max(axis=0) - places.min(axis=0))))
    return max((f for f in FACTORS if f * longest <= room), default=1)


def factor_words(trial: Trial) -> str:
    """Return what the arrows show and how many times too long they are; empty without any."""
    if trial.fit is None or not any(hypot(*off) >= LEAST_M for off in trial.fit.residuals):
        return ""
    long = factor(trial)
    times = "to scale" if long == 1 else f"{long} times too long"
    return f"Arrows on the ground, {times}: from each point to where the fit has it."


def near(points: Points, east: float, north: float, reach: float) -> int | None:
    """Return which point lies within reach of a place on the ground, in metres; or None."""
    apart = [hypot(p.control.east - east, p.control.north - north) for p in points]
    nearest = min(range(len(points)), key=apart.__getitem__, default=None)
    return None if nearest is None or apart[nearest] > reach else nearest


def _arrow(control: Control, off: tuple[float, float], long: int, tone: Tone) -> SketchLine:
    start = np.array([control.east, control.north])
    return SketchLine(
        points=np.vstack([start, start + long * np.array(off)]), tone=tone, arrow=True
    )


def _tone(trial: Trial, at: int, chosen: int | None) -> Tone:
    if at == suspect(trial):
        return Tone.DANGER
    if not trial.points[at].used:
        return Tone.SOFT
    return Tone.GOOD if at == chosen else Tone.MEASURED
