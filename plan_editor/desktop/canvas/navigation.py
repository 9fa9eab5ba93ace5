"""Moving about over the ground: scale, place, dragging."""

from collections.abc import Iterable
from math import hypot
from typing import cast

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QRegion, QTransform
from PySide6.QtWidgets import QGraphicsView

from plan_editor.desktop.canvas.sight import Sight
from plan_editor.desktop.canvas.style import PX_PER_MM
from plan_editor.geometry.nearby import Box

MARGIN_M = 200.0
"""One can pan so far past what there is."""

NOWHERE: Box = (-50.0, -50.0, 50.0, 50.0)
"""What is shown of an empty plan, in metres."""

NEAREST = 2_000.0
"""Pixels to a metre at most."""

FARTHEST = 0.02
"""Pixels to a metre at least."""

FILLED = 0.92
"""The share of the view that what is to be seen fills."""

LEAST_M = 25.0
"""What is gone to is shown among so much ground at least: one stone alone tells no place."""


class Navigation:
    """Where a view looks. The painter's coordinates are metres, north up."""

    def __init__(self, view: QGraphicsView, sight: Sight) -> None:
        self._view = view
        self._sight = sight
        self._held: QPoint | None = None
        self._extent: Box | None = None

    @property
    def dragging(self) -> bool:
        """Whether the ground is held by the pointer."""
        return self._held is not None

    @property
    def scale_words(self) -> str:
        """The scale as on paper: ``1:210``."""
        number = 1000.0 * PX_PER_MM / self._sight.scale
        return f"1:{float(f'{number:.3g}'):,.10g}".replace(",", "\u202f")

    def reach_over(self, box: Box | None) -> None:
        """See to it that one can pan over a box, in metres, and some way past it."""
        before = self._extent
        if box is not None:
            self._extent = box if before is None else _round([before, box])
        w, s, e, n = self._extent or NOWHERE
        more = max(MARGIN_M, e - w, n - s)
        if before != self._extent or before is None:
            self._view.setSceneRect(
                QRectF(w - more, s - more, e - w + 2 * more, n - s + 2 * more)
            )

    def show(self, boxes: Iterable[Box]) -> None:
        """Show boxes, in metres, as large as the view lets them be."""
        w, s, e, n = _round(list(boxes) or [NOWHERE])
        size = self._view.viewport().size()
        wide, high = max(e - w, LEAST_M), max(n - s, LEAST_M)
        self.set_scale(FILLED * min(size.width() / wide, size.height() / high))
        self._view.centerOn((w + e) / 2, (s + n) / 2)
        self.look()

    def bring_into_sight(self, boxes: Iterable[Box]) -> None:
        """Move the view over boxes, in metres, unless they are seen; larger ones are shown."""
        w, s, e, n = _round(list(boxes))
        seen = self._view.viewport().rect()
        wanted = self.rect((w, s, e, n), 0.0)
        if wanted.width() > seen.width() or wanted.height() > seen.height():
            self.show([(w, s, e, n)])
        elif not seen.contains(wanted):
            self._view.centerOn((w + e) / 2, (s + n) / 2)
            self.look()

    def zoom(self, factor: float, at: QPointF) -> None:
        """Zoom; what lies at a place of the view stays there, to a pixel."""
        there = self._view.viewportTransform().inverted()[0].map(at)
        self.set_scale(self._sight.scale * factor)
        moved = self._view.viewportTransform().map(there) - at
        self.pan(QPoint(round(moved.x()), round(moved.y())))
        self.look()

    def set_scale(self, scale: float) -> None:
        """Take a scale, in pixels to a metre, about as the view stands."""
        scale = min(max(scale, FARTHEST), NEAREST)
        self._view.setTransform(QTransform(scale, 0.0, 0.0, -scale, 0.0, 0.0))
        self.look()

    def pan(self, by: QPoint) -> None:
        """Move the view over the ground, in pixels right and down."""
        across, down = self._view.horizontalScrollBar(), self._view.verticalScrollBar()
        across.setValue(across.value() + by.x())
        down.setValue(down.value() + by.y())

    def hold(self, at: QPoint) -> None:
        """Take hold of the ground at a place of the view."""
        self._held = at

    def drag(self, to: QPoint) -> None:
        """Draw the ground along with the pointer."""
        held = to if self._held is None else self._held
        by = held - to
        # a scroll by a part of a device pixel would repaint everything
        if self._sight.ratio != int(self._sight.ratio):
            by = QPoint(round(by.x() / 4) * 4, round(by.y() / 4) * 4)
        self.pan(by)
        self._held = held - by

    def let_go(self) -> None:
        """Let go of the ground."""
        self._held = None

    def look(self) -> None:
        """Note what the view now looks at."""
        seen = self._view.viewportTransform()
        self._sight.scale = hypot(seen.m11(), seen.m12())
        self._sight.ratio = self._view.devicePixelRatioF()
        self._sight.origin = (round(seen.dx()), round(seen.dy()))

    def ground(self, at: QPointF) -> tuple[float, float]:
        """Return the place on the ground, in metres, of a place of the view."""
        there = self._view.viewportTransform().inverted()[0].map(at)
        return there.x(), there.y()

    def boxes(self, rects: Iterable[QRect]) -> tuple[Box, ...]:
        """Return rectangles of the view as boxes on the ground."""
        x0, y0 = self._sight.origin
        scale = self._sight.scale
        return tuple(
            (
                (r.x() - x0) / scale,
                (y0 - r.y() - r.height()) / scale,
                (r.x() + r.width() - x0) / scale,
                (y0 - r.y()) / scale,
            )
            for r in rects
        )

    def rect(self, box: Box, more: float) -> QRect:
        """Return a box on the ground as a rectangle of the view, so much larger all round."""
        x0, y0 = self._sight.origin
        w, s, e, n = (c * self._sight.scale for c in box)
        far = 1e6
        left, top = max(w + x0 - more, -far), max(y0 - n - more, -far)
        right, bottom = min(e + x0 + more, far), min(y0 - s + more, far)
        return QRectF(left, top, max(right - left, 0), max(bottom - top, 0)).toAlignedRect()


def set_up(view: QGraphicsView) -> None:
    """Make a view repaint only what has changed, and stay where it is when it is resized."""
    view.setAccessibleName("The ground")
    view.setFrameShape(QGraphicsView.Shape.NoFrame)
    view.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.MinimalViewportUpdate)
    view.setOptimizationFlag(QGraphicsView.OptimizationFlag.DontAdjustForAntialiasing)
    view.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
    view.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
    view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
    view.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
    view.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    view.setMouseTracking(True)
    view.viewport().setCursor(Qt.CursorShape.CrossCursor)


def rects_of(region: QRegion) -> tuple[QRect, ...]:
    """Return the rectangles that make up a region."""
    # QRegion can be gone through, which its annotations do not say
    return tuple(cast("Iterable[QRect]", region))


def _round(boxes: list[Box]) -> Box:
    west, south, east, north = zip(*boxes, strict=True)
    return min(west), min(south), max(east), max(north)
