"""How many of the graves of drawn plans are found: precision and recall by rising damage.

Run as a program it prints the table of the development seeds, on which the finder was made, or
of the held-out seeds, which were not looked at before its thresholds stood fast. The weights of
``judging`` were learnt on seeds 200 to 234, and held-out seeds tell what they are worth::

    PYTHONPATH=tests/scans python tests/scans/finding_figures.py development|held-out
"""

import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from multiprocessing import get_context

import numpy as np
import shapely
from drawn_damage import CLEAN, DAMAGES, LEVELS, SAMPLE, Damage, all_at, damaged
from drawn_graves import HIGH_M, METRES_PER_PIXEL, Drawn, drawn
from numpy.typing import NDArray

from plan_editor.geometry.outlines import outlines
from plan_editor.ground.proposals import SURE_ENOUGH, learnt
from plan_editor.kinds import grave
from plan_editor.plan.item import Basis, ItemId, Method, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.scans.judging import Judged
from plan_editor.scans.rectangles import rectangles
from plan_editor.scans.sought import Size, Sought, Span

DEVELOPMENT = tuple(range(100, 106))
HELD_OUT = tuple(range(7000, 7020))
EXAMPLES = 8
"""So many graves are taken as traced already; they are left out of the figures."""

SAME = 0.6
"""Intersection over union from which on a proposal is the grave."""


@dataclass(frozen=True, slots=True)
class Figures:
    """What came of one plan.

    Args:
        graves: that were to be found.
        found: of these, by a proposal that is sure enough.
        proposed: proposals that are sure enough.
        right: of these, how many are a grave.
        corners_px: how far the corners of found ones lie from those drawn, in pixels.
    """

    graves: int
    found: int
    proposed: int
    right: int
    corners_px: tuple[float, ...] = ()


def rows() -> Iterator[tuple[str, Damage]]:
    """Return the rows of the table."""
    yield "clean", CLEAN
    for sort in DAMAGES:
        for level in range(1, LEVELS + 1):
            yield f"{sort} {level}", damaged(sort, level)
    for level in range(1, LEVELS + 1):
        yield f"all, half as strong {level}", all_at(level)
    yield "as the sample", SAMPLE


def figures(seed: int, damage: Damage) -> Figures:
    """Return what is found on the plan of a seed."""
    plan = drawn(seed, damage)
    chance = np.random.default_rng((seed, 9))
    traced = chance.permutation(len(plan.graves))[:EXAMPLES]
    found = rectangles(plan.grey, _sought(plan, traced))
    found = found.some(found.scores >= SURE_ENOUGH)
    boxes = _on_ground(found)
    shared = _shared(plan, boxes)
    known = np.zeros(len(plan.graves), dtype=bool)
    known[traced] = True
    new = shared[known].max(axis=0, initial=0.0) < SAME / 2
    wanted = shared[~known][:, new]
    return Figures(
        graves=len(wanted),
        found=int((wanted.max(axis=1, initial=0.0) >= SAME).sum()),
        proposed=wanted.shape[1],
        right=int((wanted.max(axis=0, initial=0.0) >= SAME).sum()),
        corners_px=tuple(_corners_off(plan, known, boxes[new], wanted)),
    )


def together(of: Iterable[Figures]) -> Figures:
    """Return the sums."""
    all_of = tuple(of)
    return Figures(
        *(sum(getattr(f, n) for f in all_of) for n in ("graves", "found", "proposed", "right")),
        tuple(c for f in all_of for c in f.corners_px),
    )


def precision(told: Figures) -> float:
    return told.right / max(told.proposed, 1)


def recall(told: Figures) -> float:
    return told.found / max(told.graves, 1)


def line(name: str, told: Figures) -> str:
    """Return a line of the table."""
    corners = np.array(told.corners_px or (np.nan,))
    return (
        f"{name:24}{told.graves:7}{precision(told):11.3f}{recall(told):8.3f}"
        f"{np.quantile(corners, 0.5):10.2f}{np.quantile(corners, 0.95):8.2f}"
    )


HEADING = (
    f"{'damage':24}{'graves':>7}{'precision':>11}{'recall':>8}{'corner px':>10}{'95 %':>8}"
)


def _sought(plan: Drawn, traced: NDArray[np.int64]) -> Sought:
    base = ItemId("b" * 32)
    basis = Basis(method=Method.TRACED, base_plan=base)
    items = [new_item(grave.KIND, plan.graves[n], basis=basis) for n in traced.tolist()]
    told = learnt(plan_of(items), base)
    return Sought(
        sizes=tuple(Size(width=_pixels(s.width), length=_pixels(s.length)) for s in told.sizes),
        bearings=told.bearings,
    )


def _pixels(span: Span) -> Span:
    return Span(span.low / METRES_PER_PIXEL, span.high / METRES_PER_PIXEL)


def _on_ground(found: Judged) -> NDArray[np.float64]:
    corners = found.boxes.corners() * METRES_PER_PIXEL
    return np.stack([corners[..., 0], HIGH_M - corners[..., 1]], axis=2)


def _shared(plan: Drawn, boxes: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return intersection over union of each grave with each box."""
    graves = outlines(plan.graves)
    mine = np.array(shapely.polygons(boxes), dtype=object).reshape(-1)
    shared = np.zeros((len(graves), len(mine)))
    one, other = shapely.STRtree(mine).query(graves, predicate="intersects")
    common = shapely.area(shapely.intersection(graves[one], mine[other]))
    whole = shapely.area(graves[one]) + shapely.area(mine[other]) - common
    shared[one, other] = common / whole
    return shared


def _corners_off(
    plan: Drawn,
    known: NDArray[np.bool_],
    boxes: NDArray[np.float64],
    shared: NDArray[np.float64],
) -> Iterator[float]:
    wanted = [g for g, there in zip(plan.graves, known.tolist(), strict=True) if not there]
    for n, box in enumerate(boxes):
        grave_of = int(shared[:, n].argmax()) if wanted else 0
        if wanted and shared[grave_of, n] >= SAME:
            drawn_at = np.array(wanted[grave_of].corners())
            turns = (box, np.roll(box, 2, axis=0))
            off = min(
                (np.hypot(*(t - drawn_at).T) for t in turns), key=lambda d: float(d.sum())
            )
            yield from (off / METRES_PER_PIXEL).tolist()


def table(seeds: Sequence[int]) -> Iterator[str]:
    """Return the lines of the table, worked out in two processes."""
    yield f"{len(seeds)} seeds from {seeds[0]}; score from {SURE_ENOUGH} on; IoU from {SAME} on"
    yield HEADING
    with get_context("spawn").Pool(2) as pool:
        for name, damage in rows():
            told = pool.map(partial(figures, damage=damage), seeds, chunksize=1)
            yield line(name, together(told))


if __name__ == "__main__":
    for text in table({"development": DEVELOPMENT, "held-out": HELD_OUT}[sys.argv[1]]):
        sys.stdout.write(f"{text}\n")
        sys.stdout.flush()
