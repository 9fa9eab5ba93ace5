"""The view of the ground: how large, which piece, painted where it is exposed."""

from collections.abc import Iterable

from PySide6.QtCore import QPoint, QPointF, Signal
from PySide6.QtGui import QColor, QPaintEvent, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QGraphicsScene, QGraphicsView, QWidget
from typing_extensions import override

from plan_editor.desktop.canvas.navigation import Navigation, rects_of, set_up
from plan_editor.desktop.canvas.on_glass import OnGlass
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.canvas.sight import Sight
from plan_editor.geometry.nearby import Box

WHEEL_STEP = 1.25
"""One notch of the wheel makes the ground so much larger."""

MOST_RECTS = 8
"""What is exposed in more pieces than this is painted as one."""


class PannedView(QGraphicsView):
    """Pans and zooms over what the canvas puts into its scene."""

    scale_changed = Signal(str)
    """``1:210``."""

    def __init__(self, sight: Sight, parent: QWidget | None) -> None:
        super().__init__(parent)
        self._sight = sight
        self.setScene(QGraphicsScene(self))
        self.scene().setItemIndexMethod(QGraphicsScene.ItemIndexMethod.NoIndex)
        self._navigation = Navigation(self, sight)
        # in the viewport: beside it, over the same place, it would keep Qt from scrolling what
        # is painted already
        self._glass = OnGlass(self.viewport(), sight.palette)
        self._glass.key.gone_to.connect(self._centre)
        self._untouched = True
        set_up(self)
        self.set_palette(sight.palette)

    @property
    def extent(self) -> Box | None:
        """All that there is: least east and north, greatest east and north; None of nothing."""
        return None

    def set_palette(self, palette: Palette) -> None:
        """Change colours."""
        self._sight.palette = palette
        self.setBackgroundBrush(QColor(palette.ground))
        self._glass.set_palette(palette)
        self.viewport().update()

    @property
    def key_plan_wanted(self) -> bool:
        """Whether the key plan is shown where only a piece of the ground is seen."""
        return self._glass.key.wanted

    def show_key_plan(self, wanted: bool) -> None:  # noqa: FBT001  # as Qt's own setters
        """Show the key plan where only a piece of the ground is seen, or never."""
        self._glass.key.wanted = wanted
        self._seen_changed()

    def whole(self) -> None:
        """Show all that there is."""
        self.go([] if self.extent is None else [self.extent])
        self._untouched = True

    def look_at(self, box: Box) -> None:
        """Show a box, in metres, though nothing of the plan may lie there yet."""
        self._navigation.reach_over(box)
        self.go([box])

    def go(self, boxes: list[Box]) -> None:
        """Show boxes, in metres, as large as the view lets them be."""
        self._untouched = False
        self._navigation.show(boxes)
        self._scale_changed()

    def bring_boxes(self, boxes: list[Box]) -> None:
        """Move the view, at its scale, over boxes, unless they are seen already."""
        self._untouched = False
        self._navigation.bring_into_sight(boxes)

    def pan(self, by: QPoint) -> None:
        """Move the view over the ground, in pixels right and down."""
        self._untouched = False
        self._navigation.pan(by)

    def touched(self) -> None:
        """Note that somebody chose what is seen: it stays when the window is resized."""
        self._untouched = False

    def zoom(self, factor: float) -> None:
        """Show the ground so much larger, about the middle of the view."""
        self.zoom_at(factor, QPointF(self.viewport().rect().center()))

    def zoom_at(self, factor: float, at: QPointF) -> None:
        """Show the ground so much larger; what lies at a place of the view stays there."""
        self._untouched = False
        self._navigation.zoom(factor, at)
        self._scale_changed()

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        turned = event.angleDelta().y() / 120
        if turned:
            self.zoom_at(WHEEL_STEP**turned, event.position())
        event.accept()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        self._navigation.look()
        region = event.region()
        few = region.rectCount() <= MOST_RECTS
        rects = rects_of(region) if few else (region.boundingRect(),)
        self._sight.exposed = self._navigation.boxes(rects)
        super().paintEvent(event)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._untouched:
            self.whole()
        self._seen_changed()

    @override
    def scrollContentsBy(self, dx: int, dy: int) -> None:
        super().scrollContentsBy(dx, dy)
        self._seen_changed()  # what is on the glass was moved along with the ground

    def repaint_boxes(self, boxes: Iterable[Box], more: float) -> None:
        """Paint anew what lies in boxes, in metres, and so many pixels round them."""
        self._navigation.look()
        for box in boxes:
            self.viewport().update(self._navigation.rect(box, more))

    def _centre(self, east: float, north: float) -> None:
        self._untouched = False
        self.centerOn(east, north)

    def _scale_changed(self) -> None:
        self._glass.set_scale(self._sight.scale)
        self._seen_changed()
        self.scale_changed.emit(self._navigation.scale_words)

    def _seen_changed(self) -> None:
        self._navigation.look()
        (seen,) = self._navigation.boxes((self.viewport().rect(),))
        self._glass.key.look(seen)
        self._glass.place()
