"""Lines with marks along them: cross-strokes, scallops, arrows, letters in gaps."""

import numpy as np

from plan_editor.drawing.ink import Anchor, Ink, Points, Stroke, Text
from plan_editor.drawing.lettering import CAPITAL, SMALLEST, width
from plan_editor.plan.look import Along, Mark, Pen

_BULGE = 0.35
_LETTERS = SMALLEST
_ROUND = np.linspace(0.0, np.pi, 7)[:-1]


def decorated(lines: tuple[Points, ...], along: Along, pen: Pen) -> tuple[Ink, ...]:
    """Return lines with the marks along them.

    Scallops take the line's place, on both of its sides.
    """
    match along.mark:
        case Mark.TICKS:
            return Stroke(lines=lines, pen=pen), _strokes(_ticks(lines, along), pen)
        case Mark.ARROWS:
            return Stroke(lines=lines, pen=pen), _strokes(_arrows(lines, along), pen)
        case Mark.SCALLOPS:
            both = tuple(_there_and_back(line, along.size) for line in lines)
            return (scalloped(both, along, pen),)
        case Mark.LETTERS:  # pragma: no branch  # there is no other
            return _lettered(lines, along, pen)


def scalloped(rings: tuple[Points, ...], along: Along, pen: Pen) -> Ink:
    """Return rings as rows of small arcs that bulge outwards."""
    return Stroke(lines=tuple(_arcs(ring, along.every) for ring in rings), pen=pen, closed=True)


def stations(line: Points, every: float) -> tuple[Points, Points]:
    """Return places along a line, (n, 2), half a step from its ends, and the way at each.

    The step is stretched a little, so that the places are regular; a line shorter than a step
    has one, in its middle.
    """
    lengths = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    count = max(1, round(float(lengths[-1]) / every))
    where = (np.arange(count) + 0.5) * lengths[-1] / count
    return _at(line, lengths, where)


def _at(line: Points, lengths: Points, where: Points) -> tuple[Points, Points]:
    side = np.clip(np.searchsorted(lengths, where, side="right") - 1, 0, len(line) - 2)
    steps = np.diff(line, axis=0)
    long = np.maximum(np.hypot(*steps.T), 1e-12)
    ways = (steps / long[:, None])[side]
    return line[side] + ways * (where - lengths[side])[:, None], ways


def _strokes(lines: tuple[Points, ...], pen: Pen) -> Ink:
    return Stroke(lines=lines, pen=Pen(width=pen.width, colour=pen.colour))


def _ticks(lines: tuple[Points, ...], along: Along) -> tuple[Points, ...]:
    ticks: list[Points] = []
    for line in lines:
        at, ways = stations(line, along.every)
        across = ways[:, ::-1] * (-0.5, 0.5) * along.size
        ticks.extend(np.stack([at - across, at + across], axis=1))
    return tuple(ticks)


def _arrows(lines: tuple[Points, ...], along: Along) -> tuple[Points, ...]:
    heads: list[Points] = []
    for line in lines:
        at, ways = stations(line, along.every)
        across = ways[:, ::-1] * (-0.4, 0.4) * along.size
        tip, tail = at + ways * along.size / 2, at - ways * along.size / 2
        heads.extend(np.stack([tail - across, tip, tail + across], axis=1))
    return tuple(heads)


def _lettered(lines: tuple[Points, ...], along: Along, pen: Pen) -> tuple[Ink, ...]:
    gap = (width(along.text) * _LETTERS + 1.0) / 2
    ink: list[Ink] = []
    kept: list[Points] = []
    for line in lines:
        lengths = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
        at, ways = stations(line, along.every)
        middles = (np.arange(len(at)) + 0.5) * lengths[-1] / len(at)
        bounds = np.concatenate(
            [[0.0], np.column_stack([middles - gap, middles + gap]).ravel(), [lengths[-1]]]
        )
        pairs = bounds.reshape(-1, 2)
        kept.extend(_between(line, lengths, a, b) for a, b in pairs if b - a > 0.1)
        ink.extend(_letters(along.text, p, w, pen) for p, w in zip(at, ways, strict=True))
    return (Stroke(lines=tuple(kept), pen=pen), *ink)


def _between(line: Points, lengths: Points, start: float, end: float) -> Points:
    inner = line[(lengths > start) & (lengths < end)]
    ends, _ = _at(line, lengths, np.array([start, end]))
    return np.vstack([ends[:1], inner, ends[1:]])


def _letters(text: str, at: Points, way: Points, pen: Pen) -> Text:
    turn = upright(float(np.degrees(np.arctan2(way[1], way[0]))))
    down = np.radians(turn)
    drop = CAPITAL * _LETTERS / 2
    return Text(
        text=text,
        x=float(at[0] + np.sin(down) * drop),
        y=float(at[1] - np.cos(down) * drop),
        size=_LETTERS,
        colour=pen.colour,
        anchor=Anchor.MIDDLE,
        turn_deg=turn,
    )


def upright(turn_deg: float) -> float:
    """Return a turn, anticlockwise, by half circles to where text is not upside down."""
    return (turn_deg + 89.999) % 180.0 - 89.999


def _there_and_back(line: Points, apart: float) -> Points:
    # two sides of a line that has no width of its own
    steps = np.diff(line, axis=0)
    ways = steps / np.maximum(np.hypot(*steps.T), 1e-12)[:, None]
    each = np.vstack([ways[:1], ways])
    across = each[:, ::-1] * (-0.5, 0.5) * apart
    return np.vstack([line + across, (line - across)[::-1]])


def _arcs(ring: Points, every: float) -> Points:
    outwards = 1.0 if _signed_area(ring) > 0 else -1.0
    closed = np.vstack([ring, ring[:1]])
    lengths = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    count = max(6, round(float(lengths[-1]) / every))
    starts, _ = _at(closed, lengths, np.arange(count) * lengths[-1] / count)
    chords = np.roll(starts, -1, axis=0) - starts
    out = np.column_stack([chords[:, 1], -chords[:, 0]]) * outwards * _BULGE
    along_, up = (1 - np.cos(_ROUND)) / 2, np.sin(_ROUND)
    arcs = starts[:, None] + chords[:, None] * along_[:, None] + out[:, None] * up[:, None]
    return np.asarray(arcs.reshape(-1, 2))


def _signed_area(ring: Points) -> float:
    x, y = ring.T
    return float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) / 2
