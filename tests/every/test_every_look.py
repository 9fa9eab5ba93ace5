"""Every look of every kind can be seen on the ground, by day and by night."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from shapely import LineString, Point, Polygon

from plan_editor.desktop.canvas.palette import DARK, LIGHT, Palette
from plan_editor.desktop.canvas.view import Canvas
from plan_editor.drafting.tools import select
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, Status, new_item
from plan_editor.plan.kind import Form, Kind, kinds
from plan_editor.plan.plan import plan_of
from plan_editor.session import Session

PLACES = {
    Form.POINT: Point(5, 5),
    Form.LINE: LineString([(0, 0), (6, 2), (10, 10)]),
    Form.AREA: Polygon([(0, 0), (10, 0), (10, 10), (0, 9)]),
    Form.RECTANGLE: Rectangle(east=2, north=2, width=3, length=6, bearing_deg=20.0),
}


def looks(kind: Kind) -> Iterator[Item[Any]]:
    """Return an item for each look, form and status."""
    details = [kind.details()]
    details += [replace(details[0], **{w.detail: w.value}) for w in kind.looks]
    for detail in details:
        for form in kind.forms:
            for status in Status if form in PLACES else ():
                yield replace(new_item(kind, PLACES[form], details=detail), status=status)


def inked(canvas: Canvas, palette: Palette) -> int:
    """Return how many pixels of the ground bear ink."""
    image = canvas.viewport().grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    wide = image.bytesPerLine() // 4
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), wide, 4)
    ground = QColor(palette.ground)
    paper = np.array([ground.blue(), ground.green(), ground.red()])
    return int((np.abs(rows[:300, : image.width(), :3].astype(int) - paper) > 40).any(2).sum())


@pytest.mark.parametrize(
    "kind", [k for k in kinds() if k.drawn and not k.pinned], ids=lambda k: k.name
)
@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["day", "night"])
def test_every_look_can_be_seen(qtbot: QtBot, kind: Kind, palette: Palette) -> None:
    for item in looks(kind):
        canvas = Canvas(Session(Document(plan_of([item])), first=select.TOOL), palette)
        qtbot.addWidget(canvas)
        canvas.resize(400, 400)
        with qtbot.waitExposed(canvas):
            canvas.show()
        canvas.zoom(20.0 / canvas._sight.scale)
        canvas.centerOn(QPointF(5, 5))
        QApplication.processEvents()
        assert inked(canvas, palette) > 2, f"{item.status} {item.details}"
        canvas.let_go()
        canvas.close()
