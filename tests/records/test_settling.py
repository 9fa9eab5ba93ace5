"""Until when a grave settles, and the days on which something ends."""

import pytest
from shapely import Point

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, note, parish, reservation
from plan_editor.kinds.reservation import Stage
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.days import last_day, months_after
from plan_editor.records.due import dues
from plan_editor.records.settling import settled_on, settling_graves, settling_until


def dug(when: str, number: str = "C 14") -> Item:
    place = Rectangle(east=0, north=0, width=1.22, length=2.74)
    return new_item(grave.KIND, place, number=number, details=grave.GraveDetails(dug=when))


@pytest.mark.parametrize(
    ("day", "months", "ends"),
    [
        # a month from the 30th of September ends on the 30th of October: Dodds v Walker
        # [1981] 1 WLR 1027, on four months from that day (from memory)
        ("2026-09-30", 4, "2027-01-30"),
        ("2026-08-31", 6, "2027-02-28"),
        ("2027-08-31", 6, "2028-02-29"),
        ("2026-12-15", 12, "2027-12-15"),
        ("2026-05-14", 0, "2026-05-14"),
        ("9999-08-01", 6, "9999-12-31"),
    ],
)
def test_months_are_those_of_the_calendar(day: str, months: int, ends: str) -> None:
    assert months_after(day, months) == ends


def test_of_a_date_that_stops_early_the_last_day_counts() -> None:
    assert [last_day(d) for d in ("2024-02", "2026-02", "2026", "2026-05-14", "")] == [
        "2024-02-29",
        "2026-02-28",
        "2026-12-31",
        "2026-05-14",
        "",
    ]
    assert settling_until("2026-02", 6) == "2026-08-28"
    assert settling_until("", 6) == ""


def test_a_grave_settles_from_the_day_it_is_dug_until_it_has_settled() -> None:
    fresh = dug("2026-05-14")
    plan = plan_of([fresh, dug("", "C 15")])
    days = ("2026-05-13", "2026-05-14", "2026-11-13", "2026-11-14")
    assert [bool(settling_graves(plan, on)) for on in days] == [False, True, True, False]
    assert settled_on(plan, fresh) == "2026-11-14"
    assert settled_on(plan, new_item(note.KIND, Point(0, 0))) == ""


def test_the_parish_says_how_long() -> None:
    fresh = dug("2026-05-14")
    figures = new_item(parish.KIND, details=parish.ParishDetails(settling_months=12))
    plan = plan_of([fresh, figures])
    assert settling_graves(plan, "2027-05-13") == (fresh,)
    (due,) = (d for d in dues(plan, "2026-06-01") if d.sort == "settling")
    assert (due.date, due.title, due.item) == (
        "2027-05-14",
        "Grave C 14 has settled",
        fresh.id,
    )
    assert "12 months" in due.says


def test_a_reservation_is_due_on_its_last_day_unless_it_is_used() -> None:
    space = dug("")

    def kept(expires: str, stage: Stage = Stage.GRANTED, **rest: object) -> Item:
        details = reservation.ReservationDetails(
            stage=stage, expires=expires, held_for="A. Living Person", **rest
        )
        return new_item(reservation.KIND, details=details)

    one = kept("2031", grave=space.id, faculty="F 7/2001")
    plan = plan_of([space, one, kept("2020-05-01"), kept(""), kept("2030-01-01", Stage.USED)])
    found = [d for d in dues(plan, "2026-06-01") if d.sort == "reservations"]
    assert [(d.date, d.title) for d in found] == [
        ("2020-05-01", "A space: reservation ends"),
        ("2031-12-31", "Grave C 14: reservation ends"),
    ]
    assert [d.overdue("2026-06-01") for d in found] == [True, False]
    assert "F 7/2001" in found[1].says
    assert not any("Living" in d.title + d.says for d in found)
