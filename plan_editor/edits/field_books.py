"""Field books taken in, and all of them adjusted again: points move, and what hangs on them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import shapely
from shapely import Point

from plan_editor.edits.book_items import (
    NewThings,
    known_by_code,
    new_things,
    observations,
    sd_of,
)
from plan_editor.edits.following import Moved, followed
from plan_editor.errors import CannotUse, EditRefused
from plan_editor.geometry.tolerance import rounded
from plan_editor.ground.book_names import Place, place_of
from plan_editor.ground.field_books import Survey, adjusted, survey_of
from plan_editor.kinds import mark, observation
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, Method, new_id
from plan_editor.plan.plan import Plan
from plan_editor.survey.adjustment.observed import Adjusted, Found
from plan_editor.survey.books.field_book import FieldBook, same


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """What comes of all field books of a plan, one that is being taken in among them.

    Args:
        survey: every line, and what it was measured from.
        adjusted: the adjustment.
        new: what the new book adds to the plan.
    """

    survey: Survey
    adjusted: Adjusted
    new: NewThings


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeInFieldBook:
    """Take in a field book: its lines, its points, and all that moves because of them.

    A book of the same name is replaced: its points move, and those that the new one no longer
    names stay where they are. The same book once more changes nothing.

    Args:
        book: the field book.
        seed: the ids of new items follow from it.
    """

    book: FieldBook
    seed: ItemId = field(default_factory=new_id)

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Take in the field book {' '.join(self.book.name.split())}".strip()

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the lines of the book, its points, and what moves.

        Raises:
            EditRefused: the book is empty, or what it says makes no sense, or something would
                cross itself when it moves.
        """
        worked = worked_out(plan, self.book, self.seed)
        former = [o for o in plan.of(observation.KIND) if _is_of(o, self.book)]
        lines = _kept(former, observations(self.book, self.seed, worked.new.where))
        return (
            *(Change(o, None) for o in former if o not in lines),
            *(Change(None, i) for i in (*worked.new.items, *lines) if i not in former),
            *_moved(plan, worked.survey, worked.adjusted, self.book),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class AdjustFieldBooks:
    """Adjust all field books of the plan again, after a mark or a line of them changed."""

    title: str = "Adjust the field books again"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the points that move, and what hangs on them.

        Raises:
            EditRefused: there is nothing to adjust, or what is written makes no sense.
        """
        if not plan.count(observation.KIND):
            raise EditRefused("There is no field book on the plan. Nothing was changed.")
        survey = survey_of(plan)
        return _moved(plan, survey, _adjusted(plan, survey), None)


def worked_out(plan: Plan, book: FieldBook, seed: ItemId | None = None) -> Worked:
    """Return what comes of a field book together with all others of the plan.

    Raises:
        EditRefused: the book is empty, or what it says makes no sense.
    """
    if not book.lines or not same(book.name):
        raise EditRefused("The field book has no name or no lines. Nothing was taken in.")
    survey = survey_of(plan, book, known_by_code(plan, book))
    answer = _adjusted(plan, survey)
    new = new_things(plan, book, seed or new_id(), survey=survey, adjusted=answer)
    return Worked(survey=survey, adjusted=answer, new=new)


def _adjusted(plan: Plan, survey: Survey) -> Adjusted:
    try:
        return adjusted(plan, survey)
    except CannotUse as fault:
        raise EditRefused(f"The field books cannot be adjusted: {fault}") from fault


def _kept(former: Sequence[Item[Any]], lines: Sequence[Item[Any]]) -> tuple[Item[Any], ...]:
    """Return the lines of a book, each that the plan has already as it stands there."""
    there = {o.details.book_line: o for o in former}
    return tuple(
        old if (old := there.get(i.details.book_line)) and replace(i, id=old.id) == old else i
        for i in lines
    )


def _is_of(one: Item[Any], book: FieldBook) -> bool:
    return same(one.details.book) == same(book.name)


def _moved(
    plan: Plan, survey: Survey, answer: Adjusted, book: FieldBook | None
) -> tuple[Change, ...]:
    """Return the points on the plan as they come out, and what follows them."""
    found = _found_places(survey, answer)
    marks = frozenset(i.id for i in plan.of(mark.KIND))
    after = dict(
        followed(
            plan,
            tuple(_moves(plan, found)),
            staying=marks - {place.item for place in found},
        )
    )
    for item_id, points in _by_item(found).items():
        item = after.get(item_id, plan.items[item_id])
        after[item_id] = _known(_put(item, points), points, book)
    return tuple(Change(plan.items[i], item) for i, item in after.items())


def _found_places(survey: Survey, answer: Adjusted) -> dict[Place, Found]:
    points = {p.name: p for p in answer.points if not p.known and p.east is not None}
    return {place: points[name] for name, place in survey.places if name in points}


def _moves(plan: Plan, found: Mapping[Place, Found]) -> list[Moved]:
    return [
        Moved(before, after)
        for place, point in found.items()
        if (before := place_of(plan, place)) is not None and before != (after := _at(point))
    ]


def _at(point: Found) -> tuple[float, float]:
    return rounded(point.east or 0.0), rounded(point.north or 0.0)


def _by_item(found: Mapping[Place, Found]) -> dict[ItemId, dict[int | None, Found]]:
    items: dict[ItemId, dict[int | None, Found]] = {}
    for place, point in found.items():
        items.setdefault(place.item, {})[place.corner] = point
    return items


def _put(item: Item[Any], points: Mapping[int | None, Found]) -> Item[Any]:
    """Return a point where it was found, though another may have been at its place."""
    point = points.get(None)
    return item if point is None else item.at(Point(_at(point)))


def _known(
    item: Item[Any], points: Mapping[int | None, Found], book: FieldBook | None
) -> Item[Any]:
    """Return an item with how well it is known, where all of its corners were found."""
    corners = {tuple(c) for c in shapely.get_coordinates(item.shape).tolist()}
    if None not in points and len(points) < len(corners):
        return item
    basis = replace(item.basis, method=Method.TAPED, sd_m=max(map(sd_of, points.values())))
    other = item.basis.method is not Method.TAPED
    if book is not None and (other or same(item.basis.source) == same(book.name)):
        basis = replace(basis, source=book.name, date=book.date, base_plan=None)
    return replace(item, basis=basis)
