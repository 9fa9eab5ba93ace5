"""Sixty years of a vestry cupboard: the flat sheet as a scanner sees it today."""

from io import BytesIO
from math import pi

import numpy as np
from numpy.typing import NDArray
from paper import DOTS_PER_INCH, PIXELS, SHEET, to_sheet
from pen import DPI, Layer
from PIL import Image, ImageFilter
from survey_1962 import Drawing

Field = NDArray[np.float32]

PAPER = (233.0, 219.0, 186.0)
INK, PENCIL = (52.0, 44.0, 40.0), (104.0, 102.0, 104.0)
ROSE, GREEN = (196.0, 128.0, 112.0), (150.0, 166.0, 112.0)
GLASS = (226.0, 227.0, 224.0)
QUALITY = 72
_STRIP = 160
_FOLDS_ACROSS, _FOLDS_UP = (5.87, 11.75), (7.95,)


def scanned(sheet: Drawing) -> bytes:
    """Return the JPEG of the sheet on the scanner's glass, 150 dots to the inch."""
    chance = np.random.default_rng(1962)
    x, y = _sheet_places()
    paper = _stained(x, y, chance)
    picture = np.empty((PIXELS[1], PIXELS[0], 3), dtype=np.float32)
    for channel in range(3):
        picture[..., channel] = PAPER[channel] * paper[..., channel]
    layers = (
        (sheet.rose, ROSE, 0.55),
        (sheet.green, GREEN, 0.5),
        (sheet.ink, INK, 0.93),
        (sheet.pencil, PENCIL, 0.8),
    )
    for on, colour, strength in layers:
        _laid_on(picture, _seen(on, x, y) * strength, colour)
    _on_glass(picture, x, y)
    picture += chance.normal(0.0, 2.2, picture.shape[:2]).astype(np.float32)[..., None]
    return _jpeg(picture)


def _sheet_places() -> tuple[Field, Field]:
    right, down = np.meshgrid(
        np.arange(PIXELS[0], dtype=np.float64) + 0.5, np.arange(PIXELS[1]) + 0.5
    )
    x, y = to_sheet(right, down)
    return x.astype(np.float32), y.astype(np.float32)


def _laid_on(picture: Field, amount: Field, colour: tuple[float, float, float]) -> None:
    for channel in range(3):
        picture[..., channel] += amount * (colour[channel] - picture[..., channel])


def _seen(on: Layer, x: Field, y: Field) -> Field:
    """Return how much of an ink each pixel of the scan sees, 0 to 1."""
    soft = on.image.filter(ImageFilter.GaussianBlur(0.9))
    source = np.asarray(soft, dtype=np.float32) / 255.0
    seen = np.zeros_like(x)
    for top in range(0, x.shape[0], _STRIP):
        rows = slice(top, top + _STRIP)
        seen[rows] = _between(source, x[rows] * DPI - 0.5, (SHEET[1] - y[rows]) * DPI - 0.5)
    return seen


def _between(source: Field, right: Field, down: Field) -> Field:
    """Return the values of a picture between its pixels; nothing outside of it."""
    high, wide = source.shape
    inside = (right >= 0) & (down >= 0) & (right < wide - 1) & (down < high - 1)
    right, down = np.where(inside, right, 0.0), np.where(inside, down, 0.0)
    i, j = down.astype(np.int32), right.astype(np.int32)
    v, u = down - i, right - j
    upper = source[i, j] * (1 - u) + source[i, j + 1] * u
    lower = source[i + 1, j] * (1 - u) + source[i + 1, j + 1] * u
    return np.where(inside, upper * (1 - v) + lower * v, 0.0).astype(np.float32)


def _stained(x: Field, y: Field, chance: np.random.Generator) -> Field:
    """Return how bright the paper is in red, green and blue, 1 where it is as new."""
    shade = 1.0 - 0.045 * _clouds(x, y, chance)
    edge = np.minimum(np.minimum(x, SHEET[0] - x), np.minimum(y, SHEET[1] - y))
    shade -= 0.10 * np.exp(-np.maximum(edge, 0) / 0.5)
    shade -= _folds(x, y)
    brown = _blots(x, y) + _ring(x, y)
    brown += 0.06 * np.exp(-np.maximum(edge, 0) / 1.1)
    tint = np.array((0.45, 0.8, 1.35), dtype=np.float32)
    return np.clip(shade[..., None] - brown[..., None] * tint, 0.2, 1.06).astype(np.float32)


def _clouds(x: Field, y: Field, chance: np.random.Generator) -> Field:
    whole = np.zeros_like(x)
    for per_inch, weight in ((0.5, 0.45), (1.1, 0.25), (2.6, 0.16), (6.0, 0.1)):
        for _ in range(3):
            way, phase = chance.uniform(0, 2 * pi), chance.uniform(0, 2 * pi)
            bend = chance.uniform(0.4, 0.9)
            across = np.cos(way) * x + np.sin(way) * y
            along = np.cos(way) * y - np.sin(way) * x
            whole += weight * np.sin(per_inch * across + 1.7 * np.sin(bend * along) + phase)
    return whole.astype(np.float32)


def _folds(x: Field, y: Field) -> Field:
    dark = np.zeros_like(x)
    for place, at in ((x, _FOLDS_ACROSS), (y, _FOLDS_UP)):
        other = y if place is x else x
        for fold in at:
            off = place - fold - 0.012 * np.sin(other * 1.9 + fold)
            worn = 0.75 + 0.25 * np.sin(other * 5.1 + fold)
            dark += worn * (0.13 * np.exp(-((off / 0.011) ** 2)))
            dark += 0.035 * np.exp(-((off / 0.12) ** 2)) * np.sign(off)
            dark -= 0.05 * np.exp(-(((off - 0.022) / 0.014) ** 2))
    return dark


def _blots(x: Field, y: Field) -> Field:
    """Return the damp stain at the lower left, one at the top, and a few foxed spots."""
    stain = _damp(x, y, (1.0, 1.6), (2.6, 1.9)) + 0.7 * _damp(x, y, (12.9, 15.6), (1.9, 1.1))
    chance = np.random.default_rng(7)
    for _ in range(46):
        at, size = chance.uniform((0.3, 0.3), SHEET), chance.uniform(0.015, 0.06)
        strong = chance.uniform(0.05, 0.16)
        near = (x - at[0]) ** 2 + (y - at[1]) ** 2
        stain += strong * np.exp(-near / size**2)
    return stain.astype(np.float32)


def _damp(x: Field, y: Field, at: tuple[float, float], size: tuple[float, float]) -> Field:
    u, v = (x - at[0]) / size[0], (y - at[1]) / size[1]
    way = np.arctan2(v, u)
    reach = 1.0 + _ragged(way)
    r = np.hypot(u, v) / reach
    tide = 0.11 * np.exp(-(((r - 1.0) / 0.018) ** 2)) * (0.7 + 0.3 * np.sin(5 * way))
    wet = 0.055 / (1.0 + np.exp(np.clip((r - 0.985) / 0.012, -60.0, 60.0)))
    field: Field = (wet + tide).astype(np.float32)
    return field


def _ragged(way: Field) -> Field:
    waves = 0.10 * np.sin(3 * way + 1.0) + 0.06 * np.sin(7 * way) + 0.03 * np.sin(17 * way)
    field: Field = waves.astype(np.float32)
    return field


def _ring(x: Field, y: Field) -> Field:
    """Return the mark of a cup."""
    u, v = x - 14.75, y - 3.9
    way, r = np.arctan2(v, u), np.hypot(u, v)
    wet = np.clip(0.55 + 0.6 * np.sin(way + 0.7), 0.0, 1.0)
    field: Field = (0.12 * wet * np.exp(-(((r - 0.78) / 0.035) ** 2))).astype(np.float32)
    return field


def _on_glass(picture: Field, x: Field, y: Field) -> None:
    """Show the scanner's lid beyond the edges of the sheet, with the shadow of the paper."""
    ragged = 0.012 * np.sin(3.1 * (x + y)) + 0.006 * np.sin(17.0 * (x - y))
    edge = np.minimum(np.minimum(x, SHEET[0] - x), np.minimum(y, SHEET[1] - y)) + ragged
    outside = np.clip(0.5 - edge * DOTS_PER_INCH, 0.0, 1.0)
    shadow = 1.0 - 0.30 * np.exp(-np.maximum(-edge, 0) / 0.05)
    for channel in range(3):
        bare = GLASS[channel] * shadow
        picture[..., channel] += outside * (bare - picture[..., channel])


def _jpeg(picture: Field) -> bytes:
    image = Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8))
    out = BytesIO()
    dots = (round(DOTS_PER_INCH), round(DOTS_PER_INCH))
    image.save(out, "JPEG", quality=QUALITY, dpi=dots, optimize=True)
    return out.getvalue()
