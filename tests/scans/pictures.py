"""Small real files of every sort that is read, made with Pillow."""

import io
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image


def drawing(mode: str = "RGB", size: tuple[int, int] = (160, 120)) -> Image.Image:
    """Return a picture in which every pixel is another, so that no turn goes unnoticed."""
    width, height = size
    across = np.linspace(0, 255, width).astype(np.uint8)
    down = np.linspace(255, 0, height).astype(np.uint8)
    rgb = np.stack(
        [
            np.broadcast_to(across, (height, width)),
            np.broadcast_to(down[:, None], (height, width)),
            (across[None, :] // 2 + down[:, None] // 2),
        ],
        axis=-1,
    )
    return Image.fromarray(rgb.astype(np.uint8)).convert(mode)


def as_bytes(image: Image.Image, kind: str, **how: Any) -> bytes:
    """Return a picture as the bytes of a file."""
    stream = io.BytesIO()
    image.save(stream, kind, **how)
    return stream.getvalue()


def as_file(folder: Path, image: Image.Image, kind: str, **how: Any) -> Path:
    """Write a picture into a folder and return where it is."""
    path = folder / f"scan.{kind.lower()}"
    path.write_bytes(as_bytes(image, kind, **how))
    return path


def with_turn(turn: int) -> Image.Exif:
    """Return EXIF records with an orientation."""
    exif = Image.Exif()
    exif[274] = turn
    return exif
