"""A field book: what was read on the tape, line by line, in metres and degrees."""

from dataclasses import dataclass
from enum import StrEnum

from plan_editor.survey.adjustment.observed import Station


class Sort(StrEnum):
    """What sort of line it is."""

    TIE = "tie"
    OFFSET = "offset"
    LEG = "leg"
    CHECK = "check"


@dataclass(frozen=True, slots=True, kw_only=True)
class BookLine:
    """One line of a field book.

    Args:
        line: its number in the book, from 1.
        sort: a *tie* is a distance from a mark to a point; an *offset* is a point by distance
            along a base line and square off it; a *leg* is one of a traverse; a *check* is a
            distance between two points that are fixed otherwise.
        start: where the tape began: the mark of a tie, the start of a base line or of a leg.
        end: the end of a base line, leg or check. Of a tie with a side: the mark that one looks
            to; empty for the one that the same point is tied to besides.
        point: what a tie or an offset measures.
        distance: as read, in metres; along the slope where ``slope_deg`` or ``rise`` is given.
            Of an offset the distance along the base line; None of a leg that is only a
            direction.
        aside: of an offset, in metres; more than 0 to the right, looking along the base line.
        bearing: degrees clockwise from grid north.
        angle: degrees clockwise at ``start``, from ``back`` to ``end``.
        back: the back sight of an included angle.
        slope_deg: slope of the tape; None where it was held level.
        rise: height of the far end over the near one, in metres; None where it was held level.
        right: of a tie, on which hand the point lies of one who stands at ``start`` and looks
            to ``end``; None where it is not said.
        sd: standard deviation of the distance, in metres.
        angle_sd: of the bearing and of the angle, in degrees.
        compass: whether the bearing was read on a compass, which is off by the same unknown
            angle for the whole book.
        left_out: kept, but not used.
        code: what the point is, by the table of codes; empty for a mark.
        remarks: whatever was written beside it.
    """

    line: int
    sort: Sort
    start: str
    end: str = ""
    point: str = ""
    distance: float | None = None
    aside: float | None = None
    bearing: float | None = None
    angle: float | None = None
    back: str = ""
    slope_deg: float | None = None
    rise: float | None = None
    right: bool | None = None
    sd: float | None = None
    angle_sd: float | None = None
    compass: bool = False
    left_out: bool = False
    code: str = ""
    remarks: str = ""

    @property
    def is_turned(self) -> bool:
        """Whether a direction was read: a bearing or an angle."""
        return self.bearing is not None or self.angle is not None

    @property
    def far(self) -> str:
        """What was measured to: the point, or the end."""
        return self.point or self.end

    @property
    def names(self) -> tuple[str, ...]:
        """Every point that it speaks of."""
        return tuple(n for n in (self.start, self.end, self.point, self.back) if n)


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldBook:
    """A field book, whole.

    Args:
        name: what it is called; a book of the same name replaces it.
        date: ISO date, may stop after the year or the month.
        observer: who measured.
        lines: as they stand.
        marks: places that the book itself gives, for a traverse that is worked out alone.
        notes: what was taken for granted, in words.
    """

    name: str
    date: str = ""
    observer: str = ""
    lines: tuple[BookLine, ...] = ()
    marks: tuple[Station, ...] = ()
    notes: tuple[str, ...] = ()


def same(name: str) -> str:
    """Return a name as it sounds: ``P 1`` and ``p1`` are the same."""
    return "".join(name.split()).casefold()
