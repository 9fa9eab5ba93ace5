"""Runs of offsets in a field book, and the area between each base line and its edge."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from plan_editor.geometry.offset_areas import even_step, simpson, trapezoidal
from plan_editor.survey.books.field_book import BookLine, Sort
from plan_editor.survey.books.reducing import level


@dataclass(frozen=True, slots=True, kw_only=True)
class OffsetRun:
    """Offsets that follow one another along a base line, on one side of it.

    Args:
        start, end: of the base line.
        right: on which hand the edge lies.
        lines: numbers of the first and the last line.
        trapezoidal: square metres between base line and edge, from the first offset to the
            last, the edge straight between offsets.
        simpson: the same by Simpson's rule; None where the steps are not equal, or too few.
    """

    start: str
    end: str
    right: bool
    lines: tuple[int, int]
    trapezoidal: float
    simpson: float | None


def offset_runs(lines: Iterable[BookLine]) -> tuple[OffsetRun, ...]:
    """Return the runs of three offsets or more, each with its area on the ground."""
    used = (
        line
        for line in lines
        if line.sort is Sort.OFFSET and not line.left_out and line.aside is not None
    )
    runs = (list(run) for _, run in groupby(used, key=_base_and_side))
    return tuple(found for run in runs if (found := _area(run)) is not None)


def _base_and_side(line: BookLine) -> tuple[str, str, bool]:
    return line.start, line.end, (line.aside or 0.0) >= 0.0


def _area(run: list[BookLine]) -> OffsetRun | None:
    along = [level(r.distance or 0.0, r.slope_deg, r.rise) for r in run]
    offsets = [abs(r.aside or 0.0) for r in run]
    try:
        plain = trapezoidal(along, offsets)
    except ValueError:
        return None
    if len(run) < 3:
        return None
    step = even_step(along)
    return OffsetRun(
        start=run[0].start,
        end=run[0].end,
        right=(run[0].aside or 0.0) >= 0.0,
        lines=(run[0].line, run[-1].line),
        trapezoidal=plain,
        simpson=None if step is None else simpson(step, offsets),
    )
