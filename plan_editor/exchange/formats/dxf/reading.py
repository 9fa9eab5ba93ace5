"""Read another program's drawing, to lie under the ground."""

import logging
from collections import Counter
from dataclasses import dataclass
from math import atan2, degrees, hypot

import numpy as np
from numpy.typing import NDArray

from plan_editor.drawing.backdrop import Lettering, LineWork
from plan_editor.drawing.lettering import CAPITAL
from plan_editor.errors import CannotRead
from plan_editor.exchange.format import Drawing, Report
from plan_editor.exchange.formats.dxf import gathering
from plan_editor.exchange.formats.dxf.counting import refuse_too_many
from plan_editor.exchange.formats.dxf.gathering import CROSS_M, Gathering, gather, layers_of
from plan_editor.exchange.formats.dxf.opening import opened
from plan_editor.exchange.formats.dxf.pieces import NO_NUMBER, Pieces
from plan_editor.exchange.formats.dxf.units import Unit, unit_of
from plan_editor.limits import in_child

LONGEST = 120.0
"""Seconds that the reading of a drawing may take."""

MOST_MEMORY = 2 * 1024**3
"""Bytes that it may take."""

WITHIN_M = 0.0005
"""Metres on the ground between a curve and its chords: half of the millimetre that is promised,
so that rounding of sizes on the way does not use it up."""

_COARSE = 1e30
"""A tolerance in any unit that leaves a curve its fewest chords."""

_NOTHING = (
    "The drawing holds no lines or texts that can be laid under the ground{}. Nothing was "
    "changed. Ask its maker for a copy with all that is wanted in its model space and shown."
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Found:
    """What the other process sends: few large arrays, which go quickly.

    Args:
        points: of all lines, one line after another, shape (n, 2).
        lengths: how many points each line has.
        texts: what is written.
        frames: x, y, height of capitals and turn of each text, shape (m, 4).
        unit: how long a unit of the drawing is.
    """

    points: NDArray[np.float64]
    lengths: NDArray[np.int64]
    texts: tuple[str, ...]
    frames: NDArray[np.float64]
    unit: Unit
    report: Report


def read_drawing(content: bytes) -> Drawing:
    """Return the lines and texts of a DXF drawing, and what was left out or guessed.

    It is read in a process of its own with a limit on time and memory. Curves keep within a
    millimetre on the ground; heights are dropped.

    Raises:
        CannotRead: it holds nothing that can be used, or would take too long or too much.
    """
    found = in_child(read_quietly, content, seconds=LONGEST, memory=MOST_MEMORY)
    found.points.flags.writeable = False
    lines = (
        tuple(np.split(found.points, np.cumsum(found.lengths)[:-1]))
        if len(found.lengths)
        else ()
    )
    texts = tuple(
        Lettering(text=text, x=x, y=y, height=height / CAPITAL, turn_deg=turn)
        for text, (x, y, height, turn) in zip(found.texts, found.frames.tolist(), strict=True)
    )
    all_points = np.concatenate([found.points, found.frames[:, :2]])
    x0, y0 = all_points.min(axis=0).tolist()
    x1, y1 = all_points.max(axis=0).tolist()
    return Drawing(
        line_work=LineWork(lines=lines, texts=texts),
        metres_per_unit=found.unit.metres,
        extent=(x0, y0, x1, y1),
        report=found.report,
    )


def read_quietly(content: bytes) -> Found:
    """Return what is in a drawing, and say nothing on the way; for a process of its own.

    Raises:
        CannotRead: it holds nothing that can be used.
    """
    logging.getLogger("ezdxf").setLevel(logging.CRITICAL)
    return read_here(content)


def read_here(content: bytes) -> Found:
    """Return what is in a drawing, read in this process and without limits.

    Raises:
        CannotRead: it holds nothing that can be used.
    """
    drawing = opened(content)
    document = drawing.document
    refuse_too_many(document)
    layers = layers_of(document)
    number = int(document.header.get("$INSUNITS", 0))
    if (unit := unit_of(number, 0.0)).guessed:
        coarse = gather(Gathering(document=document, layers=layers, within=_COARSE, cross=0.0))
        unit = unit_of(number, _across(coarse))
    pieces = gather(
        Gathering(
            document=document,
            layers=layers,
            within=WITHIN_M / unit.metres,
            cross=CROSS_M / 2 / unit.metres,
        )
    )
    if not len(pieces.lengths) and not pieces.texts:
        raise CannotRead(_NOTHING.format(_why(_left_out(pieces.left_out))))
    return Found(
        points=np.ascontiguousarray(pieces.points[:, :2]),
        lengths=pieces.lengths,
        texts=pieces.texts,
        frames=_lettering(pieces),
        unit=unit,
        report=_report(pieces, unit, damaged=drawing.damaged),
    )


def _across(pieces: Pieces) -> float:
    places = np.concatenate([pieces.points, pieces.frames[:, 0]])
    return float(np.ptp(places[:, :2], axis=0).max()) if len(places) else 0.0


def _lettering(pieces: Pieces) -> NDArray[np.float64]:
    rows = [
        (at[0], at[1], hypot(up[0], up[1]), degrees(atan2(right[1], right[0])))
        for at, right, up in pieces.frames
    ]
    return np.array(rows, dtype=np.float64).reshape(-1, 4)


_NAMES = {
    gathering.OFF: "things that are hidden or on layers switched off or frozen",
    gathering.ELSEWHERE: "references to other drawings or to blocks that are not there",
    gathering.LARGE: "curves too large to be drawn within a millimetre",
    gathering.DAMAGED: "things whose record is damaged",
    NO_NUMBER: "lines or texts with a coordinate that is no number",
    "3DSOLID": "solid bodies",
    "BODY": "solid bodies",
    "REGION": "regions",
    "SURFACE": "surfaces",
    "IMAGE": "pictures",
    "WIPEOUT": "masks",
    "OLE2FRAME": "embedded objects",
    "RAY": "lines without end",
    "XLINE": "lines without end",
    "LIGHT": "lamps",
    "TOLERANCE": "tolerance frames",
    "SHAPE": "signs from a shape file",
}


def _left_out(counts: "Counter[str]") -> tuple[str, ...]:
    named: Counter[str] = Counter()
    for sort, count in counts.items():
        if sort != gathering.POINT:
            named[_NAMES.get(sort, f"things of the type {sort}")] += count
    return tuple(f"{name} ({count:,})" for name, count in named.most_common() if count)


def _counted(count: int, name: str) -> str:
    return f"{count:,} {name}{'' if count == 1 else 's'}"


def _why(left_out: tuple[str, ...]) -> str:
    return f", only {', '.join(left_out)}" if left_out else ""


def _report(pieces: Pieces, unit: Unit, *, damaged: bool) -> Report:
    done = [_counted(len(pieces.lengths), "line"), _counted(len(pieces.texts), "text")]
    if points := pieces.left_out[gathering.POINT]:
        done.append(f"{_counted(points, 'point')}, drawn as a cross {CROSS_M:.1f} m wide")
    broken = ("whatever lay in the damaged parts of the file",)
    return Report(
        done=tuple(done),
        passed_over=_left_out(pieces.left_out) + (broken if damaged else ()),
        guessed=unit.guessed,
    )
