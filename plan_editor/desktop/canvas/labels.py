"""Numbers and names on the ground: which are written, and where, whatever part is in view.

What is left out depends on the scale alone, never on the view: labels neither flicker while the
ground is moved nor differ where two strips of the screen meet.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import inf
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QPainter, QStaticText, QTransform

from plan_editor.desktop.canvas.runs import NO_POINTS, Points
from plan_editor.desktop.canvas.sight import LABELS_FROM, Sight
from plan_editor.desktop.canvas.style import on_screen
from plan_editor.plan.item import Item
from plan_editor.plan.kind import Form, Kind
from plan_editor.plan.look import INK

LABEL_PX = 12
"""Height of the lettering, in logical pixels."""

LONGEST = 24
"""Letters; a longer name is cut."""

CELL = (30.0, 8.0)
"""Labels may not share such a piece of the screen, in pixels across and up."""

PAD_PX = 340.0
"""What is written farther away than this has no say in what is written here."""

BESIDE_PX = 8.0
"""The name of a point stands so far to the right of it."""

FROM = {Form.RECTANGLE: LABELS_FROM, Form.AREA: 2.0, Form.LINE: 4.0, Form.POINT: 6.0}
"""Pixels to a metre from which things of each form are labelled."""

SOLID_FROM = 60.0
"""And things that are solid: a stone bears the number of its grave more often than not."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Labels:
    """What is written in one square of ground.

    Args:
        places: the middle of what is labelled, in metres, one row each.
        texts: as many, ready to be drawn.
        sizes: their widths and heights in logical pixels.
        beside: as many; how far in metres the text stands to the right of its place; not a
            number where it stands about it.
        colour: of all of them, on paper.
        plated: they stand on a plate, to be read on a hatch.
    """

    places: Points
    texts: tuple[QStaticText, ...]
    sizes: Points
    beside: NDArray[np.float64]
    colour: str = INK
    plated: bool = False

    @property
    def widest(self) -> float:
        """The width of the widest, in logical pixels."""
        return float(self.sizes[:, 0].max()) if self.texts else 0.0


def labels_of(kind: Kind, items: Sequence[Item[Any]]) -> Labels:
    """Return the number, or the name, of those items that have one."""
    written = [(i, t) for i in items if (t := _text(kind, i))]
    if not written:
        return NO_LABELS
    shapes = np.array([i.shape for i, _ in written], dtype=object)
    lettered = [_lettered(t) for _, t in written]
    return Labels(
        places=_places(shapes),
        texts=tuple(lettered),
        sizes=np.array([(t.size().width(), t.size().height()) for t in lettered]),
        beside=np.where(
            shapely.get_type_id(shapes) == shapely.GeometryType.POINT,
            [kind.width_m(i.details) / 2 for i, _ in written],
            np.nan,
        ),
        colour=kind.look.pen.colour if kind.look.pen else INK,
        plated=_hatched(kind),
    )


def draw_labels(painter: QPainter, labels: Sequence[Labels], sight: Sight) -> None:
    """Write what has room. The painter draws pixels of the screen.

    Args:
        painter: draws logical pixels.
        labels: everything that begins within ``PAD_PX`` of what is exposed, the most wanted
            first, in an order that does not depend on the view.
        sight: what is looked at.
    """
    labels = [found for found in labels if found.texts]
    if not labels:
        return
    boxes = _boxes(labels, sight.scale)
    about = np.flatnonzero(_within(boxes, sight, PAD_PX))
    here = about[_has_room(boxes[about])]
    kept = here[_within(boxes[here], sight, 2.0)]
    corners = (np.rint(boxes[kept, :2]).astype(int) + sight.origin).tolist()
    painter.setFont(_font())
    texts = [(found, text) for found in labels for text in found.texts]
    last: Labels | None = None
    for i, (x, y) in zip(kept.tolist(), corners, strict=True):
        found, text = texts[i]
        if found is not last:
            painter.setPen(on_screen(found.colour, sight.palette))
            last = found
        if found.plated:
            _plate(painter, boxes[i], (x, y), sight)
        painter.drawStaticText(x, y, text)


def _plate(
    painter: QPainter, box: NDArray[np.float64], corner: tuple[int, int], sight: Sight
) -> None:
    wide, high = round(box[2] - box[0]), round(box[3] - box[1])
    ground = QColor(sight.palette.ground)
    painter.fillRect(corner[0] - 3, corner[1], wide + 6, high, ground)


def _boxes(labels: Sequence[Labels], scale: float) -> NDArray[np.float64]:
    """Return left, top, right, bottom of labels, in pixels about the plan's origin."""
    at = np.concatenate([found.places for found in labels]) * (scale, -scale)
    sizes = np.concatenate([found.sizes for found in labels])
    beside = np.concatenate([found.beside for found in labels])
    at[:, 0] += np.where(np.isnan(beside), -sizes[:, 0] / 2, BESIDE_PX + beside * scale)
    at[:, 1] -= sizes[:, 1] / 2
    return np.hstack([at, at + sizes])


def _has_room(boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which labels are the first in every cell that they touch.

    A label looks no farther than its own cells, so that the answer is the same whatever else
    is in view.
    """
    room = np.ones(len(boxes), dtype=bool)
    if not len(boxes):
        return room
    first = np.floor(boxes[:, :2] / CELL).astype(np.int64)
    first -= first.min(axis=0)
    spans = np.floor((boxes[:, 2:] - 1.0) / CELL).astype(np.int64)
    spans -= np.floor(boxes[:, :2] / CELL).astype(np.int64) - 1
    counts = spans[:, 0] * spans[:, 1]
    owner = np.repeat(np.arange(len(boxes)), counts)
    nth = np.arange(len(owner)) - np.repeat(np.cumsum(counts) - counts, counts)
    across = spans[owner, 0]
    columns = int((first[:, 0] + spans[:, 0]).max())
    cell = (first[owner, 1] + nth // across) * columns + first[owner, 0] + nth % across
    foremost = np.empty(int(cell.max()) + 1, dtype=np.int64)
    foremost[cell[::-1]] = owner[::-1]  # the last to be written stays: the most wanted
    room[owner[foremost[cell] != owner]] = False
    return room


def _within(boxes: NDArray[np.float64], sight: Sight, more: float) -> NDArray[np.bool_]:
    """Return which labels lie within so many pixels of what is exposed."""
    found = np.zeros(len(boxes), dtype=bool)
    left, top, right, bottom = boxes.T / sight.scale
    for west, south, east, north in sight.grown(more):
        found |= (left <= east) & (right >= west) & (-top >= south) & (-bottom <= north)
    return found


def _places(shapes: NDArray[np.object_]) -> Points:
    middles = np.asarray(shapely.centroid(shapes), dtype=object)
    lines = shapely.get_type_id(shapes) == shapely.GeometryType.LINESTRING
    middles[lines] = shapely.line_interpolate_point(shapes[lines], 0.5, normalized=True)
    outside = ~lines & ~shapely.intersects(shapes, middles)
    middles[outside] = shapely.point_on_surface(shapes[outside])
    return shapely.get_coordinates(middles)


def labelled_from(kind: Kind) -> float:
    """Return from how many pixels to a metre items of a kind are labelled."""
    if kind.pinned:
        return inf
    return SOLID_FROM if kind.look.solid else FROM[kind.form]


def _hatched(kind: Kind) -> bool:
    looks = [kind.look]
    if kind.form is Form.AREA:
        looks += [when.look for when in kind.looks]
    return any(look.hatch for look in looks)


def _text(kind: Kind, item: Item[Any]) -> str:
    if item.number:
        return item.number
    found = getattr(item.details, kind.label) if kind.label else None
    if found is None:
        return ""
    words = str(found).replace("\n", " ")
    return words if len(words) <= LONGEST else f"{words[: LONGEST - 1]}…"


@lru_cache(maxsize=20_000)
def _lettered(text: str) -> QStaticText:
    made = QStaticText(text)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.prepare(QTransform(), _font())
    return made


def _font() -> QFont:
    font = QFont()
    font.setPixelSize(LABEL_PX)
    return font


NO_LABELS = Labels(places=NO_POINTS, texts=(), sizes=NO_POINTS, beside=np.empty(0))
