"""Where a point may lie by one measurement to places that are known, and where two such meet.

A place is a complex number, east and north in grid metres.
"""

import cmath
import math
from collections.abc import Mapping
from dataclasses import dataclass

from plan_editor.survey.adjustment.equations import SWING
from plan_editor.survey.adjustment.observed import Angle, Bearing, Observed, Offset, Tape

Places = Mapping[str, complex]
"""Places by name; a swing is one too, with its degrees as the real part."""

FLATTEST = 0.02
"""Sine of the flattest crossing that is made use of, about one degree."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One place: what an offset gives. ``sure`` is near 1 unless it lies far off its line."""

    place: complex
    sure: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """What a tape gives."""

    middle: complex
    radius: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ray:
    """What a bearing gives: from a place on, ``way`` being 1 long."""

    start: complex
    way: complex


Locus = Spot | Circle | Ray


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """Where loci meet.

    Args:
        place: the place.
        sure: sine of the angle of crossing.
        other: where else the same two meet.
    """

    place: complex
    sure: float
    other: complex | None = None


def locus(one: Observed, point: str, places: Places, scale_factor: float) -> Locus | None:
    """Return where a point may lie by a measurement; None where that says nothing yet.

    Args:
        one: a measurement that names the point; all other names are in ``places``, except that
            one end of a base line may be missing.
        point: its name.
        places: what is known.
        scale_factor: grid metres to a metre on the ground.
    """
    match one:
        case Tape():
            other = one.end if one.start == point else one.start
            if other not in places:
                return None
            return Circle(middle=places[other], radius=one.metres * scale_factor)
        case Offset():
            return _of_offset(one, point, places, scale_factor)
        case Bearing():
            return _of_bearing(one, point, places)
        case _:
            return _of_angle(one, point, places)


def missed(one: Observed, places: Places, scale_factor: float) -> float:
    """Return by how many standard deviations places miss a measurement between them."""
    match one:
        case Tape():
            length = abs(places[one.end] - places[one.start]) / scale_factor
            return abs(length - one.metres) / one.sd
        case Offset():
            way = places[one.end] - places[one.start]
            out = (places[one.point] - places[one.start]) / (_unit(way) * scale_factor)
            return abs(out - complex(one.along, -one.aside)) / one.sd
        case Bearing():
            way = _pointing(one.degrees + _swing(one, places))
            return _turned(way, places[one.end] - places[one.start]) / one.sd_deg
        case _:
            at = places[one.at]
            fore = _unit(places[one.back] - at) * _pointing(one.degrees) / 1j
            return _turned(fore, places[one.fore] - at) / one.sd_deg


def meetings(a: Locus, b: Locus) -> tuple[Meeting, ...]:
    """Return where two loci meet, the surer first; two circles that just miss, between them."""
    match a, b:
        case Ray(), Ray():
            return _two_rays(a, b)
        case Circle(), Circle():
            return _two_circles(a, b)
        case Circle(), Ray():
            return _circle_and_ray(a, b)
        case Ray(), Circle():
            return _circle_and_ray(b, a)
        case _:
            return ()


def right_of(point: complex, start: complex, end: complex) -> bool:
    """Return whether a point lies to the right of one who looks from start to end."""
    return ((point - start) / _unit(end - start)).imag < 0.0


def _of_offset(one: Offset, point: str, places: Places, scale_factor: float) -> Locus | None:
    out = complex(one.along, -one.aside) * scale_factor
    known = {name for name in (one.start, one.end, one.point) if name in places}
    if point == one.point and {one.start, one.end} <= known:
        way = places[one.end] - places[one.start]
        place = places[one.start] + _unit(way) * out
        return Spot(place=place, sure=min(1.0, (abs(way) + 1e-9) / (abs(out) + 1e-9)))
    if point == one.end and {one.start, one.point} <= known and abs(out) > 0.0:
        way = _unit(places[one.point] - places[one.start]) / _unit(out)
        return Ray(start=places[one.start], way=way)
    if point in (one.start, one.point):
        other = one.point if point == one.start else one.start
        if other in known:
            return Circle(middle=places[other], radius=abs(out))
    return None


def _of_bearing(one: Bearing, point: str, places: Places) -> Ray | None:
    other = one.end if one.start == point else one.start
    if other not in places or (one.swing and SWING + one.swing not in places):
        return None
    way = _pointing(one.degrees + _swing(one, places))
    return Ray(start=places[other], way=way if one.end == point else -way)


def _of_angle(one: Angle, point: str, places: Places) -> Locus | None:
    if any(name not in places for name in (one.at, one.back, one.fore) if name != point):
        return None
    turn = _pointing(one.degrees) / 1j  # clockwise, as a factor
    if point == one.fore:
        at = places[one.at]
        return Ray(start=at, way=_unit(places[one.back] - at) * turn)
    if point == one.back:
        at = places[one.at]
        return Ray(start=at, way=_unit(places[one.fore] - at) / turn)
    back, fore = places[one.back], places[one.fore]
    if abs(turn.imag) < FLATTEST:
        return None
    # all places that see two others under one angle lie on a circle through them
    middle = (back + fore) / 2 + 1j * (fore - back) / 2 * turn.real / turn.imag
    return Circle(middle=middle, radius=abs(fore - middle))


def _two_circles(a: Circle, b: Circle) -> tuple[Meeting, ...]:
    apart = abs(b.middle - a.middle)
    if apart < 1e-6 or min(a.radius, b.radius) <= 0.0:
        return ()
    way = (b.middle - a.middle) / apart
    along = (a.radius**2 - b.radius**2 + apart**2) / (2 * apart)
    height = math.sqrt(max(0.0, a.radius**2 - along**2))
    sure = height * apart / (a.radius * b.radius)
    if sure < FLATTEST:
        near = math.copysign(a.radius, along)
        far = apart + math.copysign(b.radius, along - apart)
        return (Meeting(place=a.middle + way * (near + far) / 2, sure=FLATTEST / 10),)
    one, two = (a.middle + way * complex(along, side * height) for side in (1, -1))
    return Meeting(place=one, sure=sure, other=two), Meeting(place=two, sure=sure, other=one)


def _circle_and_ray(a: Circle, b: Ray) -> tuple[Meeting, ...]:
    off = (a.middle - b.start) / b.way  # as seen along the ray
    under_root = a.radius**2 - off.imag**2
    half = math.sqrt(max(0.0, under_root))
    sure = max(half / a.radius if a.radius > 0.0 else 0.0, FLATTEST / 10)
    ahead = [along for along in (off.real + half, off.real - half) if along > 1e-6]
    places = [b.start + b.way * along for along in dict.fromkeys(ahead)]
    others: list[complex | None] = [*places[1:], *places[:1]] if len(places) > 1 else [None]
    return tuple(
        Meeting(place=place, sure=sure, other=other)
        for place, other in zip(places, others, strict=False)
    )


def _two_rays(a: Ray, b: Ray) -> tuple[Meeting, ...]:
    crossing = (b.way / a.way).imag
    if abs(crossing) < FLATTEST:
        return ()
    apart = b.start - a.start
    along, back = (apart / b.way).imag, (apart / a.way).imag
    if max(along * crossing, back * crossing) >= 0.0:
        return ()  # behind one of the two
    return (Meeting(place=a.start - a.way * along / crossing, sure=abs(crossing)),)


def _pointing(degrees: float) -> complex:
    """Return a way 1 long on a bearing."""
    return 1j * cmath.exp(-1j * math.radians(degrees))


def _swing(one: Bearing, places: Places) -> float:
    return places[SWING + one.swing].real if one.swing else 0.0


def _turned(a: complex, b: complex) -> float:
    """Return by how many degrees one way is turned against another."""
    return abs(math.degrees(cmath.phase(_unit(b) / _unit(a))))


def _unit(way: complex) -> complex:
    return way / abs(way) if abs(way) > 1e-9 else 1j
