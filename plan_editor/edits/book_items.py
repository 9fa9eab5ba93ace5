"""The lines of a field book as items, and what its points become on the plan."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from hashlib import blake2b
from math import hypot, sqrt
from typing import Any

from plan_editor.edits.codes import Code, shipped_codes, written
from plan_editor.edits.points import Coded, Measured, coded
from plan_editor.ground.book_names import Place
from plan_editor.ground.field_books import Survey
from plan_editor.kinds import mark, observation
from plan_editor.kinds.observation import Measure, ObservationDetails, Side
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item, ItemId, Method
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment.observed import Adjusted, Found
from plan_editor.survey.books.field_book import BookLine, FieldBook, Sort, same

PEG = "PEG"
"""The code of a point that has none: a temporary mark."""

Where = Mapping[str, tuple[Item[Any], Place]]
"""The points of a book by their names as they sound: the thing, and which place of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NewThings:
    """What a field book adds to the plan besides its lines.

    Args:
        items: new ones.
        where: the points of the book that are on the plan afterwards.
        notes: what is to be said of it.
    """

    items: tuple[Item[Any], ...]
    where: Where
    notes: tuple[str, ...]


def known_by_code(plan: Plan, book: FieldBook) -> dict[str, Place]:
    """Return the points of a book that are things on the plan, by their codes and numbers."""
    found: dict[str, Place] = {}
    for line in book.lines:
        code = _code(line)
        if code is None or code.form is not Form.POINT or code.kind == mark.KIND:
            continue
        alike = [i for i in plan.of(code.kind) if spoken(i.number) == spoken(line.far)]
        if len(alike) == 1 and alike[0].form is Form.POINT:
            found[same(line.far)] = Place(alike[0].id)
    return found


def new_things(
    plan: Plan, book: FieldBook, seed: ItemId, *, survey: Survey, adjusted: Adjusted
) -> NewThings:
    """Return what a book adds to the plan: the points that could be placed, by their codes.

    Args:
        plan: the plan before.
        book: the field book.
        seed: the ids of new items follow from it.
        survey: all books of the plan, this one among them.
        adjusted: their adjustment.
    """
    places = dict(survey.places)
    found = {p.name: p for p in adjusted.points if not p.known and p.east is not None}
    lines = _first_lines(book)
    measured = [
        _measured(lines[called], found[name], book)
        for called, name in survey.names
        if name in found and name not in places and called in lines
    ]
    things, notes = coded(measured, shipped_codes(), method=Method.TAPED, source=book.name)
    settled = [_settled(thing, seed) for thing in things]
    where = {
        called: (plan.items[places[name].item], places[name])
        for called, name in survey.names
        if name in places
    }
    for thing in settled:
        for n, point in enumerate(thing.points, 1):
            corner = None if thing.item.form is Form.POINT else n
            where[same(point.name)] = (thing.item, Place(thing.item.id, corner))
    return NewThings(items=tuple(t.item for t in settled), where=where, notes=notes)


def observations(book: FieldBook, seed: ItemId, where: Where) -> tuple[Item[Any], ...]:
    """Return the lines of a book as items.

    Args:
        book: the field book.
        seed: their ids follow from it.
        where: what its points are on the plan.
    """
    return tuple(
        Item(
            id=derived(seed, f"line {n}"),
            kind=observation.KIND,
            details=_details(book, line, where),
        )
        for n, line in enumerate(book.lines)
    )


def derived(seed: ItemId, what: str) -> ItemId:
    """Return an id that follows from another: asked twice it is the same."""
    return ItemId(blake2b(f"{seed} {what}".encode(), digest_size=16).hexdigest())


def sd_of(found: Found) -> float:
    """Return the standard deviation of one coordinate of a point with a place, in metres."""
    return round(hypot(found.sd_east or 0.0, found.sd_north or 0.0) / sqrt(2.0), 4)


def _code(line: BookLine) -> Code | None:
    return shipped_codes().get(written(line.code).word) if line.code else None


def _first_lines(book: FieldBook) -> dict[str, BookLine]:
    """Return for each point the line that says what it is, or the first that names it."""
    lines: dict[str, BookLine] = {}
    for line in book.lines:
        if line.code:
            lines.setdefault(same(line.far), line)
    for line in book.lines:
        for name in line.names:
            bare = replace(line, point=name, code="", remarks="")
            lines.setdefault(same(name), line if same(line.far) == same(name) else bare)
    return lines


def _measured(line: BookLine, found: Found, book: FieldBook) -> Measured:
    return Measured(
        line=line.line,
        name=line.far,
        east=found.east or 0.0,
        north=found.north or 0.0,
        sd_m=sd_of(found),
        code=line.code or PEG,
        date=book.date,
    )


def _settled(thing: Coded, seed: ItemId) -> Coded:
    first = same(thing.points[0].name)
    return replace(thing, item=replace(thing.item, id=derived(seed, f"point {first}")))


def _details(book: FieldBook, line: BookLine, where: Where) -> ObservationDetails:
    measures = line.sort in (Sort.TIE, Sort.OFFSET)
    from_mark, from_point = _named(line.start, where)
    to_mark, to_point = _named(line.end, where)
    back_mark, back_point = _named(line.back, where)
    target = where.get(same(line.far)) if measures or line.sort is Sort.LEG else None
    return ObservationDetails(
        measure=Measure(line.sort.value),
        book=book.name,
        book_line=line.line,
        date=book.date,
        from_mark=from_mark,
        to_mark=to_mark,
        from_point=from_point,
        to_point=to_point,
        back_mark=back_mark,
        back_point=back_point,
        point=line.far,
        target=target[1].item if target else None,
        corner=target[1].corner if target else None,
        distance_m=line.distance,
        offset_m=line.aside,
        bearing_deg=line.bearing,
        compass=line.compass,
        angle_deg=line.angle,
        slope_deg=line.slope_deg,
        rise_m=line.rise,
        side=_SIDES[line.right],
        sd_m=line.sd,
        angle_sd_deg=line.angle_sd,
        left_out=line.left_out,
        observer=book.observer,
        remarks=line.remarks,
    )


_SIDES = {None: Side.UNKNOWN, False: Side.LEFT, True: Side.RIGHT}


def _named(name: str, where: Where) -> tuple[ItemId | None, str]:
    """Return the mark of that name, or else the name as the book's own."""
    there = where.get(same(name))
    if there is not None and there[0].kind == mark.KIND:
        return there[0].id, ""
    return None, name
