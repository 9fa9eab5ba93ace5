"""How the window looks: fonts, palettes, one style sheet, spaces in steps of four pixels."""

from functools import cache
from pathlib import Path

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontDatabase,
    QGuiApplication,
    QIcon,
    QPainter,
    QPalette,
    QPixmap,
)
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QApplication, QStyleFactory, QWidget

from plan_editor.desktop.canvas.palette import Palette
from plan_editor.plan.look import INK
from plan_editor.resources import resource

STEP = 4
"""Every space in the window is a multiple of this, in logical pixels."""

FAMILY = "Source Sans 3"
FALLBACK = "DejaVu Sans Condensed"

TEXT_GROWTH = 1.05
"""Our text beside the system's: 10.5 points where the system has 10."""

HEADING_GROWTH = 1.3
"""The larger of the two sizes of type, beside the smaller."""

_FULL, _FAINT = 1.0, 0.4


def dress(app: QApplication, palette: Palette) -> None:
    """Give the whole application its style, fonts and colours."""
    _load_fonts()
    app.setStyle(QStyleFactory.create("Fusion"))
    points = TEXT_GROWTH * max(_system_points(), 7.0)
    font = QFont([FAMILY, FALLBACK])
    font.setPointSizeF(points)
    app.setFont(font)
    app.setPalette(_colours(palette))
    app.setStyleSheet(_style(palette, points) + (_strong(palette) if palette.strong else ""))


def icon(name: str, palette: Palette) -> QIcon:
    """Return one of our line drawings in the colours of a palette; an empty one of no name."""
    return _icon(name, palette) if name else QIcon()


def heading(widget: QWidget) -> QWidget:
    """Give a widget the larger type."""
    return role(widget, "heading")


def role(widget: QWidget, name: str) -> QWidget:
    """Say what a widget is for; the style sheet dresses it accordingly."""
    widget.setProperty("role", name)
    widget.style().unpolish(widget)
    widget.style().polish(widget)
    return widget


@cache
def _load_fonts() -> None:
    for file in sorted(resource("fonts").glob("*.ttf")):
        QFontDatabase.addApplicationFont(str(file))


@cache
def _system_points() -> float:
    # asked once: after ours is set, the application would answer with it
    return QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont).pointSizeF()


@cache
def _icon(name: str, palette: Palette) -> QIcon:
    drawing = resource(f"icons/{name}.svg")
    made = QIcon()
    for mode, state, colour, strength in (
        (QIcon.Mode.Normal, QIcon.State.Off, palette.ink, _FULL),
        (QIcon.Mode.Normal, QIcon.State.On, _icon_on(palette), _FULL),
        (QIcon.Mode.Disabled, QIcon.State.Off, palette.ink, _FAINT),
    ):
        for side in (24, 48):
            made.addPixmap(_drawn(drawing, colour, side, strength), mode, state)
    return made


def _icon_on(palette: Palette) -> str:
    # what is on stands on black where contrast is high
    return palette.ground if palette.strong else palette.moss


def _drawn(file: Path, colour: str, side: int, strength: float) -> QPixmap:
    picture = file.read_text(encoding="utf-8").replace(INK, colour)
    pixmap = QPixmap(side, side)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setOpacity(strength)
    QSvgRenderer(QByteArray(picture.encode())).render(painter, QRectF(0, 0, side, side))
    painter.end()
    return pixmap


def _colours(palette: Palette) -> QPalette:
    part = QPalette.ColorRole
    made = QPalette()
    for where, colour in {
        part.Window: palette.panel,
        part.Base: palette.ground,
        part.AlternateBase: palette.panel,
        part.Button: palette.panel,
        part.ToolTipBase: palette.ground,
        part.WindowText: palette.ink,
        part.Text: palette.ink,
        part.ButtonText: palette.ink,
        part.ToolTipText: palette.ink,
        part.BrightText: palette.rust,
        part.PlaceholderText: palette.soft,
        part.Highlight: palette.moss,
        part.HighlightedText: palette.ground,
        part.Link: palette.slate,
        part.LinkVisited: palette.slate,
        part.Light: palette.ground,
        part.Midlight: palette.line,
        part.Mid: palette.line,
        part.Dark: palette.line,
        part.Shadow: palette.line,
        part.Accent: palette.moss,
    }.items():
        made.setColor(where, QColor(colour))
    for where in (part.WindowText, part.Text, part.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, where, QColor(palette.soft))
    return made


def system_wants_contrast() -> bool:
    """Return whether the user's system is set to high contrast, where it tells."""
    # kept by name: PySide6 6.11 takes what a hint is part of to be gone with it
    hints = QGuiApplication.styleHints()
    return hints.accessibility().contrastPreference() is Qt.ContrastPreference.HighContrast


def system_is_dark() -> bool:
    """Return whether the user's system is set to dark colours."""
    return QGuiApplication.styleHints().colorScheme() is Qt.ColorScheme.Dark


def _style(p: Palette, points: float) -> str:
    large = points * HEADING_GROWTH
    return f"""
QLabel[role="heading"] {{ font-size: {large:.1f}pt; font-weight: 600; }}
QLabel[role="strong"] {{ font-weight: 600; }}
QLabel[role="soft"] {{ color: {p.soft}; }}
QLabel[role="danger"] {{ color: {p.rust}; }}
QLabel[role="caution"] {{ color: {p.straw}; }}
QLabel[role="figure"] {{ color: {p.slate}; }}
QWidget[role="bar"] {{ background: {p.panel}; }}
QWidget[role="notice"] {{ background: {p.ground}; border-top: 1px solid {p.line}; }}
QWidget[role="day"] {{ background: {p.ground}; border-bottom: 3px solid {p.straw}; }}
QWidget[role="paper"] {{ background: {p.ground}; }}
QFrame[role="popup"] {{ background: {p.panel}; border: 1px solid {p.line}; }}
QFrame[role="rule"] {{ background: {p.line}; border: none; }}
QMenuBar {{ background: {p.panel}; }}
QLineEdit, QPlainTextEdit, QComboBox {{
  background: {p.ground}; color: {p.ink}; border: 1px solid {p.line}; border-radius: 4px;
  padding: 3px 7px; min-height: 20px; selection-background-color: {p.moss};
  selection-color: {p.ground};
}}
QLineEdit:focus, QPlainTextEdit:focus, QComboBox:focus {{ border-color: {p.moss}; }}
QLineEdit[role="danger"] {{ border-color: {p.rust}; }}
QLineEdit:disabled, QPlainTextEdit:disabled, QComboBox:disabled {{ color: {p.soft}; }}
QComboBox {{ padding: 3px 24px 3px 9px; }}
QComboBox::drop-down {{ border: none; width: 20px; }}
QComboBox::down-arrow {{ image: none; }}
QPushButton {{
  background: {p.ground}; color: {p.ink}; border: 1px solid {p.line}; border-radius: 4px;
  padding: 4px 12px; min-height: 20px;
}}
QPushButton:hover, QPushButton:focus {{ border-color: {p.moss}; }}
QPushButton:disabled {{ color: {p.soft}; background: {p.panel}; }}
QPushButton[role="main"] {{
  background: {p.moss}; color: {p.ground}; border-color: {p.moss}; font-weight: 600;
}}
QPushButton[role="main"]:disabled {{
  background: {p.panel}; color: {p.soft}; border-color: {p.line};
}}
QPushButton[role="main"]:focus {{ border: 2px solid {p.ink}; padding: 3px 11px; }}
QPushButton[role="link"] {{
  background: transparent; border: none; color: {p.slate}; padding: 2px 0; text-align: left;
}}
QPushButton[role="link"]:hover, QPushButton[role="link"]:focus {{ text-decoration: underline; }}
QPushButton[role="fold"] {{
  background: transparent; border: 1px solid transparent; border-radius: 0; text-align: left;
  font-size: {large:.1f}pt; font-weight: 600; padding: 8px 40px 8px 15px;
}}
QPushButton[role="fold"]:hover, QPushButton[role="fold"]:focus {{ border-color: {p.moss}; }}
QToolButton {{
  background: transparent; color: {p.ink}; border: 1px solid transparent; border-radius: 4px;
  padding: 4px 8px;
}}
QToolButton:hover, QToolButton:focus {{ border-color: {p.line}; }}
QToolButton:disabled {{ color: {p.soft}; }}
QToolButton:checked {{
  background: {p.ground}; border-color: {p.line}; color: {p.moss}; font-weight: 600;
}}
QToolButton[role="job"] {{ padding: 8px 4px; min-width: 64px; }}
QToolButton[role="job"]:checked {{ border-left: 4px solid {p.moss}; }}
QScrollArea {{ border: none; background: transparent; }}
QAbstractScrollArea::corner {{ background: transparent; }}
QListView, QTreeView, QTableView {{
  background: {p.ground}; border: 1px solid {p.line}; border-radius: 4px; outline: none;
  gridline-color: {p.line};
}}
QListView:focus, QTreeView:focus, QTableView:focus {{ border-color: {p.moss}; }}
QListView::item, QTreeView::item {{ padding: 4px; }}
QTableView::item {{ padding: 0 8px; }}
QListView::item:selected, QTreeView::item:selected, QTableView::item:selected {{
  background: {p.line}; color: {p.ink};
}}
QCheckBox::indicator:unchecked, QTableView::indicator:unchecked,
QTreeView::indicator:unchecked {{
  background: {p.ground}; border: 1px solid {p.soft}; border-radius: 2px;
  width: 11px; height: 11px;
}}
QHeaderView::section {{
  background: {p.panel}; color: {p.soft}; border: none; border-bottom: 1px solid {p.line};
  padding: 4px 8px;
}}
QScrollBar {{ background: {p.panel}; border: none; }}
QScrollBar:vertical {{ width: 10px; }}
QScrollBar:horizontal {{ height: 10px; }}
QScrollBar::handle {{ background: {p.line}; border-radius: 3px; margin: 2px; }}
QScrollBar::handle:vertical {{ min-height: 32px; }}
QScrollBar::handle:horizontal {{ min-width: 32px; }}
QScrollBar::handle:hover {{ background: {p.soft}; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
QSplitter::handle {{ background: {p.line}; }}
QSplitter::handle:horizontal {{ width: 1px; }}
QSplitter::handle:vertical {{ height: 1px; }}
QProgressBar {{
  background: {p.ground}; border: 1px solid {p.line}; border-radius: 4px; height: 8px;
}}
QProgressBar::chunk {{ background: {p.moss}; border-radius: 3px; }}
QToolTip {{ background: {p.ground}; color: {p.ink}; border: 1px solid {p.line}; padding: 4px; }}
"""


def _strong(p: Palette) -> str:
    """Return what differs with high contrast: thick frames, what is chosen turned round."""
    return f"""
QLineEdit, QPlainTextEdit {{ placeholder-text-color: {p.soft}; }}
QLineEdit:focus, QPlainTextEdit:focus, QComboBox:focus {{
  border: 3px solid {p.ink}; padding: 1px 5px;
}}
QComboBox:focus {{ padding: 1px 22px 1px 7px; }}
QPushButton:focus {{ border: 3px solid {p.ink}; padding: 2px 10px; }}
QPushButton[role="main"]:focus {{ border: 3px solid {p.straw}; padding: 2px 10px; }}
QPushButton[role="link"] {{
  text-decoration: underline; border: 3px solid transparent; padding: 0 2px;
}}
QPushButton[role="link"]:focus {{ border-color: {p.ink}; }}
QPushButton[role="fold"]:hover, QPushButton[role="fold"]:focus {{
  border: 3px solid {p.ink}; padding: 6px 38px 6px 13px;
}}
QToolButton:hover {{ border: 1px solid {p.ink}; }}
QToolButton:focus {{ border: 3px solid {p.ink}; padding: 2px 6px; }}
QToolButton:checked {{ background: {p.ink}; color: {p.ground}; border: 1px solid {p.ink}; }}
QToolButton:checked:focus {{ border: 3px solid {p.straw}; padding: 2px 6px; }}
QToolButton[role="job"]:checked {{ border-left: 4px solid {p.straw}; }}
QListView:focus, QTreeView:focus, QTableView:focus {{ border: 3px solid {p.ink}; }}
QListView::item:selected, QTreeView::item:selected, QTableView::item:selected,
QMenu::item:selected, QMenuBar::item:selected {{
  background: {p.ink}; color: {p.ground};
}}
QCheckBox:focus {{ border: 2px solid {p.ink}; }}
QScrollBar::handle {{ background: {p.soft}; }}
"""
