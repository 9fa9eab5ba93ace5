"""The thin-plate spline of a warp, by scipy; loaded when the first warp is used."""

from functools import lru_cache

import numpy as np
from scipy.interpolate import RBFInterpolator

from plan_editor.errors import CannotUse
from plan_editor.geometry.mappings import Affine, Places, Straight


def bent(
    control: tuple[tuple[float, float, float, float], ...],
    smoothing: tuple[float, ...],
    straight: Affine,
    places: Places,
) -> Places:
    """Return by how many metres east and north a warp departs from its straight fit.

    Args:
        control: x, y, east, north of each point.
        smoothing: one number for each point.
        straight: the six numbers of the straight fit.
        places: on the base plan, n by 2.

    Raises:
        CannotUse: the control points are too few, or lie on one line or in one place.
    """
    try:
        found: Places = _spline(control, smoothing, straight)(places)
    except (ValueError, np.linalg.LinAlgError) as fault:
        raise CannotUse(
            "A base plan cannot be laid on the ground: the points that its warp follows are too"
            " few, or lie on one line. Nothing was changed; place it by points again."
        ) from fault
    return found


@lru_cache(maxsize=64)
def _spline(
    control: tuple[tuple[float, float, float, float], ...],
    smoothing: tuple[float, ...],
    straight: Affine,
) -> RBFInterpolator:
    rows = np.array(control).reshape(-1, 4)
    over = rows[:, 2:] - Straight(straight).to_ground(rows[:, :2])
    return RBFInterpolator(
        rows[:, :2], over, kernel="thin_plate_spline", smoothing=np.array(smoothing)
    )
