"""A small picture of a sheet, drawn from its ink in the second process."""

import os
from functools import cache
from pathlib import Path

from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QColor, QFontDatabase, QGuiApplication, QImage, QPainter

from plan_editor.commands.making import KeptIn, compose, sheet_named
from plan_editor.desktop.canvas.painter import PAPER, InkPainter
from plan_editor.printing.sheet import Asked, Page
from plan_editor.resources import resource
from plan_editor.storage.loading import read_plan


def draw_sheet(plan_path: Path, name: str, asked: Asked, side: int) -> tuple[bytes, str]:
    """Return the first page of a sheet as PNG, and its paper, scale and pages in words.

    Args:
        plan_path: a plan's file or working copy.
        name: of the sheet.
        asked: what is asked of it.
        side: the longer side of the picture, in pixels.

    Raises:
        CannotPrint: it does not fit.
        FileProblem: the plan cannot be read.
    """
    printed = compose(read_plan(plan_path), KeptIn(plan_path), sheet_named(name), asked)
    pages = "1 page" if len(printed.pages) == 1 else f"{len(printed.pages)} pages"
    scale = "" if printed.scale is None else f"1:{printed.scale:g}, "
    facts = f"{printed.paper.name}, {scale}{pages}"
    return _png(draw_page(printed.pages[0], side)), facts


def draw_page(page: Page, side: int) -> QImage:
    """Return a page as a picture whose longer side has so many pixels."""
    _application()
    scale = side / max(page.width, page.height)
    image = QImage(
        max(round(page.width * scale), 1),
        max(round(page.height * scale), 1),
        QImage.Format.Format_RGB32,
    )
    image.fill(QColor(PAPER))
    painter = QPainter(image)
    InkPainter(painter, px_per_mm=scale, height_mm=page.height).draw_all(page.ink)
    painter.end()
    return image


def _png(image: QImage) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]  # the stubs want bytes, Qt a str
    return bytes(buffer.data().data())


@cache
def _application() -> QGuiApplication:
    # the second process has no screen of its own, and needs none
    found = QGuiApplication.instance()
    if isinstance(found, QGuiApplication):
        return found
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    made = QGuiApplication([])
    for file in sorted(resource("fonts").glob("*.ttf")):
        QFontDatabase.addApplicationFont(str(file))
    return made
