"""Painting that never raises: our mistake in one layer must not take the program down."""

import sys
from collections.abc import Callable
from functools import wraps
from typing import ParamSpec, cast

from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QGraphicsItem

P = ParamSpec("P")

FAILED = 0
"""Under this number an item remembers that it has failed; see ``QGraphicsItem.setData``."""


def careful(paint: Callable[P, None]) -> Callable[P, None]:
    """Return a paint method that reports what goes wrong, once, and is then left out.

    WORKAROUND: an exception that leaves a paint method in Python ends the whole process in
    PySide6 6.11 (seen as a segmentation fault).
    """

    @wraps(paint)
    def painted(*args: P.args, **kwargs: P.kwargs) -> None:
        # a paint method's arguments: the item, the painter, and two that are not looked at
        item, painter = cast("QGraphicsItem", args[0]), cast("QPainter", args[1])
        if item.data(FAILED):
            return
        painter.save()
        try:
            paint(*args, **kwargs)
        except Exception as fault:  # noqa: BLE001  # handed on whole, to be reported
            item.setData(FAILED, True)
            sys.excepthook(type(fault), fault, fault.__traceback__)
        painter.restore()

    return painted
