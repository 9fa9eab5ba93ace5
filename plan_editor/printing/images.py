"""Arrays of pixels as pictures that the PDF renderer takes."""

import struct
import zlib
from io import BytesIO

import numpy as np
from numpy.typing import NDArray

_GREY, _RGB = 0, 2


def png(pixels: NDArray[np.uint8]) -> BytesIO:
    """Return 8-bit grey (h, w) or RGB (h, w, 3) pixels as a PNG file (ISO/IEC 15948)."""
    height, width = pixels.shape[:2]
    colour = _GREY if pixels.ndim == 2 else _RGB
    rows = np.ascontiguousarray(pixels).reshape(height, -1)
    # each row begins with the number of its filter: none
    filtered = np.concatenate([np.zeros((height, 1), np.uint8), rows], axis=1)
    header = struct.pack(">IIBBBBB", width, height, 8, colour, 0, 0, 0)
    file = BytesIO(b"\x89PNG\r\n\x1a\n")
    file.seek(0, 2)
    for name, content in (
        (b"IHDR", header),
        (b"IDAT", zlib.compress(filtered.tobytes(), 1)),
        (b"IEND", b""),
    ):
        checked = zlib.crc32(name + content)
        file.write(
            struct.pack(">I", len(content)) + name + content + struct.pack(">I", checked)
        )
    file.seek(0)
    return file
