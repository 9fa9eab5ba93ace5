"""How a picture is turned: its EXIF orientation, found and undone."""

import io
import struct
from typing import IO

import numpy as np
from numpy.typing import NDArray
from PIL import ExifTags, Image

from plan_editor.geometry.mappings import Affine

Pixels = NDArray[np.uint8]
"""Rows from the top, columns from the left; grey, or red, green and blue along a third axis."""

Box = tuple[int, int, int, int]
"""Left, top, right and bottom."""


def turn_of(image: Image.Image, stream: IO[bytes]) -> int:
    """Return the EXIF orientation of a picture, 1 to 8, its pixels not yet decoded.

    Source: CIPA DC-008 (Exif 2.32), tag 274.
    """
    turn = _exif(image, stream).get(ExifTags.Base.Orientation, 1)
    return turn if isinstance(turn, int) and 1 <= turn <= 8 else 1


def stored_rows(turn: int, size: tuple[int, int], top: int, bottom: int) -> Box:
    """Return the box of a stored picture that holds some rows of the upright one.

    Turns 5 to 8 exchange rows and columns; 3, 4, 7 and 8 begin at the stored end of what
    becomes the height, 2, 3, 6 and 7 at that of what becomes the width.

    Args:
        turn: the EXIF orientation.
        size: pixels across and down, as stored.
        top: the first row.
        bottom: the row after the last.
    """
    across, down = size
    height = across if turn >= 5 else down
    first, last = min(top, height), min(bottom, height)
    if turn in {3, 4, 7, 8}:
        first, last = height - last, height - first
    return (first, 0, last, down) if turn >= 5 else (0, first, across, last)


def turned_upright(rows: Pixels, turn: int) -> Pixels:
    """Return pixels as they were stored, upright."""
    if turn >= 5:
        rows = rows.swapaxes(0, 1)
    if turn in {3, 4, 7, 8}:
        rows = rows[::-1]
    if turn in {2, 3, 6, 7}:
        rows = rows[:, ::-1]
    return np.ascontiguousarray(rows)


def upright(fit: Affine, turn: int, size: tuple[int, int]) -> Affine:
    """Return six numbers from pixels of an upright picture, given those from stored pixels.

    Args:
        fit: from stored pixels, right and down, to the ground.
        turn: the EXIF orientation.
        size: pixels across and down, upright.
    """
    a, b, c, d, e, f = fit
    if turn >= 5:
        a, b, d, e = b, a, e, d
    width, height = size
    if turn in {3, 4, 7, 8}:
        b, c, e, f = -b, c + b * height, -e, f + e * height
    if turn in {2, 3, 6, 7}:
        a, c, d, f = -a, c + a * width, -d, f + d * width
    return a, b, c, d, e, f


def _exif(image: Image.Image, stream: IO[bytes]) -> Image.Exif:
    """Return the EXIF records without decoding the pixels.

    WORKAROUND: asked for those of a PNG, Pillow decodes all of it, since they may stand at the
    end. Source of the order of chunks: PNG specification, third edition, 5.3 and 5.6.
    """
    if image.format != "PNG":
        return image.getexif()
    exif = Image.Exif()
    exif.load(b"Exif\x00\x00" + _png_chunk(stream, b"eXIf"))
    return exif


def _png_chunk(stream: IO[bytes], wanted: bytes) -> bytes:
    """Return the content of the last chunk of a name in a whole PNG, or nothing.

    Raises:
        struct.error: the file ends before its closing chunk.
    """
    place = stream.tell()
    stream.seek(8)
    found, name = b"", b""
    while name != b"IEND":
        length, name = struct.unpack(">I4s", stream.read(8))
        if name == wanted:
            found = stream.read(length)
        else:
            stream.seek(length, io.SEEK_CUR)
        stream.seek(4, io.SEEK_CUR)
    stream.seek(place)
    return found
