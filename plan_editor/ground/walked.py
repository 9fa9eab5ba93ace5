"""How far it is on foot from each of some places to each other, over grass and path alike."""

import numpy as np

from plan_editor.declared import late
from plan_editor.ground.walking_ground import Numbers, WalkingGround

OUTSIDE_COUNTS = 5.0
"""Where the plan knows no way between two places, the straight line counts so often."""


def _not_loaded(ground: WalkingGround, places: Numbers, straight: Numbers) -> Numbers:
    """Show what the function that goes round corners takes and returns."""
    raise NotImplementedError  # pragma: no cover  # only its arguments are looked at


_round_corners = late("plan_editor.ground.walked_made", "round_corners", _not_loaded)


def walked(ground: WalkingGround, places: Numbers) -> Numbers:
    """Return the lengths of the shortest ways between places, (n, n) in metres.

    Somebody who looks at one stone after another walks straight across the grass, and round
    what is in the way.

    Args:
        ground: what is walked round.
        places: (n, 2), east and north in metres, none within what blocks.
    """
    straight: Numbers = np.hypot(*(places[:, None] - places[None, :]).transpose(2, 0, 1))
    first, second = np.triu_indices(len(places), 1)
    seen = np.eye(len(places), dtype=bool)
    seen[first, second] = ground.sees(places[first], places[second])
    seen |= seen.T
    if seen.all():
        return straight
    found = np.where(seen, straight, _round_corners(ground, places, straight))
    return np.where(np.isfinite(found), found, straight * OUTSIDE_COUNTS)
