"""Small drawings made with ezdxf, as the bytes of a file, for the tests of reading."""

import io
from collections.abc import Callable, Iterable
from typing import Any

import numpy as np
from ezdxf.document import Drawing as Document
from ezdxf.filemanagement import new

from plan_editor.exchange.formats.dxf.pieces import Space
from plan_editor.exchange.formats.dxf.reading import Found, read_here

METRES = 6


def drawing(
    draw: Callable[[Document, Any], object], *, units: int = METRES, version: str = "R2010"
) -> bytes:
    """Return a drawing; ``draw`` is given the document and its model space."""
    document = new(version, units=units)
    draw(document, document.modelspace())
    return content_of(document)


def content_of(document: Document) -> bytes:
    """Return the bytes that the document would be saved as."""
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode(document.output_encoding, "dxfreplace")


def read(draw: Callable[[Document, Any], object], **rest: Any) -> Found:
    """Return what is read of a drawing."""
    return read_here(drawing(draw, **rest))


def lines_of(found: Found) -> list[Space]:
    """Return its lines one by one."""
    return np.split(found.points, np.cumsum(found.lengths)[:-1])


def only_line(found: Found) -> Space:
    """Return its one line."""
    (line,) = lines_of(found)
    return line


def between(line: Space, parts: int = 7) -> Space:
    """Return points on each side of a line, its ends included."""
    t = np.linspace(0, 1, parts)[None, :, None]
    start, end = line[:-1, None, :], line[1:, None, :]
    return (start + (end - start) * t).reshape(-1, 2)


def area(line: Space) -> float:
    """Return the area inside a closed line, by cross products of its corners."""
    x, y = line[:, 0] - line[0, 0], line[:, 1] - line[0, 1]
    return float(abs(np.dot(x[:-1], y[1:]) - np.dot(x[1:], y[:-1])) / 2)


def rows(points: Iterable[Iterable[float]]) -> Space:
    """Return points as an array."""
    return np.array([tuple(p) for p in points], dtype=np.float64)
