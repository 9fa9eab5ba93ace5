"""A way on foot in words: from which gate, along which path, how far, left or right."""

import numpy as np

from plan_editor.geometry.bearings import bearing
from plan_editor.ground.walking import Leg, Way
from plan_editor.ground.walking_ground import Numbers

_LOOK_M = 4.0
"""A turn is judged by how the way runs so far before and after it."""

_HERE_M = 0.1

_ON_DEG, _BACK_DEG = 25.0, 150.0

_WINDS = (
    "north",
    "north-east",
    "east",
    "south-east",
    "south",
    "south-west",
    "west",
    "north-west",
)


def in_words(way: Way) -> tuple[str, ...]:
    """Return a way as sentences, one for each part of it; metres are whole ones."""
    if way.length_m < _HERE_M:
        return ("It is where the way begins.",)
    begun = way.gate.called() if way.gate else ""
    lines = []
    for number, leg in enumerate(way.legs):
        if _goes_round(way, number):
            lines.append(f"Go {_far(leg.length_m)} over the grass, round what is kept off.")
        elif number > 1 and _goes_round(way, number - 1):
            lines.append(f"Go on {_along(leg)} for {_far(leg.length_m)}.")
        elif number:
            turn = turned(way.legs[number - 1].places, leg.places)
            lines.append(f"{turn} {_along(leg)} for {_far(leg.length_m)}.")
        else:
            start = f"From {_the_gate(begun)} go" if begun else "Go"
            wind = _WINDS[round(bearing(*_run(leg.places, 0)) / 45) % 8]
            lines.append(f"{start} {wind} {_along(leg)} for {_far(leg.length_m)}.")
    return tuple(lines)


def turned(before: Numbers, after: Numbers) -> str:
    """Return how one turns from the end of one part of a way into the next, as an order."""
    come, go = bearing(*_run(before, -1)), bearing(*_run(after, 0))
    turn = (go - come + 180.0) % 360.0 - 180.0
    if abs(turn) < _ON_DEG:
        return "Go straight on"
    if abs(turn) > _BACK_DEG:
        return "Turn back"
    return "Turn right" if turn > 0 else "Turn left"


def _goes_round(way: Way, number: int) -> bool:
    """Return whether a part of a way only leaves a path to come back to it."""
    if not 0 < number < len(way.legs) - 1 or way.legs[number].path is not None:
        return False
    return way.legs[number - 1].path is way.legs[number + 1].path


def _the_gate(called: str) -> str:
    """Return a gate's name as it stands in a sentence: ``Gate Lychgate`` is the Lychgate."""
    name = called.removeprefix("Gate").strip()
    return f"the {name}" if name else "the gate"


def _along(leg: Leg) -> str:
    if leg.path is None:
        return "over the grass"
    name = leg.path.details.name
    return f"along the path “{name}”" if name else "along the path"


def _far(length_m: float) -> str:
    metres = max(1, round(length_m))
    return "a metre" if metres == 1 else f"{metres} m"


def _run(places: Numbers, end: int) -> tuple[float, float]:
    """Return how far east and north a way runs at its beginning (0) or its end (-1)."""
    ordered = places if end == 0 else places[::-1]
    far = np.cumsum(np.hypot(*np.diff(ordered, axis=0).T))
    at = min(int(np.searchsorted(far, _LOOK_M)), len(far) - 1) + 1
    run = ordered[at] - ordered[0] if end == 0 else ordered[0] - ordered[at]
    return float(run[0]), float(run[1])
