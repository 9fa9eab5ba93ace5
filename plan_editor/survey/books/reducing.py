"""From what was read on a tape to what is adjusted: level distances and their precision."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, hypot, radians, sqrt

from plan_editor.errors import CannotUse
from plan_editor.survey.adjustment.observed import Angle, Bearing, Hand, Observed, Offset
from plan_editor.survey.adjustment.observed import Tape as Taped
from plan_editor.survey.adjustment.taping import Tape, usual
from plan_editor.survey.books.field_book import BookLine, Sort


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A line of a book that takes part in an adjustment.

    Args:
        key: what the results of it bear.
        book: the name of its book.
        line: with names that are the same for the same point in all books.
        swing: what all compass bearings are off by together bears this name.
    """

    key: str
    book: str
    line: BookLine
    swing: str = ""


def level(distance: float, slope_deg: float | None, rise: float | None) -> float:
    """Return the level distance of one that was measured along a slope, in metres.

    By the height difference h it is the root of d² - h², by the angle of slope d·cos a.
    Source: the right-angled triangle; every handbook of surveying has both.

    Raises:
        CannotUse: the rise is no less than the distance.
    """
    if slope_deg is not None:
        return distance * cos(radians(slope_deg))
    if rise is None:
        return distance
    if abs(rise) >= distance:
        raise CannotUse(
            f"a rise of {abs(rise):g} m is no less than the distance of {distance:g} m"
        )
    return sqrt(distance**2 - rise**2)


def reduced(readings: Iterable[Reading]) -> tuple[Observed, ...]:
    """Return what the lines measured, in ground metres and degrees, level.

    A line without standard deviations has the usual ones. A leg gives a distance and a bearing,
    an angle or both, all with the key of the line.
    """
    return tuple(one for r in readings if not r.line.left_out for one in _of(r))


def hands(readings: Sequence[Reading]) -> tuple[Hand, ...]:
    """Return on which hand points lie, where ties say it.

    A side on a tie is that of one who stands at the tie's mark and looks to the mark that it
    names besides; where it names none, of the line from the first to the second mark that the
    point is tied to.
    """
    ties = [r.line for r in readings if r.line.sort is Sort.TIE and not r.line.left_out]
    marks: dict[str, list[str]] = {}
    for tie in ties:
        if tie.start not in marks.setdefault(tie.point, []):
            marks[tie.point].append(tie.start)
    return tuple(
        Hand(point=tie.point, start=line[0], end=line[1], right=tie.right)
        for tie in ties
        if tie.right is not None and (line := _base(tie, marks[tie.point]))
    )


def sd_of(line: BookLine, tape: Tape | None = None) -> float | None:
    """Return the standard deviation of a line's distance, in metres; None if it has none.

    Args:
        line: what it states itself is taken.
        tape: the one that was used; the usual one if not given.
    """
    if line.sd is not None or line.distance is None:
        return line.sd
    used = tape or usual().tape
    found = used.sd(line.distance)
    if line.aside is not None:
        found = hypot(max(found, used.sd(line.aside)), usual().aside * line.aside)
    return round(found, 4)


def angle_sd_of(line: BookLine) -> float | None:
    """Return the standard deviation of a line's bearing or angle, in degrees, if it has one."""
    if line.angle_sd is not None:
        return line.angle_sd
    if line.angle is not None:
        return usual().angle_deg
    return None if line.bearing is None else usual().bearing_deg


def _base(tie: BookLine, marks: Sequence[str]) -> tuple[str, str] | None:
    if tie.end:
        return tie.start, tie.end
    return (marks[0], marks[1]) if len(marks) > 1 else None


def _of(reading: Reading) -> Iterable[Observed]:
    line, key = reading.line, reading.key
    sd, angle_sd = sd_of(line), angle_sd_of(line)
    if line.distance is not None and sd is not None:
        metres = level(line.distance, line.slope_deg, line.rise)
        if line.aside is not None:
            yield Offset(
                key=key,
                start=line.start,
                end=line.end,
                point=line.point,
                along=metres,
                aside=line.aside,
                sd=sd,
            )
        else:
            yield Taped(key=key, start=line.start, end=line.far, metres=metres, sd=sd)
    if angle_sd is None:
        return
    if line.angle is not None:
        yield Angle(
            key=key,
            at=line.start,
            back=line.back,
            fore=line.far,
            degrees=line.angle,
            sd_deg=angle_sd,
        )
    if line.bearing is not None:
        yield Bearing(
            key=key,
            start=line.start,
            end=line.far,
            degrees=line.bearing,
            sd_deg=angle_sd,
            swing=reading.swing if line.compass else "",
        )
