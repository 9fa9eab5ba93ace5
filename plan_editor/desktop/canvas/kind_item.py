"""All items of one kind as one thing to paint, in squares of ground whose paths are kept."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Any

import numpy as np
import shapely
from PySide6.QtGui import QPainter
from typing_extensions import override

from plan_editor.desktop.canvas.chosen import Highlight
from plan_editor.desktop.canvas.chunks import Chunks, Key
from plan_editor.desktop.canvas.drawn import Drawn, Dressed, drawn, drawn_from_afar, paint
from plan_editor.desktop.canvas.labels import PAD_PX, Labels, labelled_from, labels_of
from plan_editor.desktop.canvas.over_all import OverAll
from plan_editor.desktop.canvas.pieces import spread_m
from plan_editor.desktop.canvas.sight import OUTLINES_FROM, Sight
from plan_editor.desktop.canvas.style import style
from plan_editor.geometry.nearby import Box
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, Status
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import Look

REACH_PX = 14.0
"""A symbol or a thick line may reach so far out of its item's box."""

Draw = Callable[[Kind, Look, Status, Sequence[Item[Any]]], Drawn]

Dress = tuple[int, int]
"""Which look of the kind, and which status: their places in their lists."""

_STATUSES = tuple(Status)
_PLACES = {status: place for place, status in enumerate(Status)}


class KindItem(OverAll):
    """Paints the items of a kind that lie in what is exposed."""

    def __init__(self, kind: Kind, sight: Sight) -> None:
        super().__init__()
        self.kind = kind
        self._sight = sight
        self._chunks = Chunks()
        self._near: dict[Key, dict[Dress, Drawn]] = {}
        self._far: dict[Key, dict[Dress, Drawn]] = {}
        self._labels: dict[Key, Labels] = {}
        self._highlight = Highlight(kind)
        self._widest = 0.0
        self._looks = (kind.look, *(when.look for when in kind.looks))
        self.setZValue(kind.order)

    def take_in(self, items: Iterable[Item[Any]]) -> None:
        """Take in the items of a plan that has just been opened."""
        placed = [i for i in items if i.shape is not None]
        boxes = shapely.bounds([i.shape for i in placed]).reshape(-1, 4)
        more = np.array([self._reach(i) for i in placed]).reshape(-1, 1)
        self._chunks.put_many([i.id for i in placed], boxes + more * (-1.0, -1.0, 1.0, 1.0))

    def follow(self, changes: Iterable[Change]) -> list[Box]:
        """Take in changes to items of this kind; only their squares are drawn anew.

        Return the boxes in metres, before and after, that must be painted again.
        """
        boxes: list[Box] = []
        for change in changes:
            before = None if change.before is None else self.box(change.before)
            after = None if change.after is None else self.box(change.after)
            boxes += [box for box in (before, after) if box is not None]
            stale = self._chunks.drop(change.id)
            if after is not None:
                stale |= self._chunks.put(change.id, after)
            for key in stale:
                self._near.pop(key, None)
                self._far.pop(key, None)
                self._labels.pop(key, None)
        self._highlight.forget()
        return boxes

    def box(self, item: Item[Any]) -> Box | None:
        """Return what its drawing takes up on the ground, or None without a shape."""
        if item.shape is None:
            return None
        west, south, east, north = item.shape.bounds
        more = self._reach(item)
        return west - more, south - more, east + more, north + more

    def look_anew(self) -> None:
        """Make ready anew what is painted: other things of the kind are shown."""
        self._near.clear()
        self._far.clear()
        self._labels.clear()

    def choose(self) -> None:
        """Look anew at what is chosen when next painting."""
        self._highlight.forget()

    def labels(self) -> Iterator[Labels]:
        """Return what is written in and about what is exposed, always in one order."""
        if not self._chunks or not self._labelled():
            return
        for key in self._chunks.meeting(self._sight.grown(PAD_PX)):
            found = self._labels.get(key)
            if found is None:
                found = self._labels[key] = labels_of(self.kind, self._items(key))
                self._widest = max(self._widest, found.widest)
            yield found

    def label_px(self) -> float:
        """Return the width of the widest label that was written, in logical pixels."""
        return self._widest if self._labelled() else 0.0

    def _labelled(self) -> bool:
        return self.isVisible() and self._sight.scale >= labelled_from(self.kind)

    @override
    def draw(self, painter: QPainter) -> None:
        if not self._chunks:
            return
        small = self.kind.form is Form.RECTANGLE
        for (look, status), ready in sorted(self._ready().items()):
            dress = Dressed(
                look=self._looks[look],
                style=style(self._looks[look], _STATUSES[status], self._sight.palette),
                small=small,
            )
            paint(painter, dress, ready, self._sight)
        self._highlight.paint(painter, self._sight)

    def _ready(self) -> dict[Dress, list[Drawn]]:
        """Return what is exposed, made ready where it was not, by look and status."""
        found: dict[Dress, list[Drawn]] = {}
        far = self.kind.form is Form.RECTANGLE and self._sight.scale < OUTLINES_FROM
        cache = self._far if far else self._near
        for key in self._chunks.meeting(self._sight.grown(REACH_PX)):
            kept = cache.get(key)
            if kept is None:
                kept = cache[key] = self._make(key, drawn_from_afar if far else drawn)
            for dress, made in kept.items():
                found.setdefault(dress, []).append(made)
        return found

    def _make(self, key: Key, draw: Draw) -> dict[Dress, Drawn]:
        looks = {id(when): place for place, when in enumerate(self.kind.looks, 1)}
        groups: dict[Dress, list[Item[Any]]] = {}
        for item in self._items(key):
            look = looks.get(id(self.kind.when(item.details)), 0)
            groups.setdefault((look, _PLACES[item.status]), []).append(item)
        return {
            (look, status): draw(self.kind, self._looks[look], _STATUSES[status], group)
            for (look, status), group in groups.items()
        }

    def _reach(self, item: Item[Any]) -> float:
        width = self.kind.width_m(item.details) if self.kind.width else 0.0
        return max(width / 2, spread_m(self.kind, item))

    def _items(self, key: Key) -> list[Item[Any]]:
        items = self._sight.plan.items
        found = (items[i] for i in self._chunks.items(key))
        return [i for i in found if self._sight.showing.shows(i)]
