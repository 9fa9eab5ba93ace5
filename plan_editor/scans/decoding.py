"""A scan decoded once, handed out upright in strips of grey or colour."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from plan_editor.scans.reading import ScanFacts, opened

Pixels = NDArray[np.uint8]
"""Rows from the top, columns from the left; grey, or red, green and blue along a third axis."""

HALVED_1_BIT = 150_000_000
"""Black and white of more pixels is kept as grey at half the resolution, to save disk."""

HALVED_JPEG = 180_000_000
"""A colour JPEG of more pixels is decoded at half resolution, to stay within 1 GB of memory."""

HALVED_PROGRESSIVE = 100_000_000
"""The same for a progressive one, of which the decoder holds all coefficients as well."""

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
        scale: scan pixels to one that is handed out, 1 or 2.
        colour: whether three numbers are handed out for a pixel, or one.
    """

    image: Image.Image
    turn: int
    halve: bool
    width: int
    height: int
    scale: int
    colour: bool

    def strip(self, top: int, bottom: int) -> Pixels:
        """Return the rows from top to under bottom, upright."""
        step = 2 if self.halve else 1
        rows = _upright(self.image, self.turn, top * step, bottom * step)
        if not self.halve:
            return rows
        return np.asarray(Image.fromarray(rows).reduce(2))


def decoded(source: bytes | Path) -> Decoded:
    """Return a scan decoded; the memory goes when the value goes.

    Raises:
        CannotRead: it is no picture that can be used, or it was cut short.
    """
    with opened(source) as (image, facts):
        reduced = _asked_for_half(image, facts)
        image.load()
    halve = facts.mode == "1" and facts.width * facts.height > HALVED_1_BIT
    scale = 2 if halve or reduced else 1
    return Decoded(
        image=image,
        # Pillow turns a TIFF itself while decoding, with both copies in memory for a moment
        turn=1 if facts.format == "TIFF" else facts.turn,
        halve=halve,
        width=-(-facts.width // scale),
        height=-(-facts.height // scale),
        scale=scale,
        colour=facts.colour,
    )


def _asked_for_half(image: Image.Image, facts: ScanFacts) -> bool:
    """Have a very large JPEG decoded at half resolution; return whether that is so."""
    if facts.format != "JPEG":
        return False
    most = HALVED_PROGRESSIVE if "progressive" in image.info else HALVED_JPEG
    if facts.width * facts.height <= most:
        return False
    across, down = image.size
    image.draft(None, (across // 2, down // 2))
    return image.size != (across, down)


def _upright(image: Image.Image, turn: int, top: int, bottom: int) -> Pixels:
    """Return rows of the picture as it is after its EXIF turn.

    Turns 5 to 8 exchange rows and columns; 3, 4, 7 and 8 begin at the stored end of what
    becomes the height, 2, 3, 6 and 7 at that of what becomes the width.
    Source: CIPA DC-008 (Exif 2.32), tag 274.
    """
    across, down = image.size
    height = across if turn >= 5 else down
    first, last = min(top, height), min(bottom, height)
    if turn in {3, 4, 7, 8}:
        first, last = height - last, height - first
    box = (first, 0, last, down) if turn >= 5 else (0, first, across, last)
    rows = _flat(image.crop(box))
    if turn >= 5:
        rows = rows.swapaxes(0, 1)
    if turn in {3, 4, 7, 8}:
        rows = rows[::-1]
    if turn in {2, 3, 6, 7}:
        rows = rows[:, ::-1]
    return np.ascontiguousarray(rows)


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
