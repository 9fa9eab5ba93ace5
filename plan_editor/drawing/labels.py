"""Where labels go: none over another, none over a stone; with a leader, or left out and listed.

Every label wishes for some places, the dearest first. All labels try their first place, those
that found none their second, and so on; in each round the earlier label has the choice.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from plan_editor.drawing.ink import Clip, Ink, Points
from plan_editor.drawing.wish import Wish, leader, written

_FEW = 0.3
_MOST = 0.5
_MOST_LEADERS = 40
_APART = 0.5
_REACHES = (5.0, 8.0, 12.0)
_WAYS = tuple(np.radians(d) for d in (45.0, 0.0, 315.0, 90.0, 135.0, 180.0, 225.0, 270.0))

Shapes = NDArray[np.object_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Obstacles:
    """What labels keep clear of.

    Args:
        open: shapes that a label rather does not lie on, such as other graves and line work.
        solid: shapes that a label never lies on, such as stones.
    """

    open: Shapes
    solid: Shapes


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """What came of placing labels.

    Args:
        ink: of the labels and their leaders.
        left_out: those for which there was no room.
        taken: the room that labels take, as shapes on paper.
    """

    ink: tuple[Ink, ...]
    left_out: tuple[Wish, ...]
    taken: Shapes


def place(wishes: Sequence[Wish], obstacles: Obstacles, frame: Clip) -> Placed:
    """Return labels where there is room for them within the frame."""
    board = _Board(wishes, obstacles, frame)
    if wishes:
        nearest = board.alike(_stacked([w.places for w in wishes]))
        board.rounds(nearest, clear_of_all=True)
        board.rounds(board.loose(nearest), clear_of_all=False)
        board.give_up()
        board.lead(_afar(wishes))
    return board.placed()


def _stacked(places: Sequence[Points]) -> Points:
    """Return places as (labels, rounds, 2), the shorter rows filled up with NaN."""
    most = max(len(p) for p in places)
    stacked = np.full((len(places), most, 2), np.nan)
    for row, own in zip(stacked, places, strict=True):
        row[: len(own)] = own
    return stacked


def _afar(wishes: Sequence[Wish]) -> Points:
    targets = np.array([w.target for w in wishes])
    half = np.array([w.extent for w in wishes]) / 2
    away = [
        targets + np.array([np.cos(way), np.sin(way)]) * (reach + half)
        for reach in _REACHES
        for way in _WAYS
    ]
    return np.stack(away, axis=1)


class _Board:
    """Labels being placed, round after round."""

    def __init__(self, wishes: Sequence[Wish], obstacles: Obstacles, frame: Clip) -> None:
        self._wishes = wishes
        self._open = shapely.STRtree(obstacles.open)
        self._solid = shapely.STRtree(obstacles.solid)
        self._frame = frame
        self._half = np.array([w.extent for w in wishes]).reshape(-1, 2) / 2
        self._turn = np.radians([w.turn_deg for w in wishes])
        self._own = np.array([w.own for w in wishes], dtype=int)
        self._at = np.full((len(wishes), 2), np.nan)
        self._led = np.zeros(len(wishes), dtype=bool)
        self._taken: list[Shapes] = []
        self._names = np.array([w.like for w in wishes])
        self._given_up = np.zeros(len(wishes), dtype=bool)
        self._optional = np.array([w.optional for w in wishes], dtype=bool)

    def alike(self, places: Points) -> Points:
        """Return places with the first two changed over for labels that are to look alike."""
        if places.shape[1] < 2:
            return places
        every = np.arange(len(places))
        boxes = self._boxes(every, np.nan_to_num(places[:, 0]))
        hit = self._hits(self._open, boxes, self._own) | self._hits(self._solid, boxes, None)
        changed = places.copy()
        for name in self._alike():
            some = (self._names == name) & ~np.isnan(places[:, 1, 0])
            if some.any() and hit[some].mean() > _FEW:
                changed[some, :2] = places[some, 1::-1]
        return changed

    def loose(self, places: Points) -> Points:
        """Return the places of labels that may lie on line work.

        The number of a grave that lies on its neighbour would be taken for the neighbour's: it
        stays within its own.
        """
        free = (self._names == "") & ~self._optional
        kept = np.where(free[:, None, None], places, np.nan)
        owning = (self._names != "") & (self._own >= 0)
        waiting = np.flatnonzero(owning & np.isnan(self._at[:, 0]))
        for nth in range(places.shape[1]):
            some = waiting[~np.isnan(places[waiting, nth, 0])]
            boxes = self._boxes(some, places[some, nth])
            within = some[shapely.covers(self._open.geometries[self._own[some]], boxes)]
            kept[within, nth] = places[within, nth]
        return kept

    def rounds(self, places: Points, *, clear_of_all: bool) -> None:
        """Try each of the places, (labels, rounds, 2), in turn."""
        for nth in range(places.shape[1]):
            at = places[:, nth]
            free = np.isnan(self._at[:, 0]) & ~self._given_up
            waiting = np.flatnonzero(free & ~np.isnan(at[:, 0]))
            if len(waiting):
                self._round(waiting, at[waiting], clear_of_all=clear_of_all)

    def give_up(self) -> None:
        """Leave out all labels of one name where most found no place: a few would mislead."""
        for name in self._alike():
            some = self._names == name
            if np.isnan(self._at[some, 0]).mean() > _MOST:
                self._at[some] = np.nan
                self._given_up |= some
        self._given_up |= self._optional & np.isnan(self._at[:, 0])

    def _alike(self) -> list[str]:
        return sorted(set(self._names.tolist()) - {""})

    def lead(self, places: Points) -> None:
        """Try places that are so far away that a leader is drawn; a thicket of them is none."""
        near = ~np.isnan(self._at[:, 0])
        if (~near & ~self._given_up).sum() > _MOST_LEADERS:
            return
        self.rounds(places, clear_of_all=True)
        self._led = ~near & ~np.isnan(self._at[:, 0])

    def _round(self, waiting: NDArray[np.int_], at: Points, *, clear_of_all: bool) -> None:
        boxes = self._boxes(waiting, at)
        fits = self._inside(boxes) & ~self._hits(self._solid, boxes, None)
        if clear_of_all:
            fits &= ~self._hits(self._open, boxes, self._own[waiting])
        for taken in self._taken:
            fits &= ~self._hits(shapely.STRtree(taken), boxes, None)
        waiting, at, boxes = waiting[fits], at[fits], boxes[fits]
        first = _first_come(boxes)
        self._at[waiting[first]] = at[first]
        if first.any():
            self._taken.append(boxes[first])

    def _boxes(self, which: NDArray[np.int_], at: Points) -> Shapes:
        half = self._half[which] + _APART / 2
        signs = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)])
        corners = half[:, None] * signs
        cos, sin = np.cos(self._turn[which])[:, None], np.sin(self._turn[which])[:, None]
        x = corners[..., 0] * cos - corners[..., 1] * sin
        y = corners[..., 0] * sin + corners[..., 1] * cos
        return np.asarray(shapely.polygons(np.stack([x, y], axis=-1) + at[:, None]))

    def _inside(self, boxes: Shapes) -> NDArray[np.bool_]:
        left, bottom, right, top = self._frame
        b = shapely.bounds(boxes)
        low = (b[:, 0] >= left) & (b[:, 1] >= bottom)
        return np.asarray(low & (b[:, 2] <= right) & (b[:, 3] <= top))

    @staticmethod
    def _hits(
        tree: shapely.STRtree, boxes: Shapes, own: NDArray[np.int_] | None
    ) -> NDArray[np.bool_]:
        box, other = tree.query(boxes, predicate="intersects")
        if own is not None:
            box = box[other != own[box]]
        hit = np.zeros(len(boxes), dtype=bool)
        hit[box] = True
        return hit

    def placed(self) -> Placed:
        """Return what came of it: leaders first, labels over them."""
        found = ~np.isnan(self._at[:, 0])
        leaders = [leader(self._wishes[n], self._at[n]) for n in _numbers(self._led)]
        labels = [written(self._wishes[n], *self._at[n].tolist()) for n in _numbers(found)]
        return Placed(
            ink=(*leaders, *(piece for label in labels for piece in label)),
            left_out=tuple(self._wishes[n] for n in _numbers(~found & ~self._optional)),
            taken=np.concatenate([np.array([], dtype=object), *self._taken]),
        )


def _numbers(chosen: NDArray[np.bool_]) -> list[int]:
    return [int(n) for n in np.flatnonzero(chosen)]


def _first_come(boxes: Shapes) -> NDArray[np.bool_]:
    """Return which boxes may stay where the earlier of two that meet has the choice."""
    stays = np.ones(len(boxes), dtype=bool)
    later, earlier = shapely.STRtree(boxes).query(boxes, predicate="intersects")
    pairs = sorted((a, b) for a, b in zip(later, earlier, strict=True) if b < a)
    for a, b in pairs:
        if stays[b]:
            stays[a] = False
    return stays
