"""The four sides of rectangles, laid on the middle of the ink near them."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from plan_editor.scans.boxes import Boxes, Column, together
from plan_editor.scans.strokes import Floats
from plan_editor.scans.turned import Inked


@dataclass(frozen=True, slots=True)
class Look:
    """How closely sides are looked at.

    Args:
        stations: along each side.
        step: pixels between the places looked at across it.
        inner: the share of a side that is looked at: its ends belong to other lines too.
    """

    stations: int
    step: float
    inner: float = 0.9


ROUGH, FINE = Look(10, 1.0), Look(20, 0.5)
WHOLE = Look(26, 0.5, 1.0)

TILT_PX = 2.0
"""Pixels by which a side's ends may lean from the other sides' way."""

OTHER_INKED = 0.3
"""Another stroke beside a side is looked at where so much of it is inked."""

FAR_COSTS = 0.03
"""Share of a side's ink that a pixel farther from where it was expected must make good."""

_FOOT, _HEAD, _START, _END = range(4)
"""Sides: the foot, the head, the long one at the head line's start, that at its end."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Profiles:
    """The ink across the four sides of boxes.

    Args:
        ink: n by 4 by stations by offsets: how strong a stroke along the side is there.
        offsets: pixels outward from each side.
        places: where along a side the stations are, as parts of it from its middle.
        step: pixels from one offset to the next.
    """

    ink: Floats
    offsets: Column
    places: Column
    step: float


def laid_on_ink(picture: Inked, boxes: Boxes, far: float, look: Look) -> Boxes:
    """Return boxes with each side moved and turned onto the ink near it.

    Args:
        picture: the ink.
        boxes: where they may lie.
        far: how far from a side, in pixels, its ink is looked for.
        look: how closely.
    """
    return _moved(boxes, profiles(picture, boxes, far, look))


def profiles(picture: Inked, boxes: Boxes, far: float, look: Look) -> Profiles:
    """Return the strokes along the sides of boxes, so many pixels to either side of each."""
    offsets, places = _places(far, look)
    right, down = _across(boxes, offsets, places)
    ends = _sampled(picture.upright, right[:, :_START], down[:, :_START])
    sides = _sampled(picture.level, right[:, _START:], down[:, _START:])
    ink = np.concatenate([ends, sides], axis=1)
    return Profiles(ink=ink, offsets=offsets, places=places, step=look.step)


def densities(picture: Inked, boxes: Boxes, far: float, look: Look) -> Floats:
    """Return the densities about foot and head, n by 2 by stations by offsets."""
    right, down = _across(boxes, *_places(far, look))
    return _sampled(picture.dense, right[:, :_START], down[:, :_START])


def _places(far: float, look: Look) -> tuple[Column, Column]:
    """Return the offsets outward from a side, and the places along it as parts of it."""
    count = max(1, round(far / look.step))
    offsets = (np.arange(-count, count + 1) * look.step).astype(np.float64)
    return offsets, np.linspace(-look.inner / 2, look.inner / 2, look.stations)


def _across(boxes: Boxes, offsets: Column, places: Column) -> tuple[Column, Column]:
    """Return the pixels, right and down, n by 4 by places by offsets."""
    middles, outward, runs = _side_lines(boxes)
    along = np.stack([outward[..., 1], -outward[..., 0]], axis=2)
    at = middles[:, :, None, :] + along[:, :, None, :] * (
        runs[:, :, None, None] * places[None, None, :, None]
    )
    right, down = (at[..., k, None] + outward[:, :, None, None, k] * offsets for k in (0, 1))
    return right, down


def _side_lines(boxes: Boxes) -> tuple[Column, Column, Column]:
    """Return of each side its middle, its way outward and its length."""
    up = np.stack([np.sin(boxes.turn), -np.cos(boxes.turn)], axis=1)
    foot = np.stack([np.cos(boxes.turn), np.sin(boxes.turn)], axis=1)
    outward = np.stack([foot, -foot, -up, up], axis=1)
    away = np.stack([boxes.length, boxes.length, boxes.width, boxes.width], axis=1) / 2
    runs = np.stack([boxes.width, boxes.width, boxes.length, boxes.length], axis=1)
    middle = np.stack([boxes.right, boxes.down], axis=1)
    return middle[:, None, :] + outward * away[..., None], outward, runs


def _sampled(dense: Floats, right: Column, down: Column) -> Floats:
    """Return densities between the pixels; beyond the picture's edge the edge goes on."""
    high, wide = dense.shape
    x = np.clip(right - 0.5, 0.0, wide - 1.001).astype(np.float32)
    y = np.clip(down - 0.5, 0.0, high - 1.001).astype(np.float32)
    i, j = y.astype(np.int32), x.astype(np.int32)
    v, u = y - i, x - j
    flat = dense.ravel()
    first = i * wide + j
    upper = flat[first] * (1 - u) + flat[first + 1] * u
    first += wide
    lower = flat[first] * (1 - u) + flat[first + 1] * u
    sampled: Floats = upper * (1 - v) + lower * v
    return sampled


def _moved(boxes: Boxes, seen: Profiles) -> Boxes:
    offset, lean, weight = _lines(seen)
    runs = np.stack([boxes.width, boxes.width, boxes.length, boxes.length], axis=1)
    share = weight * runs**2
    # the sides are gone round one way, so that all lean alike where the box is turned
    turn = (share * lean / runs).sum(axis=1) / np.maximum(share.sum(axis=1), 1e-9)
    moved = _shifted(boxes, offset)
    return replace(moved, turn=boxes.turn + turn)


def _lines(seen: Profiles) -> tuple[Column, Column, Column]:
    """Return how far outward the ink of each side lies, how it leans, and how much there is.

    The lean is the rise over the whole side, in pixels.
    """
    ink, offsets = seen.ink, seen.offsets
    start, lean = _strongest(seen)
    expected = start[..., None] + lean[..., None] * seen.places
    near = np.abs(offsets - expected[..., None]) <= 1.5
    weights = np.where(near, ink, 0.0).astype(np.float64)
    mass = weights.sum(axis=3)
    centre = (weights * offsets).sum(axis=3) / np.maximum(mass, 1e-9)
    # a station counts once, however heavy its ink
    w = np.minimum(mass, 1.0)
    total = w.sum(axis=2)
    s = seen.places
    mean_s = (w * s).sum(axis=2) / np.maximum(total, 1e-9)
    mean_o = (w * centre).sum(axis=2) / np.maximum(total, 1e-9)
    ds, do = s - mean_s[..., None], centre - mean_o[..., None]
    spread = (w * ds * ds).sum(axis=2)
    slope = (w * ds * do).sum(axis=2) / (spread + 0.002 * len(s))
    share = total / len(s)
    known = share > 0.15
    slope = np.where(known, slope, 0.0)
    offset = np.where(known, mean_o - slope * mean_s, 0.0)
    return offset, slope, np.where(known, share, 0.0)


def _strongest(seen: Profiles) -> tuple[Column, Column]:
    """Return the offset of the middle and the lean of the line with the most ink, each side."""
    ink, offsets = seen.ink, seen.offsets
    count, stations, reach = len(offsets), ink.shape[2], float(np.abs(seen.places).max())
    far = round(TILT_PX / seen.step)
    padded = np.pad(ink, ((0, 0), (0, 0), (0, 0), (far, far)))
    best = np.full(ink.shape[:2], -1.0, dtype=np.float32)
    start, lean = np.zeros(ink.shape[:2]), np.zeros(ink.shape[:2])
    for tilt in range(-far, far + 1):
        shifts = np.rint(seen.places / reach * tilt).astype(int)
        summed = np.zeros((*ink.shape[:2], count), dtype=np.float32)
        for station, shift in enumerate(shifts.tolist()):
            summed += padded[:, :, station, far + shift : far + shift + count]
        cost = np.abs(offsets) + 0.5 * seen.step * abs(tilt)
        summed = summed / np.float32(stations) - (FAR_COSTS * cost).astype(np.float32)
        place = summed.argmax(axis=2)
        value = np.take_along_axis(summed, place[..., None], axis=2)[..., 0]
        better = value > best
        best = np.where(better, value, best)
        start = np.where(better, offsets[place], start)
        lean = np.where(better, tilt * seen.step / reach, lean)
    return start, lean


def shares_inked(seen: Profiles) -> NDArray[np.float64]:
    """Return how much each station of each side is inked, n by 4 by stations, 0 to 1."""
    near = np.abs(seen.offsets) <= 1.25
    strong = seen.ink[..., near].max(axis=3)
    return np.asarray(np.clip((strong - 0.2) / 0.4, 0.0, 1.0), dtype=np.float64)


def other_sides(boxes: Boxes, seen: Profiles, apart: float) -> Boxes:
    """Return boxes with one side on the next best stroke beside it.

    Args:
        boxes: n of them.
        seen: the ink across their sides, from far to either side.
        apart: a stroke is another one from so many pixels on.
    """
    mean = seen.ink.mean(axis=2)
    padded = np.pad(mean, ((0, 0), (0, 0), (1, 1)))
    mean = (padded[..., :-2] + padded[..., 1:-1] + padded[..., 2:]) / 3
    mean[..., np.abs(seen.offsets) < apart] = 0.0
    place = mean.argmax(axis=2)
    value = np.take_along_axis(mean, place[..., None], axis=2)[..., 0]
    offset = seen.offsets[place]
    made = []
    for side in range(4):
        mine = value[:, side] >= OTHER_INKED
        by = np.zeros((int(mine.sum()), 4))
        by[:, side] = offset[mine, side]
        made.append(_shifted(boxes.some(mine), by))
    return together(made)


def _shifted(boxes: Boxes, offset: Column) -> Boxes:
    longer = offset[:, _FOOT] + offset[:, _HEAD]
    wider = offset[:, _START] + offset[:, _END]
    to_foot = (offset[:, _FOOT] - offset[:, _HEAD]) / 2
    to_end = (offset[:, _END] - offset[:, _START]) / 2
    return replace(
        boxes,
        right=boxes.right + to_foot * np.cos(boxes.turn) + to_end * np.sin(boxes.turn),
        down=boxes.down + to_foot * np.sin(boxes.turn) - to_end * np.cos(boxes.turn),
        width=np.maximum(boxes.width + wider, 2.0),
        length=np.maximum(boxes.length + longer, 2.0),
    )
