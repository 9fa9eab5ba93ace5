"""The filled areas of a sketch, many in one path by tone, strength and square of ground."""

from collections.abc import Iterable

import numpy as np
from PySide6.QtGui import QPainter, QPainterPath
from typing_extensions import override

from plan_editor.desktop.canvas.chunks import SIDE
from plan_editor.desktop.canvas.over_all import OverAll
from plan_editor.desktop.canvas.paths import path_of
from plan_editor.desktop.canvas.runs import Points, runs_of_arrays
from plan_editor.desktop.canvas.sight import Sight, meet
from plan_editor.desktop.canvas.sketch_style import hatch, level_of, tint
from plan_editor.drawing.sketch import SketchPatch, Tone
from plan_editor.geometry.nearby import Box

Key = tuple[Tone, int, int, int]
"""Tone, level, and the square of ground that the first corner lies in."""

HATCHED_FROM = 1.0
"""Fills are hatched from so many pixels to a metre; from farther off a hatch is but a tint."""


class SketchPatches(OverAll):
    """Paints the patches of a sketch, under what is written."""

    def __init__(self, sight: Sight) -> None:
        super().__init__()
        self._sight = sight
        self._batches: tuple[tuple[Tone, int, Box, QPainterPath], ...] = ()
        self.setZValue(550.0)

    def show_patches(self, patches: Iterable[SketchPatch]) -> None:
        """Show these instead of those before."""
        self._batches = batched(patches)

    @override
    def draw(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        hatched = self._sight.scale >= HATCHED_FROM
        for tone, level, box, path in self._batches:
            if any(meet(box, exposed) for exposed in self._sight.exposed):
                painter.fillPath(path, tint(tone, level, self._sight.palette))
                if hatched:
                    painter.fillPath(path, hatch(tone, level, self._sight))


def batched(
    patches: Iterable[SketchPatch],
) -> tuple[tuple[Tone, int, Box, QPainterPath], ...]:
    """Return patches as few paths, each with its tone, level and box in metres."""
    together: dict[Key, list[Points]] = {}
    for patch in patches:
        level = level_of(patch.strength)
        if level > 0 and len(patch.points) > 2:
            east, north = patch.points[0].tolist()
            key = (patch.tone, level, int(east // SIDE), int(north // SIDE))
            together.setdefault(key, []).append(_turned_alike(patch.points))
    return tuple(
        (tone, level, _box(rings), path_of(runs_of_arrays(rings)))
        for (tone, level, _, _), rings in together.items()
    )


def _turned_alike(ring: Points) -> Points:
    """Return a ring that runs anticlockwise: what overlaps must not punch holes."""
    east, north = (ring - ring[0]).T
    twice = float(np.dot(east, np.roll(north, -1)) - np.dot(north, np.roll(east, -1)))
    return ring if twice >= 0 else ring[::-1]


def _box(rings: list[Points]) -> Box:
    places = np.concatenate(rings)
    west, south = places.min(axis=0).tolist()
    east, north = places.max(axis=0).tolist()
    return west, south, east, north
