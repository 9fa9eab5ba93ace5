"""Which end of a found rectangle is its head."""

import numpy as np

from plan_editor.scans.boxes import Column
from plan_editor.scans.judging import Judged
from plan_editor.scans.sought import Sought

CLEARLY = 0.35
"""Natural logarithm of how much more ink one end must have to be the one with the bar."""

SURE = 0.5
"""What is less sure does not say whether a scan draws heads."""

MOSTLY = 0.6
"""A scan draws heads where so many of its rectangles have one end clearly heavier."""

NEAREST = 5
"""Rectangles near by that say where the head is of one that does not."""


def turned_to_heads(judged: Judged, sought: Sought) -> Judged:
    """Return rectangles with the head line where the head is.

    Where the scan draws the head end heavier, that says it; else, and for those of which it is
    not clear, the bearings that are sought, where these do not go both ways; else the nearest
    of which it is clear.
    """
    turns = np.degrees(judged.boxes.turn)
    votes = _drawn(judged)
    wanted = _wanted(turns, sought)
    votes = np.where(votes == 0.0, wanted, votes)
    votes = np.where(votes == 0.0, _as_neighbours(judged, votes), votes)
    return judged.on(judged.boxes.turned_about(votes < 0.0))


def _drawn(judged: Judged) -> Column:
    """Return 1 where the head is clearly heavier, -1 where the foot is, 0 where neither."""
    clear = np.abs(judged.heavier) >= CLEARLY
    sure = judged.scores >= SURE
    if not sure.any() or clear[sure].mean() < MOSTLY:
        return np.zeros(len(clear))
    return np.where(clear, np.sign(judged.heavier), 0.0)


def _wanted(turns: Column, sought: Sought) -> Column:
    """Return 1 where a sought bearing is near, -1 where its opposite is, 0 where both are."""
    votes = np.zeros(len(turns))
    for one in sought.bearings:
        off = (turns - one.middle + 180.0) % 360.0 - 180.0
        reach = (one.high - one.low) / 2 + 6.0
        votes += (np.abs(off) <= reach).astype(float) - (np.abs(off) >= 180.0 - reach)
    return np.sign(votes)


def _as_neighbours(judged: Judged, votes: Column) -> Column:
    """Return how those near by, of which it is known, lie: 1 the same way, -1 the other."""
    known = np.nonzero(votes != 0.0)[0]
    if not len(known):
        return np.ones(len(votes))
    boxes = judged.boxes
    heads = boxes.turn[known] + np.where(votes[known] < 0.0, np.pi, 0.0)
    told = np.ones(len(votes))
    for n in np.nonzero(votes == 0.0)[0].tolist():
        away = np.hypot(boxes.right[known] - boxes.right[n], boxes.down[known] - boxes.down[n])
        nearest = np.argsort(away, kind="stable")[:NEAREST]
        agreed = np.cos(heads[nearest] - boxes.turn[n]).sum()
        told[n] = 1.0 if agreed >= 0.0 else -1.0
    return told
