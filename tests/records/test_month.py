import shapely

from plan_editor.kinds import bench, grass, request, works
from plan_editor.kinds.grass import GrassDetails
from plan_editor.kinds.request import RequestDetails
from plan_editor.kinds.works import WorksDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.month import Part, ahead

ON = "2026-11-25"


def burial(surname: str, wished: str):
    return new_item(request.KIND, details=RequestDetails(surname=surname, wished=wished))


def work(what: str, due: str):
    return new_item(works.KIND, details=WorksDetails(what=what, due=due))


def grass_until(day: str):
    return new_item(
        grass.KIND, shapely.box(0, 0, 1, 1), details=GrassDetails(uncut_until=day, name=day)
    )


PLAN = plan_of(
    [
        work("long wanted", "2025-03"),
        work("yesterday", "2026-11-24"),
        work("today", ON),
        work("end of the month", "2026-11"),
        burial("Tarn", "2026-11-28"),
        burial("Beck", "2026-12-01"),
        work("last day of the twelve months", "2027-10-31"),
        work("first day after them", "2027-11-01"),
        grass_until("2026-11-24"),
        grass_until("2026-11-30"),
    ]
)


def test_the_twelve_months_begin_with_this_one():
    counts = ahead(PLAN, ON).counts
    assert [c.month for c in counts] == [
        *("2026-11", "2026-12", "2027-01", "2027-02", "2027-03", "2027-04"),
        *("2027-05", "2027-06", "2027-07", "2027-08", "2027-09", "2027-10"),
    ]


def test_each_thing_counts_once_overdue_ones_now_and_days_that_are_past_not_at_all():
    counts = ahead(PLAN, ON).counts
    first = counts[0]
    assert (first.overdue, first.tasks, first.days, first.all) == (2, 3, 1, 6)
    assert [c.all for c in counts[1:]] == [1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1]


def test_what_is_overdue_comes_first_then_what_is_to_be_done_then_days_to_know_of():
    found = ahead(PLAN, ON)
    told = [(g.part, g.sort.name, [d.date for d in g.dues]) for g in found.of("2026-11")]
    assert told == [
        (Part.OVERDUE, "works", ["2025-03-31", "2026-11-24"]),
        (Part.IN_MONTH, "requests", ["2026-11-28"]),
        (Part.IN_MONTH, "works", ["2026-11-25", "2026-11-30"]),
        (Part.IN_MONTH, "uncut_until", ["2026-11-30"]),
    ]
    assert found.of("2028-01") == ()
    assert found.undated() == 0


def test_what_was_never_done_has_no_day_and_stands_last():
    found = ahead(plan_of([new_item(bench.KIND, shapely.Point(0, 0))]), ON)
    assert found.undated() == 1
    assert [g.part for g in found.of("2026-11")] == [Part.UNDATED]
    assert found.counts[0].all == 0
