"""What was measured on the ground with a tape: the field books of a plan together."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from plan_editor.ground.book_names import Names, Place, place_of
from plan_editor.kinds import mark, observation
from plan_editor.kinds.observation import ObservationDetails, Side
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment.network import adjust
from plan_editor.survey.adjustment.observed import Adjusted, Station
from plan_editor.survey.books.field_book import BookLine, FieldBook, Sort, same
from plan_editor.survey.books.reducing import Reading, hands, reduced
from plan_editor.survey.grids.grid_facts import scale_factor

Observation = Item[ObservationDetails]


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """The field books of a plan, ready to be adjusted together.

    Args:
        readings: every line, with names that are the same for the same point in all books.
        stations: the marks and other things whose places are known otherwise.
        places: the names of points on the plan, stations too, with where they are.
        names: of the book that is being taken in: what it calls a point, as it sounds, and the
            name of that point in the readings.
        unsure: names of stations without a standard deviation, which are taken as exact.
    """

    readings: tuple[Reading, ...]
    stations: tuple[Station, ...]
    places: tuple[tuple[str, Place], ...]
    names: tuple[tuple[str, str], ...]
    unsure: tuple[str, ...]


def survey_of(
    plan: Plan, book: FieldBook | None = None, known: Mapping[str, Place] | None = None
) -> Survey:
    """Return the field books of a plan, with one more that perhaps replaces one of its name.

    A point was *found* by a book where its item says that it was taped and that the book is
    where it comes from; whatever else is measured from is a station, known before.

    Args:
        plan: the plan.
        book: the one to be taken in.
        known: what points of the book are on the plan, by their names as they sound, where that
            does not follow from marks and former lines.
    """
    new = "" if book is None else book.name
    kept, former = _parted(plan, new)
    names = Names(plan, _touched(kept), same(new), set((known or {}).values()))
    readings = list(_kept_readings(names, kept))
    told: dict[str, str] = {}
    if book is not None:
        local = {**_marks(plan), **_points(former), **(known or {})}
        told = {same(n): names.of(n, book.name, local) for n in _named(book.lines)}
        readings += [_new_reading(book, line, told) for line in book.lines]
    return Survey(
        readings=tuple(readings),
        stations=tuple(names.stations()),
        places=tuple((name, place) for place, name in names.by_place.items()),
        names=tuple(told.items()),
        unsure=tuple(names.unsure()),
    )


def adjusted(plan: Plan, survey: Survey) -> Adjusted:
    """Return the adjustment of field books, with the scale of the plan's grid there.

    Raises:
        CannotUse: a figure makes no sense, or the grid has no meaning there.
    """
    return adjust(
        survey.stations,
        reduced(survey.readings),
        scale_factor=_scale(plan, survey),
        hands=hands(survey.readings),
    )


def books(plan: Plan) -> tuple[str, ...]:
    """Return the names of the field books on a plan, the first taken in first."""
    return tuple(dict.fromkeys(o.details.book for o in plan.of(observation.KIND)))


def _scale(plan: Plan, survey: Survey) -> float:
    if not survey.stations:
        return 1.0
    east = sum(s.east for s in survey.stations) / len(survey.stations)
    north = sum(s.north for s in survey.stations) / len(survey.stations)
    return scale_factor(plan.grid, east, north)


def _parted(plan: Plan, new: str) -> tuple[list[Observation], list[Observation]]:
    """Return the observations that stay, and those that the new book replaces."""
    kept: list[Observation] = []
    former: list[Observation] = []
    for one in plan.of(observation.KIND):
        replaced = bool(new) and same(one.details.book) == same(new)
        (former if replaced else kept).append(one)
    return kept, former


def _touched(kept: Iterable[Observation]) -> set[tuple[str, ItemId]]:
    """Return which book measured from or to which thing."""
    return {
        (same(o.details.book), item)
        for o in kept
        for item in (
            o.details.from_mark,
            o.details.to_mark,
            o.details.back_mark,
            o.details.target,
        )
        if item is not None
    }


def _points(observations: Iterable[Observation]) -> dict[str, Place]:
    """Return what lines called the things that they measured, as it sounds."""
    return {
        same(o.details.point): Place(o.details.target, o.details.corner)
        for o in observations
        if o.details.target is not None and o.details.point
    }


def _marks(plan: Plan) -> dict[str, Place]:
    return {same(i.number): Place(i.id) for i in plan.of(mark.KIND) if i.number}


def _named(lines: Iterable[BookLine]) -> Iterator[str]:
    for line in lines:
        yield from line.names


def _kept_readings(names: Names, kept: Iterable[Observation]) -> Iterator[Reading]:
    """Return the lines on the plan that say enough to be used."""
    by_book: dict[str, list[Observation]] = {}
    for one in kept:
        by_book.setdefault(same(one.details.book), []).append(one)
    marks = _marks(names.plan)
    for of_book in by_book.values():
        local = {**marks, **_points(of_book)}
        for one in of_book:
            line = _line(names, one, local)
            if _is_whole(line):
                book = one.details.book
                yield Reading(key=one.id, book=book, line=line, swing=same(book) or "compass")


def _line(names: Names, one: Observation, local: Mapping[str, Place]) -> BookLine:
    told = one.details

    def called(mark_id: ItemId | None, text: str) -> str:
        if mark_id is not None:
            return names.at(Place(mark_id), text, told.book)
        return names.of(text, told.book, local) if text else ""

    sort = Sort(told.measure.value)
    measures = sort in (Sort.TIE, Sort.OFFSET)
    far = called(None if measures else told.to_mark, "" if measures else told.to_point)
    target = None if told.target is None else Place(told.target, told.corner)
    point = told.point if measures or not far else ""
    if target is not None and not far and place_of(names.plan, target) is not None:
        point = names.at(target, told.point, told.book)
    elif point:
        point = names.of(point, told.book, local)
    return BookLine(
        line=told.book_line or 0,
        sort=sort,
        start=called(told.from_mark, told.from_point),
        end=called(told.to_mark, told.to_point) if measures else far or point,
        point=point if measures else "",
        distance=told.distance_m,
        aside=told.offset_m,
        bearing=told.bearing_deg,
        angle=told.angle_deg,
        back=called(told.back_mark, told.back_point),
        slope_deg=told.slope_deg,
        rise=told.rise_m,
        right=_RIGHT[told.side] if sort is Sort.TIE else None,
        sd=told.sd_m,
        angle_sd=told.angle_sd_deg,
        compass=told.compass,
        left_out=told.left_out,
        remarks=told.remarks,
    )


_RIGHT = {Side.UNKNOWN: None, Side.LEFT: False, Side.RIGHT: True}


def _is_whole(line: BookLine) -> bool:
    """Return whether a line says enough, and nothing against itself."""
    wanted = (line.start, line.far, line.end if line.sort is Sort.OFFSET else "-")
    if not all(wanted) or len(set(line.names)) < len(line.names):
        return False
    if line.sort is Sort.OFFSET and (line.aside is None or line.distance is None):
        return False
    if line.angle is not None and not line.back:
        return False
    if line.distance is None:
        return line.is_turned
    return line.rise is None or abs(line.rise) < line.distance


def _new_reading(book: FieldBook, line: BookLine, told: Mapping[str, str]) -> Reading:
    def called(name: str) -> str:
        return told.get(same(name), "")

    return Reading(
        key=f"line {line.line}",
        book=book.name,
        line=replace(
            line,
            start=called(line.start),
            end=called(line.end),
            point=called(line.point),
            back=called(line.back),
        ),
        swing=same(book.name),
    )
