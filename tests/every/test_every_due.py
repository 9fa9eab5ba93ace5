"""Whatever is due names nobody living, and has a day that can be put in a calendar."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
import shapely

from plan_editor.exchange.calendars import calendar, events
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.detail import EVERYTHING, Detail, Value
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.kind import Form, Kind, kinds
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.records.due import SortOfDue, sorts_of_due
from plan_editor.records.schedule import Asked, made, schedules

ON = "2026-11-25"
LIVING = "Ivy Sallow"

PLACES: dict[Form, Any] = {
    Form.POINT: shapely.Point(1, 1),
    Form.LINE: shapely.LineString([(0, 0), (9, 0)]),
    Form.AREA: shapely.box(0, 0, 9, 9),
    Form.RECTANGLE: Rectangle(east=0, north=0, width=1, length=2),
    Form.NONE: None,
}


def full(kind: Kind, first: dict[str, ItemId]) -> Iterator[Item[Any]]:
    """Return an item with everything told, for each choice that one of its details offers."""
    told = {d.name: _value(d, first) for d in kind.entries() if not d.choices}
    told = {name: value for name, value in told.items() if value is not None}
    bare = replace(kind.details(), **told)
    yield new_item(kind, PLACES[kind.form], details=bare)
    for detail in kind.entries():
        for choice in detail.choices:
            details = replace(bare, **{detail.name: choice})
            yield new_item(kind, PLACES[kind.form], details=details)


def _value(detail: Detail, first: dict[str, ItemId]) -> Any:
    about = detail.about
    match detail.value:
        case Value.TEXT | Value.LONG_TEXT:
            return LIVING if about.private else "told"
        case Value.DATE:
            return "2026-12-01"
        case Value.ITEM:
            allowed = first if about.refers_to == EVERYTHING else about.refers_to
            return first[next(iter(allowed))]
        case Value.NUMBER:
            return max(about.low or 0.0, 1.0)
        case Value.YES_NO:
            return True
        case _:
            return None


@pytest.fixture(scope="module")
def everything() -> Plan:
    begun = [new_item(kind, PLACES[kind.form]) for kind in kinds()]
    first = {item.kind.name: item.id for item in begun}
    every = [item for kind in kinds() for item in full(kind, first)]
    by_kind = {kind.name: next(i for i in every if i.kind == kind) for kind in kinds()}
    # those that the others refer to are told in full as well
    referred = [replace(by_kind[i.kind.name], id=i.id) for i in begun]
    return plan_of([*referred, *every], name="St Elfric, Harrowmere")


@pytest.mark.parametrize("sort", sorts_of_due(), ids=lambda s: s.name)
def test_a_due_names_nobody_living_and_its_day_is_one(everything: Plan, sort: SortOfDue):
    found = sort.find(everything, ON)
    assert LIVING not in str(found)
    assert len({d.key for d in found}) == len(found), "two of a sort share a key"
    for due in found:
        assert due.sort == sort.name
        assert due.title
        assert not due.date or date.fromisoformat(due.date)
        assert due.item is None or due.item in everything.items


def test_most_sorts_find_something_where_everything_is_told(everything: Plan):
    found = {s.name for s in sorts_of_due() if s.find(everything, ON)}
    # settling and notices depend on other things than that something is told
    assert {s.name for s in sorts_of_due()} - found <= {"settling", "notices"}


def test_a_calendar_of_everything_names_nobody_living(everything: Plan):
    found = events(everything, ON)
    assert found
    assert LIVING.encode() not in calendar("x", found, ON).replace(b"\r\n ", b"")


@pytest.mark.parametrize("schedule", schedules(), ids=lambda s: s.name)
def test_a_schedule_names_somebody_living_only_when_asked(everything: Plan, schedule):
    bare = made(everything, schedule, Asked(on=ON))
    assert LIVING not in str(bare)
    told = made(everything, schedule, Asked(on=ON, contacts=True))
    for found in (bare, told):
        assert all(len(line.cells) == len(found.headings) for line in found.lines)
