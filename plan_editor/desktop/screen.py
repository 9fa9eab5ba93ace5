"""Whether a window can be shown here: Qt itself would end the program without a sentence."""

import ctypes
import os
import sys
from pathlib import Path

from PySide6.QtCore import QLibraryInfo

NO_SCREEN = (
    "There is no screen here, so the window cannot be opened. Every sheet and computation can"
    " be had without one: plan-editor --help."
)


def fault() -> str:
    """Return a sentence where no window can be shown, else an empty text.

    Raises:
        ImportError: a system library that Qt's X11 plugin needs is missing; it is named.
    """
    if not sys.platform.startswith("linux") or os.environ.get("QT_QPA_PLATFORM"):
        return ""
    if os.environ.get("WAYLAND_DISPLAY"):
        return ""
    if not os.environ.get("DISPLAY"):
        return NO_SCREEN
    plugins = QLibraryInfo.path(QLibraryInfo.LibraryPath.PluginsPath)
    try:
        ctypes.CDLL(str(Path(plugins, "platforms", "libqxcb.so")))
    except OSError as error:
        raise ImportError(str(error)) from error
    return ""
