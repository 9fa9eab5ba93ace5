"""A place for scans that are only tried on the ground: each goes when the next is there."""

import shutil
import tempfile
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from plan_editor.commands.backdrops import shelf
from plan_editor.desktop.canvas.base_plan_item import Under
from plan_editor.scans.resampling import NorthUp
from plan_editor.scans.shelf import MAKING
from plan_editor.scans.tiles import Pyramid

MOST_PIXELS = 16_000_000
"""A scan of more is tried from a coarser level, so that a click is answered within a second."""


class TrialShelf:
    """A folder on the shelf, made when it is first wanted.

    Its name is that of something half made: where the program dies, it is cleared away like
    that.
    """

    def __init__(self) -> None:
        self._folder: Path | None = None

    def folder(self) -> Path:
        """Return the folder."""
        if self._folder is None or not self._folder.is_dir():
            shelf().mkdir(parents=True, exist_ok=True)
            self._folder = Path(tempfile.mkdtemp(prefix=MAKING, dir=shelf()))
        return self._folder

    def holds(self, under: Under) -> bool:
        """Whether a base plan on the screen is only tried."""
        content = under.content
        return isinstance(content, NorthUp) and content.pyramid.folder.parent == self._folder

    def keep(self, shown: Iterable[Under]) -> None:
        """Let go of all that is not on the screen."""
        if self._folder is None:
            return
        kept = {u.content.pyramid.folder for u in shown if isinstance(u.content, NorthUp)}
        if not any(folder.parent == self._folder for folder in kept):
            self.end()
            return
        for folder in self._folder.iterdir():
            if folder not in kept and not folder.name.startswith(MAKING):
                shutil.rmtree(folder, ignore_errors=True)

    def end(self) -> None:
        """Let go of everything."""
        if self._folder is not None:
            shutil.rmtree(self._folder, ignore_errors=True)
            self._folder = None


def coarse(pyramid: Pyramid) -> Pyramid:
    """Return a scan from the first level that is not too large to be tried."""
    small = [n for n, v in enumerate(pyramid.levels) if v.width * v.height <= MOST_PIXELS]
    return replace(pyramid, levels=pyramid.levels[small[0] if small else -1 :])
