"""The field books on a plan as they were written, to be read and changed again."""

from dataclasses import dataclass

from plan_editor.kinds import observation
from plan_editor.kinds.observation import ObservationDetails, Side
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.survey.books.field_book import BookLine, FieldBook, Sort, same


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptBook:
    """A field book on the plan: its name, when it was measured, how many lines it has."""

    name: str
    date: str
    lines: int


def kept_books(plan: Plan) -> tuple[KeptBook, ...]:
    """Return the field books on a plan, the first taken in first."""
    found: dict[str, KeptBook] = {}
    for one in plan.of(observation.KIND):
        told = one.details
        known = found.get(same(told.book), KeptBook(name=told.book, date="", lines=0))
        found[same(told.book)] = KeptBook(
            name=known.name, date=known.date or told.date, lines=known.lines + 1
        )
    return tuple(found.values())


def book_on(plan: Plan, name: str) -> FieldBook:
    """Return a field book on the plan as it was written, marks by the numbers they bear now.

    What a point is, its code, is not kept in the lines: the thing itself tells it.
    """
    told = [o.details for o in plan.of(observation.KIND) if same(o.details.book) == same(name)]
    ordered = sorted(told, key=lambda d: d.book_line or 0)
    return FieldBook(
        name=name,
        date=next((d.date for d in ordered if d.date), ""),
        observer=next((d.observer for d in ordered if d.observer), ""),
        lines=tuple(_line(plan, n, d) for n, d in enumerate(ordered, 1)),
    )


def has_bearings(plan: Plan) -> bool:
    """Return whether lines of the books hold bearings from grid north, not from a compass."""
    return any(
        o.details.bearing_deg is not None and not o.details.compass
        for o in plan.of(observation.KIND)
    )


def _line(plan: Plan, number: int, told: ObservationDetails) -> BookLine:
    sort = Sort(told.measure.value)
    measures = sort in (Sort.TIE, Sort.OFFSET)
    far = _called(plan, told.to_mark, told.to_point)
    return BookLine(
        line=told.book_line or number,
        sort=sort,
        start=_called(plan, told.from_mark, told.from_point),
        end=far or ("" if measures else told.point),
        point=told.point if measures else "",
        distance=told.distance_m,
        aside=told.offset_m,
        bearing=told.bearing_deg,
        angle=told.angle_deg,
        back=_called(plan, told.back_mark, told.back_point),
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


def _called(plan: Plan, mark: ItemId | None, name: str) -> str:
    return name if mark is None else plan.items[mark].number
