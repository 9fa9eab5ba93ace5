"""Lines cut into dashes on the ground.

Qt begins its dashes anew where it cuts a line off at the edge of what is exposed, so that they
would slide while the ground is moved. These lie still, and are drawn faster.
"""

import numpy as np
from numpy.typing import NDArray

from plan_editor.desktop.canvas.runs import NOTHING, Runs

Numbers = NDArray[np.float64]

MOST_DASHES = 200_000
"""Of one lot of lines; where there would be more they are left whole."""


def dashed(runs: Runs, dash: tuple[float, ...]) -> Runs:
    """Return lines as their dashes, each line beginning with one.

    Args:
        runs: the lines.
        dash: lengths on and off in turn, in metres.
    """
    if not runs:
        return NOTHING
    dash = dash if len(dash) % 2 == 0 else dash * 2
    steps = np.hypot(*np.diff(runs.points, axis=0, prepend=runs.points[:1]).T)
    steps[runs.starts] = 0.0
    gone = np.cumsum(steps)
    lengths = np.diff(np.append(gone[runs.starts], gone[-1]))
    period = sum(dash)
    times = np.ceil(lengths / period).astype(int)
    if times.sum() * len(dash) / 2 > MOST_DASHES:
        return runs
    # lines are set apart, so that each place along them has a number of its own
    line = np.repeat(np.arange(len(lengths)), np.diff(np.append(runs.starts, len(gone))))
    along = gone + line * period
    first = along[runs.starts]
    nth = np.arange(times.sum()) - np.repeat(np.cumsum(times) - times, times)
    begin = np.repeat(first, times) + nth * period
    end = np.repeat(first + lengths, times)
    offsets = np.concatenate([[0.0], np.cumsum(dash)])
    starts = np.concatenate([begin + offset for offset in offsets[:-1:2]])
    ends = np.minimum(
        np.concatenate([begin + offset for offset in offsets[1::2]]),
        np.tile(end, len(dash) // 2),
    )
    real = ends > starts
    return _cut(runs, along, starts[real], ends[real])


def _cut(runs: Runs, along: Numbers, starts: Numbers, ends: Numbers) -> Runs:
    """Return the pieces of lines from starts to ends, with the corners between."""
    before = np.searchsorted(along, starts, side="right") - 1
    after = np.searchsorted(along, ends, side="left")
    counts = after - before + 1
    heads = np.cumsum(counts) - counts
    nth = np.arange(counts.sum()) - np.repeat(heads, counts)
    points = runs.points[np.minimum(np.repeat(before, counts) + nth, len(along) - 1)]
    for axis in (0, 1):
        points[heads, axis] = np.interp(starts, along, runs.points[:, axis])
        points[heads + counts - 1, axis] = np.interp(ends, along, runs.points[:, axis])
    return Runs(points=points, starts=heads.astype(np.intp))
