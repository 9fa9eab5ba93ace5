"""Base plans made ready: the bytes kept with the plan, decoded once to a shelf on disk."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from platformdirs import user_cache_path

from plan_editor.drawing.backdrop import Backdrop, LineWork, Scan
from plan_editor.errors import CannotRead
from plan_editor.exchange.format import Drawing, formats
from plan_editor.geometry.mappings import Mapping
from plan_editor.ground.base_plans import Laid
from plan_editor.plan.media import Kept
from plan_editor.scans.resampling import resample
from plan_editor.scans.tiles import Pyramid, make_tiles, open_tiles


def shelf() -> Path:
    """Return the folder in which decoded scans are kept; it may be emptied at any time."""
    return user_cache_path("churchyard-plan-editor", appauthor=False) / "scans"


@dataclass(frozen=True, slots=True, eq=False)
class ShelvedScan:
    """A scan on the shelf."""

    pyramid: Pyramid

    def resampled(
        self,
        mapping: Mapping,
        extent: tuple[float, float, float, float],
        metres: float,
    ) -> NDArray[np.uint8]:
        """Return the ground of an extent, north up; see ``backdrop.Scan``."""
        return resample(self.pyramid, mapping, extent, metres)


def backdrops(placed: Iterable[Laid], media: Kept) -> tuple[Backdrop, ...]:
    """Return base plans with what is drawn of them.

    Raises:
        CannotRead, DamagedPlan: the kept bytes are not what they were.
        NoRoom, NotAllowed: there is no place for the decoded scan.
    """
    return tuple(Backdrop(laid=one, content=_content(one, media)) for one in placed)


def scan_on_shelf(content: bytes, page: int = 1) -> Pyramid:
    """Return the pixels of a page of a scan, decoded now unless that was done before.

    Raises:
        CannotRead: it is no picture that can be used, or has no such page.
        NoRoom, NotAllowed: there is no place for the decoded scan.
    """
    folder = make_tiles(content, shelf(), page=page)
    if folder is None:  # pragma: no cover  # it is only None where someone may cancel
        raise CannotRead("The scan was not prepared; nothing was changed. Try it again.")
    return open_tiles(folder)


def drawing_suffixes() -> frozenset[str]:
    """Return how the names of drawings end that can lie under the ground."""
    return frozenset(s for f in formats() if f.read_drawing is not None for s in f.suffixes)


def drawing_in(content: bytes, suffix: str) -> Drawing:
    """Return a foreign drawing, read by the format that bears its suffix.

    Raises:
        CannotRead: no format does, or it holds nothing that can be used.
    """
    for one in formats():
        if suffix.lower() in one.suffixes and one.read_drawing is not None:
            return one.read_drawing(content)
    raise CannotRead(f"A file that ends in “{suffix}” cannot lie under the ground.")


def _content(placed: Laid, media: Kept) -> LineWork | Scan:
    content = media.read(placed.digest)
    if placed.is_scan:
        return ShelvedScan(scan_on_shelf(content, placed.page))
    return drawing_in(content, ".dxf").line_work
