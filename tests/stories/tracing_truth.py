"""How graves that were traced agree with the yard as it was invented."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from graves import Space
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle, outlines
from plan_editor.plan.item import Item

Numbers = NDArray[np.float64]

FAR_OFF_M = 0.3
"""Whoever looks at a proposal sees that a corner lies so far beside the drawn one."""

THE_SAME = 0.3
"""Two outlines that share so much of their common ground mean the same grave."""


def shown(rectangle: Rectangle, truth: Sequence[Rectangle]) -> Rectangle | None:
    """Return the grave that somebody who looks sees under a proposal."""
    mine, others = rectangle.outline(), np.array(outlines(truth), dtype=object)
    shared = shapely.area(shapely.intersection(mine, others))
    iou = shared / (shapely.area(others) + mine.area - shared)
    best = int(iou.argmax())
    return truth[best] if iou[best] > THE_SAME else None


def fine(rectangle: Rectangle, truth: Sequence[Rectangle]) -> bool:
    meant = shown(rectangle, truth)
    return meant is not None and bool(_off(rectangle, meant).max() < FAR_OFF_M)


def _off(one: Rectangle, other: Rectangle) -> Numbers:
    found: Numbers = np.hypot(*(np.array(one.corners()) - np.array(other.corners())).T)
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """How what was traced agrees with the yard.

    Args:
        graves: how many the scan shows.
        missing: numbers of those that were not traced.
        extra: how many were traced that are none.
        numbered: how many bear their own number.
        off_m: by how much each corner lies beside the true one.
        sds: east and north errors, each over the stated standard deviation.
        stated_m: the stated standard deviations.
    """

    graves: int
    missing: tuple[str, ...]
    extra: int
    numbered: int
    off_m: Numbers
    sds: Numbers
    stated_m: Numbers


def compared(traced: Sequence[Item[Any]], there: Sequence[Space]) -> Agreement:
    """Compare the graves of a plan with those of the yard."""
    tree = shapely.STRtree([i.shape for i in traced])
    off, sds, stated, missing, used = [], [], [], [], set()
    numbered = 0
    for space in there:
        outline = space.rectangle.outline()
        near = [traced[k] for k in tree.query(outline, predicate="intersects").tolist()]
        best = max(near, key=lambda i: _iou(i.shape, outline), default=None)
        if best is None or best.id in used or _iou(best.shape, outline) < THE_SAME:
            missing.append(space.number)
            continue
        used.add(best.id)
        numbered += best.number == space.number
        apart = np.array(best.rectangle.corners()) - np.array(space.rectangle.corners())
        off.extend(np.hypot(*apart.T).tolist())
        sds.extend((np.abs(apart) / best.basis.sd_m).ravel().tolist())
        stated.append(best.basis.sd_m)
    return Agreement(
        graves=len(there),
        missing=tuple(missing),
        extra=len(traced) - len(used),
        numbered=numbered,
        off_m=np.array(off),
        sds=np.array(sds),
        stated_m=np.array(stated),
    )


def _iou(one: BaseGeometry, other: BaseGeometry) -> float:
    return float(one.intersection(other).area / one.union(other).area)
