"""The calendar, read back by the library icalendar, and line by line as RFC 5545 has it."""

import shapely
from hypothesis import example, given
from hypothesis import strategies as st
from icalendar import Calendar

from plan_editor.exchange.calendars import MOST_A_DAY, calendar, events
from plan_editor.kinds import grass, owner_contact, request, reservation
from plan_editor.kinds.grass import GrassDetails
from plan_editor.kinds.owner_contact import OwnerContactDetails
from plan_editor.kinds.request import RequestDetails
from plan_editor.kinds.reservation import ReservationDetails, Stage
from plan_editor.plan.item import ItemId, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.due import Due

ON = "2026-11-25"


def due(title: str = "Inspect memorial C 14", date: str = "2026-12-01", says: str = "", **rest):
    return Due(sort="inspections", date=date, title=title, says=says, **rest)


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
    item = ItemId("a" * 32)
    first, moved = (
        read(calendar("x", [due(date=d, item=item), due("Other", item=item)], ON))
        for d in ("2026-12-01", "2027-01-01")
    )
    assert [e["UID"] for e in first] == [e["UID"] for e in moved]
    alike = read(calendar("x", [due(), due(), due(date="2027-01-01")], ON))
    assert len({e["UID"] for e in alike}) == 3


def test_the_same_events_make_the_same_bytes():
    assert calendar("x", [due()], ON) == calendar("x", [due()], ON)


def test_a_date_that_stops_early_stands_on_its_first_day_and_the_last_of_all_has_no_end():
    parts = [due(str(n), date=d) for n, d in enumerate(("2027", "2027-03", "9999-12-31"))]
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
    assert one.says.splitlines()[0] == "Burial request N00"
    assert one.says.splitlines()[-1] == "and 5 more"


def test_nobody_living_is_named():
    owner = new_item(owner_contact.KIND, details=OwnerContactDetails(name="Wren Sallow"))
    kept = ReservationDetails(
        held_for="Ivy Sallow", contact=owner.id, stage=Stage.GRANTED, expires="2027-01-31"
    )
    wished = RequestDetails(
        surname="Tarn",
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
