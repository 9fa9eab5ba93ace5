"""Computed zones over the plan: a broken outline, a wide hatch, and what each is called."""

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen
from shapely.geometry.base import BaseGeometry
from typing_extensions import override

from plan_editor.desktop.canvas.dashes import dashed
from plan_editor.desktop.canvas.drawn import on_ground
from plan_editor.desktop.canvas.labels import LABEL_PX
from plan_editor.desktop.canvas.over_all import OverAll
from plan_editor.desktop.canvas.paths import path_of, segments_of
from plan_editor.desktop.canvas.runs import runs_of
from plan_editor.desktop.canvas.sight import Sight, meet
from plan_editor.desktop.canvas.style import hatching, style
from plan_editor.plan.item import Status
from plan_editor.plan.look import Hatch, Look, Pattern, Pen

RUST = "#9A3B22"

ZONE = Look(
    pen=Pen(width=0.5, colour=RUST, dash=(3.0, 1.5)),
    hatch=Hatch(
        pattern=Pattern.LINES, angle_deg=45.0, spacing=5.0, pen=Pen(width=0.18, colour=RUST)
    ),
)
"""How a zone to keep out of is drawn."""

REACH_PX = 120.0
"""A label may reach so far out of its zone."""

LABELS_FROM = 4.0
"""Zones are named from so many pixels to a metre."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A computed zone as it is shown.

    Args:
        shape: its outline, in metres about the plan's origin.
        label: a word or number in a box, such as the stones that it belongs to.
        look: how it is drawn.
    """

    shape: BaseGeometry
    label: str = ""
    look: Look = ZONE


class ZonesItem(OverAll):
    """Paints the zones; each is a path of its own, so that they may overlap."""

    def __init__(self, sight: Sight) -> None:
        super().__init__()
        self._sight = sight
        self._zones: tuple[tuple[Shown, QPainterPath, list[QLineF]], ...] = ()
        self.setZValue(500.0)

    def show_zones(self, zones: tuple[Shown, ...]) -> None:
        """Show these instead of those before."""
        self._zones = tuple(_ready(zone) for zone in zones)

    @override
    def draw(self, painter: QPainter) -> None:
        for zone, path, segments in self._zones:
            if any(meet(zone.shape.bounds, box) for box in self._sight.grown(REACH_PX)):
                self._paint_one(painter, zone, path, segments)

    def _paint_one(
        self, painter: QPainter, zone: Shown, path: QPainterPath, segments: list[QLineF]
    ) -> None:
        dressed = style(zone.look, Status.EXISTING, self._sight.palette)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        if dressed.hatch is not None:
            sight = self._sight
            brush = hatching(dressed.hatch, sight.palette, scale=sight.scale, ratio=sight.ratio)
            painter.fillPath(path, brush)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
        painter.setPen(dressed.pen)
        painter.drawLines(segments)
        if zone.label and self._sight.scale >= LABELS_FROM:
            self._write(painter, zone, dressed.pen)

    def _write(self, painter: QPainter, zone: Shown, pen: QPen) -> None:
        middle = zone.shape.representative_point()
        (x, y) = self._sight.pixels_of(middle.x, zone.shape.bounds[3])
        painter.save()
        painter.resetTransform()
        font = painter.font()
        font.setPixelSize(LABEL_PX)
        painter.setFont(font)
        wide = painter.fontMetrics().horizontalAdvance(zone.label) + 10
        box = QRectF(x - wide // 2, y - 9, wide, 18)
        painter.setPen(QPen(pen.color(), 1.0))
        painter.setBrush(QColor(self._sight.palette.ground))
        painter.drawRect(box)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, zone.label)
        painter.restore()


def _ready(zone: Shown) -> tuple[Shown, QPainterPath, list[QLineF]]:
    runs = runs_of([zone.shape])
    dash = zone.look.pen.dash if zone.look.pen else ()
    lines = dashed(runs, on_ground(dash)) if dash else runs
    return zone, path_of(runs), segments_of(lines)
