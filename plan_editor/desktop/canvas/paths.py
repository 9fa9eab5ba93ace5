"""Runs of points as Qt's paths and line lists, made by the array and not point by point."""

import numpy as np
from PySide6.QtCore import QByteArray, QDataStream, QLineF
from PySide6.QtGui import QPainterPath

from plan_editor.desktop.canvas.runs import Runs

_ELEMENT = np.dtype([("sort", ">i4"), ("x", ">f8"), ("y", ">f8")])
"""One element of a path as QDataStream holds it; sort 0 moves, 1 draws a line."""

_HEAD = np.dtype(">i4")
_WINDING = 1


def path_of(runs: Runs) -> QPainterPath:
    """Return runs as one path, filled by the winding rule.

    The even-odd rule would punch holes where two outlines in one path overlap.
    """
    path = QPainterPath()
    if not runs:
        return path
    elements = np.empty(len(runs.points), dtype=_ELEMENT)
    elements["sort"] = 1
    elements["sort"][runs.starts] = 0
    elements["x"] = runs.points[:, 0]
    elements["y"] = runs.points[:, 1]
    head = np.array([len(elements)], dtype=_HEAD).tobytes()
    last = int(runs.starts[-1])
    tail = np.array([last, _WINDING], dtype=_HEAD).tobytes()
    stream = QDataStream(QByteArray(head + elements.tobytes() + tail))
    stream >> path
    return path


def segments_of(runs: Runs) -> list[QLineF]:
    """Return every straight piece by itself: the fast way to draw thick lines."""
    if not runs:
        return []
    first = np.ones(len(runs.points), dtype=bool)
    first[runs.starts] = False
    ends = np.flatnonzero(first)
    pieces = np.hstack([runs.points[ends - 1], runs.points[ends]])
    return [QLineF(*piece) for piece in pieces.tolist()]
