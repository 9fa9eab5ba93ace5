"""Somebody who traces: sees the scan, clicks and presses keys, and misses a little."""

from collections.abc import Iterable
from dataclasses import dataclass
from io import BytesIO
from random import Random
from typing import Any

import numpy as np
from paper import to_scan
from PIL import Image
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton
from tour import wait_until

from plan_editor.desktop.window import PlanWindow
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import base_plan
from plan_editor.plan.kind import Form

Place = tuple[float, float]

MISS_PX = 2.0
"""By so much, in pixels of the scan, a click misses what it is meant for, each way, at most."""

NEAREST_PX = 8
"""The ink that is meant lies within so many pixels of where the yard says that it is."""

CONTRAST = 28
"""Ink is so many of 255 grey levels darker than the paper about it."""

SIZE = (1600, 1000)
SEEN_M = 9.0
"""Across the piece of ground that is looked at while something is drawn corner by corner."""

NO_KEYS = Qt.KeyboardModifier.NoModifier
LEFT = Qt.MouseButton.LeftButton


class Ink:
    """The scan as it is looked at: where there is ink."""

    def __init__(self, picture: bytes) -> None:
        with Image.open(BytesIO(picture)) as image:
            self._grey = np.asarray(image.convert("L"), dtype=np.float64)

    def nearest(self, right: float, down: float) -> tuple[float, float] | None:
        """Return the middle of the inked pixel nearest to a place; None where there is none."""
        far = 3 * NEAREST_PX
        x, y = int(right), int(down)
        part = self._grey[max(0, y - far) : y + far, max(0, x - far) : x + far]
        rows, columns = np.nonzero(part <= np.median(part) - CONTRAST)
        if not len(rows):
            return None
        xs, ys = columns + max(0, x - far) + 0.5, rows + max(0, y - far) + 0.5
        away = np.hypot(xs - right, ys - down)
        best = int(away.argmin())
        return (float(xs[best]), float(ys[best])) if away[best] <= NEAREST_PX else None


@dataclass
class Effort:
    """What was done by hand."""

    clicks: int = 0
    keys: int = 0
    moves: int = 0
    """Times that another piece of ground was brought into sight by hand."""


class Tracer:
    """Somebody who traces: sees the scan, clicks and presses keys, and misses a little."""

    def __init__(self, window: PlanWindow, picture: bytes, seed: int) -> None:
        self.window = window
        assert window.body is not None
        self.body = window.body
        self.canvas = window.body.ground.canvas
        self.session = window.session
        self.ink = Ink(picture)
        self.chance = Random(seed)  # noqa: S311  # seeded chance is wanted
        self.effort = Effort()
        self.not_inked: list[Place] = []
        window.resize(*SIZE)
        wait_until(lambda: self.canvas.width() > SIZE[0] // 2)
        (self.scan,) = self.plan.of(base_plan.KIND)

    @property
    def plan(self) -> Any:
        """The plan as it is now."""
        return self.session.document.plan

    def meant(self, place: Place) -> Place:
        """Return where a hand comes to that means the ink of a place of the yard."""
        right, down = to_scan(np.array([place[0]]), np.array([place[1]]))
        inked = self.ink.nearest(float(right[0]), float(down[0]))
        if inked is None:
            self.not_inked.append(place)
            inked = float(right[0]), float(down[0])
        missed = [(p + self.chance.uniform(-MISS_PX, MISS_PX)) for p in inked]
        ground = self.scan.details.mapping.to_ground(np.array([missed]))
        return float(ground[0, 0]), float(ground[0, 1])

    def at(self, place: Place) -> QPoint:
        """Return a place of the ground on the screen, brought into sight where it is not."""
        at = self.canvas.mapFromScene(*place)
        if not self.canvas.viewport().rect().adjusted(60, 60, -60, -60).contains(at):
            self.look(place, SEEN_M)
            at = self.canvas.mapFromScene(*place)
        return at

    def look(self, place: Place, metres: float) -> None:
        """Bring a square of ground into sight, as a drag and the wheel would."""
        half = metres / 2
        self.canvas.look_at(
            (place[0] - half, place[1] - half, place[0] + half, place[1] + half)
        )
        self.effort.moves += 1

    def click(self, place: Place) -> None:
        """Click on the ground; what is inked there is caught, as it is for everybody."""
        at = self.at(place)
        QTest.mouseMove(self.canvas.viewport(), at)
        QTest.mouseClick(self.canvas.viewport(), LEFT, NO_KEYS, at)
        self.effort.clicks += 1

    def point(self, place: Place) -> None:
        """Click on the ink of a place of the yard."""
        self.click(self.meant(place))

    def drag(self, start: Place, end: Place) -> None:
        """Draw something from one place to another with the button down."""
        ground = self.canvas.viewport()
        begin, to = self.at(start), self.canvas.mapFromScene(*end)
        QTest.mouseMove(ground, begin)
        QTest.mousePress(ground, LEFT, NO_KEYS, begin)
        QTest.mouseMove(ground, (begin + to) / 2)
        QTest.mouseMove(ground, to)
        QTest.mouseRelease(ground, LEFT, NO_KEYS, to)
        self.effort.clicks += 1

    def key(self, key: Qt.Key) -> None:
        """Press a key on the ground."""
        QTest.keyClick(self.canvas, key)
        self.effort.keys += 1

    def press(self, shown: QPushButton) -> None:
        """Click a button of the panel."""
        QTest.mouseClick(shown, LEFT)
        self.effort.clicks += 1

    def choose(self, title: str) -> None:
        """Choose what to draw."""
        panel = self.body.side.panels["trace"]
        if "drawing" not in panel.opened:
            panel.open("drawing")
            self.effort.clicks += 1
        listed = panel.sections["drawing"].kinds
        item = listed.findItems(title, Qt.MatchFlag.MatchExactly)[0]
        listed.scrollToItem(item)
        at = listed.visualItemRect(item).center()
        QTest.mouseClick(listed.viewport(), LEFT, NO_KEYS, at)
        self.effort.clicks += 1

    def as_an_area(self) -> None:
        """Choose that it is drawn as an area."""
        forms = self.body.side.panels["trace"].sections["drawing"].forms
        forms.setFocus()
        forms.setCurrentIndex(forms.findData(Form.AREA))
        forms.activated.emit(forms.currentIndex())
        self.effort.clicks += 2

    def number(self, number: str) -> None:
        """Type a number into the blank above the ground."""
        field = self.body.ground.ways.blanks.fields["number"]
        QTest.mouseDClick(field, LEFT)
        field.selectAll()
        QTest.keyClicks(field, number)
        QTest.keyClick(field, Qt.Key.Key_Return)
        self.effort.clicks += 2
        self.effort.keys += len(number) + 1

    def rectangle(self, rectangle: Rectangle) -> None:
        """Draw a rectangle by the ends of its head line and its foot."""
        start, end, foot, _ = rectangle.corners()
        self.look(rectangle.centre, SEEN_M)
        for place in (start, end, foot):
            self.point(place)

    def outline(self, corners: Iterable[Place]) -> None:
        """Draw an area corner by corner."""
        for place in corners:
            self.point(place)
        self.key(Qt.Key.Key_Return)
