"""A look on the screen: colours by day and night, pens in pixels, hatches as tiles."""

from dataclasses import dataclass, replace
from functools import cache
from math import cos, radians, sin

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QPen, QTransform

from plan_editor.desktop.canvas.palette import Palette
from plan_editor.plan.item import Status
from plan_editor.plan.look import Hatch, Look, Pattern, Pen

PX_PER_MM = 96 / 25.4
"""Logical pixels for a millimetre of paper, on a screen as systems take it to be."""

FINE, BOLD = 0.4, 0.6
"""Lines up to the first width in mm are a pixel wide, up to the second two."""

FADED = {0.18: 0.72, 0.25: 0.88}
"""How much of its colour a line thinner than a pixel keeps."""

PALE = 0.25
"""A colour of the paper that is so little darker than it stays as quiet at night."""

STILL_PALE, STRONGEST = 0.8, 0.2
"""With high contrast fills lighter than the first stay; all else is as dark as the second."""

LEAST_SPACING_PX = 6.0
"""A hatch is no closer than this on the screen."""

FAR_TONE = 0.42
"""From far off, where outlines are left out, an area takes so much of its pen's colour."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Style:
    """How pieces of one look and status are drawn.

    Args:
        fill: inside areas, or None.
        far: inside areas when seen from far off, without their outline.
        solid: inside solid footprints and bars.
        edge: round them, seen from nearby.
        pen: for outlines; without dashes, which are cut on the ground.
        thin: for what is seen from nearby only.
        hatch: the pattern inside areas, or None.
        colour: of symbols and letters.
    """

    fill: QColor | None
    far: QColor
    solid: QColor
    edge: QPen
    pen: QPen
    thin: QPen
    hatch: Hatch | None
    colour: QColor


@cache
def style(look: Look, status: Status, palette: Palette) -> Style:
    """Return how a look is drawn in the colours of a palette."""
    pen = look.pen or Pen()
    ink = _ink(pen, status, palette)
    fill = None if look.fill is None else on_screen(look.fill, palette)
    ground = QColor(palette.ground)
    return Style(
        fill=fill,
        far=blended(ink, fill or ground, FAR_TONE if look.pen is not None else 0.0),
        solid=ink,
        edge=line_pen(ink),
        pen=line_pen(ink, pixels(pen.width)),
        thin=line_pen(ink if palette.strong else blended(ink, ground, FADED[0.18])),
        hatch=look.hatch,
        colour=ink,
    )


def on_screen(colour: str, palette: Palette) -> QColor:
    """Return a colour of the paper as it is drawn: at night light and dark change places.

    With high contrast what is darker than a pale fill is darker still.
    """
    if palette.strong:
        return _strong(QColor(colour))
    if not palette.dark:
        return QColor(colour)
    paper, night, light = (
        QColor(c).lightnessF() for c in ("#FBF9F3", palette.ground, palette.ink)
    )
    given = QColor(colour)
    share = min(max((paper - given.lightnessF()) / paper, 0.0), 1.0)
    lightness = night + (light - night) * (share if share > PALE else 0.8 * share)
    kept = 0.8 if share > PALE else 0.35
    return QColor.fromHslF(max(given.hslHueF(), 0.0), given.hslSaturationF() * kept, lightness)


def _strong(colour: QColor) -> QColor:
    if colour.lightnessF() > STILL_PALE:
        return colour
    lightness = min(colour.lightnessF(), STRONGEST)
    return QColor.fromHslF(max(colour.hslHueF(), 0.0), colour.hslSaturationF(), lightness)


def blended(colour: QColor, ground: QColor, share: float) -> QColor:
    """Return so much of a colour over a ground, without transparency, which costs time."""
    rest = 1.0 - share
    return QColor.fromRgbF(
        colour.redF() * share + ground.redF() * rest,
        colour.greenF() * share + ground.greenF() * rest,
        colour.blueF() * share + ground.blueF() * rest,
    )


def _ink(pen: Pen, status: Status, palette: Palette) -> QColor:
    colours = {
        Status.EXISTING: on_screen(pen.colour, palette),
        Status.PROPOSED: QColor(palette.slate),
        Status.TO_BE_REMOVED: QColor(palette.rust),
    }
    share = 1.0 if palette.strong else FADED.get(pen.width, 1.0)
    return blended(colours[status], QColor(palette.ground), share)


def pixels(width_mm: float) -> float:
    """Return how wide a line is drawn, in pixels."""
    if width_mm <= FINE:
        return 1.0
    return 2.0 if width_mm <= BOLD else 3.0


def line_pen(colour: QColor, width: float = 1.0) -> QPen:
    """Return a pen so many pixels wide at every scale."""
    made = QPen(colour, width)
    made.setCosmetic(True)
    made.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    return made


def hatching(hatch: Hatch, palette: Palette, *, scale: float, ratio: float) -> QBrush:
    """Return a hatch as a brush for a painter that draws metres, north up.

    It is locked to the ground, so that it neither swims nor shows a seam when the view is
    scrolled.

    Args:
        hatch: the pattern.
        palette: the colours.
        scale: logical pixels to a metre.
        ratio: device pixels to a logical one; the pattern is drawn as fine as these.
    """
    brush = QBrush(_tile(hatch, palette, ratio))
    side = 1 / (scale * ratio)
    brush.setTransform(QTransform.fromScale(side, -side))
    return brush


@cache
def _tile(hatch: Hatch, palette: Palette, ratio: float) -> QImage:
    """Return one period of a hatch as a picture without a ground."""
    spacing = max(hatch.spacing * PX_PER_MM, LEAST_SPACING_PX) * ratio
    wide, high = _period(hatch, spacing)
    tile = QImage(wide, high, QImage.Format.Format_ARGB32_Premultiplied)
    tile.fill(Qt.GlobalColor.transparent)
    colour = on_screen(hatch.pen.colour, palette)
    colour.setAlphaF(0.75)
    painter = QPainter(tile)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(colour, max(int(ratio), 1)))
    painter.setBrush(colour)
    _draw(painter, replace(hatch, size=hatch.size * ratio), wide, high)
    painter.end()
    return tile


def _period(hatch: Hatch, spacing: float) -> tuple[int, int]:
    angle = radians(hatch.angle_deg)
    match hatch.pattern:
        case Pattern.LINES | Pattern.CROSSED:
            across = spacing / abs(sin(angle)) if abs(sin(angle)) > 0.05 else spacing
            up = spacing / abs(cos(angle)) if abs(cos(angle)) > 0.05 else spacing
            return max(round(across), 2), max(round(up), 2)
        case Pattern.DOTS | Pattern.STROKES | Pattern.CROSSES:
            return max(round(spacing), 4), max(round(spacing * 2), 4)


def _draw(painter: QPainter, hatch: Hatch, wide: int, high: int) -> None:
    match hatch.pattern:
        case Pattern.LINES:
            _lines(painter, hatch.angle_deg, wide, high)
        case Pattern.CROSSED:
            _lines(painter, hatch.angle_deg, wide, high)
            _lines(painter, hatch.angle_deg + 90.0, wide, high)
        case Pattern.DOTS | Pattern.STROKES | Pattern.CROSSES:
            # two marks to a tile, staggered
            size = hatch.size * PX_PER_MM / 2
            for x, y in ((wide / 4, high / 4), (wide * 3 / 4, high * 3 / 4)):
                _mark(painter, hatch.pattern, QPointF(x, y), size)


def _lines(painter: QPainter, angle_deg: float, wide: int, high: int) -> None:
    slope = angle_deg % 180.0
    if abs(sin(radians(slope))) <= 0.05:
        painter.drawLine(QPointF(-1, high // 2 + 0.5), QPointF(wide + 1, high // 2 + 0.5))
    elif abs(cos(radians(slope))) <= 0.05:
        painter.drawLine(QPointF(wide // 2 + 0.5, -1), QPointF(wide // 2 + 0.5, high + 1))
    else:
        # a tile lies upright on the screen; the neighbours' lines pass through its corners
        rising = slope < 90.0
        for shift in (-wide, 0, wide):
            left, right = (high, 0) if rising else (0, high)
            painter.drawLine(QPointF(shift, left), QPointF(shift + wide, right))


def _mark(painter: QPainter, pattern: Pattern, at: QPointF, size: float) -> None:
    match pattern:
        case Pattern.STROKES:
            painter.drawLine(at + QPointF(0, size), at - QPointF(0, size))
        case Pattern.CROSSES:
            painter.drawLine(at + QPointF(-size, size), at + QPointF(size, -size))
            painter.drawLine(at + QPointF(-size, -size), at + QPointF(size, size))
        case Pattern.DOTS | Pattern.LINES | Pattern.CROSSED:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.drawEllipse(at, max(size, 0.9), max(size, 0.9))
