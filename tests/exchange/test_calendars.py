"""The calendar, read back by the library icalendar, and line by line as RFC 5545 has it."""

from dataclasses import replace

import shapely
from hypothesis import example, given
from hypothesis import strategies as st
from icalendar import Calendar

from plan_editor.exchange.calendars import MOST_A_DAY, calendar, events
from plan_editor.kinds import (
    grass,
    inspection,
    memorial,
    owner_contact,
    request,
    reservation,
    tracing,
)
from plan_editor.kinds.grass import GrassDetails
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.request import RequestDetails
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.plan.item import ItemId, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.due import Due

ON = "2026-11-25"


def due(title: str = "Inspect memorial C 14", date: str = "2026-12-01", says: str = "", **rest):
    told = {"sort": "inspections", "key": "a" * 32, **rest}
    return Due(date=date, title=title, says=says, **told)


def read(content: bytes) -> list:
    return list(Calendar.from_ical(content).walk("VEVENT"))


def test_an_event_lasts_all_day_and_is_stamped_with_the_day_of_the_plan():
    one = due(says="Never looked at.", item=ItemId("a" * 32))
    content = calendar("St Elfric, Harrowmere", [one], ON)
    (event,) = read(content)
    assert event["DTSTART"].dt.isoformat() == "2026-12-01"
    assert event["DTEND"].dt.isoformat() == "2026-12-02"
    assert event["DTSTAMP"].dt.isoformat() == "2026-11-25T00:00:00+00:00"
    assert (event["SUMMARY"], event["DESCRIPTION"]) == (one.title, one.says)
    assert b"DTSTART;VALUE=DATE:20261201\r\n" in content
    assert b"NAME:St Elfric\\, Harrowmere\r\n" in content
    assert str(Calendar.from_ical(content)["VERSION"]) == "2.0"


# no control characters: a calendar has no way to write them
TEXTS = st.text(
    st.characters(exclude_categories=("Cs", "Cc")) | st.sampled_from("\n,;\\:äé漢🌳"),
    max_size=300,
)


@given(TEXTS, TEXTS)
@example("a,b;c\\d", "first\nsecond \\n not a line")
@example("ß" * 200, "🌳" * 90)
def test_any_text_comes_back_and_no_line_is_longer_than_75_octets(title, says):
    content = calendar("x", [due(title, says=says)], ON)
    (event,) = read(content)
    assert str(event["SUMMARY"]) == title
    assert str(event.get("DESCRIPTION", "")) == says
    # source: RFC 5545, section 3.1: lines end in CRLF and have 75 octets at most without it
    assert content.endswith(b"\r\n")
    for line in content.removesuffix(b"\r\n").split(b"\r\n"):
        assert len(line) <= 75
        assert b"\n" not in line
        line.decode()


def test_control_characters_become_blanks():
    (event,) = read(calendar("x", [due("a\x00b\x1bc\r\nd")], ON))
    assert str(event["SUMMARY"]) == "a b c\nd"


def test_an_event_keeps_its_identity_when_its_day_moves_and_no_two_share_one():
    first, moved = (
        read(calendar("x", [due(date=d), due("Other", key="b")], ON))
        for d in ("2026-12-01", "2027-01-01")
    )
    assert [e["UID"] for e in first] == [e["UID"] for e in moved]
    alike = [due(), due(key="b"), due(sort="works")]
    assert len({e["UID"] for e in read(calendar("x", alike, ON))}) == 3


def uids(plan, on: str = ON) -> dict[str, str]:
    """Return the day of each event by its identity."""
    found = read(calendar("x", events(plan, on), on))
    told = {str(e["UID"]): e["DTSTART"].dt.isoformat() for e in found}
    assert len(told) == len(found)
    return told


def test_two_alike_never_swap_when_one_of_them_moves_past_the_other():
    """Source: RFC 5545, section 3.8.4.7: the UID is what an event is known by."""
    one, other = asked_for("Tarn", "2026-12-01"), asked_for("Beck", "2026-12-02")
    before = uids(plan_of([one, other]))
    later = replace(one, details=replace(one.details, wished="2026-12-09"))
    after = uids(plan_of([later, other]))
    moved = {uid: (day, after[uid]) for uid, day in before.items()}
    assert sorted(moved.values()) == [
        ("2026-12-01", "2026-12-09"),
        ("2026-12-02", "2026-12-02"),
    ]


def test_two_letters_of_one_stone_are_told_apart_by_their_steps():
    stone = new_item(memorial.KIND, number="C 14")
    told = inspection.InspectionDetails(
        target=stone.id, date="2026-11-01", result=inspection.Result.IMMEDIATE
    )
    steps = [
        new_item(
            tracing.KIND,
            details=tracing.TracingDetails(
                target=stone.id, date=d, step=tracing.Step.LETTER, days=28
            ),
        )
        for d in ("2026-11-10", "2026-11-12")
    ]
    failed = new_item(inspection.KIND, details=told)
    first = uids(plan_of([stone, failed, *steps]))
    longer = replace(steps[0], details=replace(steps[0].details, days=40))
    second = uids(plan_of([stone, failed, longer, steps[1]]))
    assert first.keys() == second.keys()
    assert sorted((d, second[u]) for u, d in first.items() if d != second[u]) == [
        ("2026-12-08", "2026-12-20")
    ]


def test_an_event_that_tells_many_is_known_by_its_sort_and_day_whatever_it_counts():
    many = [asked_for(f"N{n:02}") for n in range(9)]
    assert uids(plan_of(many)).keys() == uids(plan_of(many[1:])).keys()
    # what has no day stands on the day in question, and moves with it
    stones = [new_item(memorial.KIND, number=f"C {n}") for n in range(9)]
    one, next_ = (uids(plan_of(stones), on) for on in (ON, "2026-11-26"))
    assert one.keys() == next_.keys()
    assert set(next_.values()) == {"2026-11-26"}


def test_what_has_no_day_and_what_is_of_the_day_itself_are_two_events():
    stones = [new_item(memorial.KIND, number=f"C {n}") for n in range(18)]
    looks = [
        new_item(
            inspection.KIND,
            details=inspection.InspectionDetails(
                target=s.id, date="2021-11-25", result=inspection.Result.SOUND, next_due=ON
            ),
        )
        for s in stones[:9]
    ]
    assert list(uids(plan_of([*stones, *looks])).values()) == [ON, ON]


def test_the_same_events_make_the_same_bytes():
    assert calendar("x", [due()], ON) == calendar("x", [due()], ON)


def test_a_date_that_stops_early_stands_on_its_first_day_and_the_last_of_all_has_no_end():
    parts = [due(key=str(n), date=d) for n, d in enumerate(("2027", "2027-03", "9999-12-31"))]
    found = read(calendar("", parts, ON))
    assert [e["DTSTART"].dt.isoformat() for e in found] == [
        "2027-01-01",
        "2027-03-01",
        "9999-12-31",
    ]
    assert "DTEND" not in found[2]


def grass_until(day: str, name: str = ""):
    return new_item(
        grass.KIND, shapely.box(0, 0, 1, 1), details=GrassDetails(uncut_until=day, name=name)
    )


def asked_for(surname: str, day: str = "2026-11-20"):
    return new_item(request.KIND, details=RequestDetails(surname=surname, wished=day))


def test_what_is_overdue_stays_and_days_to_know_of_that_are_past_go():
    plan = plan_of(
        [grass_until("2026-07-15"), grass_until("2027-07-15", "Bank"), asked_for("Tarn")]
    )
    assert [e.date for e in events(plan, ON)] == ["2026-11-20", "2027-07-15"]


def test_many_of_one_sort_on_one_day_are_one_event_that_lists_them():
    few = [asked_for(f"N{n:02}") for n in range(MOST_A_DAY)]
    assert len(events(plan_of(few), ON)) == MOST_A_DAY
    (one,) = events(plan_of([asked_for(f"N{n:02}") for n in range(45)]), ON)
    assert one.title == "Burials: 45 together"
    assert one.says.splitlines()[0] == "Burial, no space chosen yet"
    assert one.says.splitlines()[-1] == "and 5 more"


def test_nobody_living_is_named():
    owner = new_item(owner_contact.KIND, details=OwnerContactDetails(name="Wren Sallow"))
    kept = ReservationDetails(
        held_for="Ivy Sallow", contact=owner.id, stage=Stage.GRANTED, expires="2027-01-31"
    )
    wished = RequestDetails(
        surname="Sallow",
        wished="2026-12-01",
        applicant="Ash Sallow",
        contact=owner.id,
        director="Sallow and Son",
    )
    plan = plan_of(
        [
            owner,
            new_item(reservation.KIND, details=kept),
            new_item(request.KIND, details=wished),
        ]
    )
    found = events(plan, ON)
    assert len(found) == 2
    assert b"Sallow" not in calendar("x", found, ON)
