"""How sure a found rectangle is, and which of those that lie over one another is kept."""

from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.scans.boxes import Boxes, Column, together
from plan_editor.scans.sides import WHOLE, Profiles, densities, profiles, shares_inked
from plan_editor.scans.strokes import Floats
from plan_editor.scans.turned import Inked

OVERLAP = 0.25
"""Of two that share so much of the smaller one, the surer is kept."""

LEAST_SCORE = 0.1
"""What is less sure than this is not told."""

WEIGHTS = np.array([13.4, 1.4, 2.6, 4.4, 0.9])
OFFSET = -14.2
"""Of ``features``, by logistic regression over a quarter of a million boxes, before the surer
ones were kept, on plans drawn by a program of which it is known where the graves lie."""

_PAPER = 0.2
"""So much of what lies about an end is paper at least, however heavy the bar."""

_ENDS = 7
"""A seventh of a side, at each end, is looked at by itself: there the sides must meet."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Judged:
    """Rectangles in a picture, each with how sure it is, from 0 to 1, and which end is heavy.

    Args:
        boxes: n of them, in pixels.
        scores: n.
        heavier: n: the natural logarithm of how much more ink the head end has than the foot.
    """

    boxes: Boxes
    scores: Column
    heavier: Column

    def some(self, which: NDArray[np.bool_] | NDArray[np.int64]) -> "Judged":
        """Return those that are wanted."""
        return Judged(
            boxes=self.boxes.some(which),
            scores=self.scores[which],
            heavier=self.heavier[which],
        )

    def on(self, boxes: Boxes) -> "Judged":
        """Return them with other boxes, one for each."""
        return replace(self, boxes=boxes)


def all_of(judged: list[Judged]) -> Judged:
    """Return all of them as one."""
    nothing = np.empty(0)
    return Judged(
        boxes=together([j.boxes for j in judged]),
        scores=np.concatenate([nothing, *(j.scores for j in judged)]),
        heavier=np.concatenate([nothing, *(j.heavier for j in judged)]),
    )


def judged(picture: Inked, boxes: Boxes, far: float) -> Judged:
    """Return boxes with how sure they are, those that lie over a surer one left out.

    Args:
        picture: the ink, turned.
        boxes: laid on it.
        far: how far to either side of an end its ink is counted, in pixels.
    """
    scores = sureness(features(boxes, profiles(picture, boxes, 1.0, WHOLE)))
    sure = scores >= LEAST_SCORE
    boxes, scores = boxes.some(sure), scores[sure]
    kept = alone(Judged(boxes=boxes, scores=scores, heavier=np.zeros(len(scores))))
    heavier = _heavier(densities(picture, kept.boxes, far, WHOLE))
    return replace(kept, boxes=picture.as_it_was(kept.boxes), heavier=heavier)


def features(boxes: Boxes, seen: Profiles) -> Column:
    """Return what is judged by, n by 5, each from 0 to 1.

    How much of the outline is inked; of the side with least, and of the next; of the two
    barest ends of sides; of the ends of sides.
    """
    stations = shares_inked(seen)
    inked = stations.mean(axis=2)
    least = np.sort(inked, axis=1)
    count = max(1, stations.shape[2] // _ENDS)
    halves = stations[..., :count].mean(axis=2), stations[..., -count:].mean(axis=2)
    ends = np.sort(np.concatenate(halves, axis=1), axis=1)
    return np.stack(
        [
            boxes.by_run(inked),
            *least[:, :2].T,
            ends[:, :2].mean(axis=1),
            ends.mean(axis=1),
        ],
        axis=1,
    )


def sureness(told: Column) -> Column:
    """Return how sure each is, from 0 to 1, by what is told of it: a logistic function."""
    sure: Column = 1.0 / (1.0 + np.exp(-(told @ WEIGHTS + OFFSET)))
    return sure


def _heavier(dense: Floats) -> Column:
    above = dense - np.quantile(dense, _PAPER, axis=3, keepdims=True)
    weight = np.clip(above, 0.0, None).mean(axis=(2, 3)).astype(np.float64) + 1.0
    more: Column = np.log(weight[:, 1] / weight[:, 0])
    return more


def alone(judged: Judged) -> Judged:
    """Return them, the surest first, without those that lie over a surer one."""
    judged = judged.some(np.argsort(-judged.scores, kind="stable"))
    shapes = np.array(shapely.polygons(judged.boxes.corners()), dtype=object).reshape(-1)
    one, other = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    later = one < other
    one, other = one[later], other[later]
    shared = shapely.area(shapely.intersection(shapes[one], shapes[other]))
    areas = np.array(shapely.area(shapes))
    over = np.array(shared) > OVERLAP * np.minimum(areas[one], areas[other])
    kept = np.ones(len(shapes), dtype=np.bool_)
    # by the later of each pair, so that those before it are settled
    order = np.argsort(other[over], kind="stable")
    for a, b in zip(one[over][order].tolist(), other[over][order].tolist(), strict=True):
        kept[b] &= not kept[a]
    return judged.some(kept)
