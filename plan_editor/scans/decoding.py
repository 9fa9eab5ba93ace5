"""A scan decoded once, handed out upright in strips of grey or colour."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from PIL import Image
from PIL.Jpeg2KImagePlugin import Jpeg2KImageFile

from plan_editor.scans.facts import WIDE_GREYS, ScanFacts
from plan_editor.scans.reading import opened
from plan_editor.scans.turning import Pixels, stored_rows, turned_upright

WHITE = 255


@dataclass(frozen=True, slots=True, kw_only=True)
class Decoded:
    """A scan in memory, as stored, and how to hand it out upright.

    Args:
        image: the picture as stored, decoded.
        turn: EXIF orientation that still has to be applied.
        halve: whether four pixels become one on the way out.
        width: pixels across as handed out.
        height: pixels down as handed out.
        scale: scan pixels to one that is handed out: 1, or a power of two.
        colour: whether three numbers are handed out for a pixel, or one.
        greys: of greys of 32 bits, the darkest and the lightest.
    """

    image: Image.Image
    turn: int
    halve: bool
    width: int
    height: int
    scale: int
    colour: bool
    greys: tuple[float, float] | None = None

    def strip(self, top: int, bottom: int) -> Pixels:
        """Return the rows from top to under bottom, upright."""
        step = 2 if self.halve else 1
        rows = self._upright(top * step, bottom * step)
        if not self.halve:
            return rows
        return np.asarray(Image.fromarray(rows).reduce(2))

    def _upright(self, top: int, bottom: int) -> Pixels:
        piece = self.image.crop(stored_rows(self.turn, self.image.size, top, bottom))
        flat = _flat(piece) if self.greys is None else _spread(piece, *self.greys)
        return turned_upright(flat, self.turn)


def decoded(source: bytes | Path, page: int = 1) -> Decoded:
    """Return a picture decoded; the memory goes when the value goes.

    Raises:
        CannotRead: it is no picture that can be used, it was cut short, or has no such page.
    """
    with opened(source, page) as (image, facts):
        _ask_for_less(image, facts)
        image.load()
        greys = _extremes(image) if facts.mode in WIDE_GREYS else None
    # Pillow turns a TIFF itself while decoding, with both copies in memory for a moment
    turn = 1 if facts.format == "TIFF" else facts.turn
    halve = facts.mode == "1" and facts.scale > 1
    across, down = image.size if turn < 5 else image.size[::-1]
    step = 2 if halve else 1
    return Decoded(
        image=image,
        turn=turn,
        halve=halve,
        width=-(-across // step),
        height=-(-down // step),
        scale=facts.scale,
        colour=facts.colour,
        greys=greys,
    )


def _ask_for_less(image: Image.Image, facts: ScanFacts) -> None:
    """Have a picture that is too large decoded at a lower resolution, where its format can."""
    if facts.scale == 1:
        return
    across, down = image.size
    if facts.format == "JPEG":
        image.draft(None, (across // facts.scale, down // facts.scale))
    if isinstance(image, Jpeg2KImageFile):
        image.reduce = facts.scale.bit_length() - 1
        # WORKAROUND: Pillow 13 rounds the reduced size to the nearest and the decoder up, and
        # where they differ nothing is decoded; of a multiple of the scale both say the same
        whole = (-(-across // facts.scale) * facts.scale, -(-down // facts.scale) * facts.scale)
        image._size = whole  # noqa: SLF001  # there is no other way to say it


def _extremes(image: Image.Image) -> tuple[float, float]:
    """Return the darkest and the lightest of greys of 32 bits."""
    found = [(low, high) for low, high in _strip_extremes(image) if low <= high]
    lows, highs = zip(*found, strict=True) if found else ((0.0,), (0.0,))
    return min(lows), max(highs)


def _strip_extremes(image: Image.Image) -> Iterator[tuple[float, float]]:
    across, down = image.size
    for top in range(0, down, _ROWS):
        strip = image.crop((0, top, across, min(top + _ROWS, down)))
        greys = np.asarray(strip, dtype=np.float64)
        known = greys[np.isfinite(greys)]
        yield (
            float(known.min(initial=math.inf)),
            float(known.max(initial=-math.inf)),
        )


_ROWS = 256


def _spread(image: Image.Image, darkest: float, lightest: float) -> Pixels:
    """Return greys of 32 bits as greys of 8; what is no number is white paper."""
    greys = np.asarray(image).astype(np.float64)
    if not lightest > darkest:
        return np.full(greys.shape, WHITE, dtype=np.uint8)
    share = (np.clip(greys, darkest, lightest) - darkest) / (lightest - darkest)
    return np.round(np.nan_to_num(share, nan=1.0) * WHITE).astype(np.uint8)


def _flat(image: Image.Image) -> Pixels:
    """Return pixels as grey or red, green, blue of 8 bits; what is clear shows white paper."""
    if image.mode.startswith("I;16"):
        return (np.asarray(image) >> 8).astype(np.uint8)
    if image.mode in {"LA", "PA", "RGBA"} or "transparency" in image.info:
        image = _on_white(image)
    grey = image.mode in {"1", "L"}
    return np.asarray(image.convert("L" if grey else "RGB"))


def _on_white(image: Image.Image) -> Image.Image:
    paper = Image.new("RGBA", image.size, (WHITE, WHITE, WHITE, WHITE))
    paper.alpha_composite(image.convert("RGBA"))
    return paper.convert("L" if image.mode in {"1", "L", "LA"} else "RGB")
