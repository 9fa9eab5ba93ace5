"""What happened to one thing, in the order of its days; nobody living named unasked."""

from typing import Any

import shapely

from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    bin as bin_kind,
)
from plan_editor.kinds import (
    grave,
    inspection,
    memorial,
    owner_contact,
    paper,
    quote,
    request,
    reservation,
    tracing,
    tree,
    works,
)
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan
from plan_editor.records.chronology import chronology, concerned, photographs

STONE = new_item(
    memorial.KIND,
    Rectangle(east=2.0, north=1.5, width=0.8, length=0.3, bearing_deg=7.5),
    number="M 1",
)
OTHER = new_item(
    memorial.KIND, Rectangle(east=6.0, north=1.5, width=0.8, length=0.3), number="M 2"
)
JANE = new_item(
    owner_contact.KIND,
    details=owner_contact.OwnerContactDetails(
        name="Jane Example", memorial=STONE.id, written="2026-04-01"
    ),
)


def look(date: str, of: Item[Any] = STONE, **told: Any) -> Item[Any]:
    return new_item(
        inspection.KIND,
        details=inspection.InspectionDetails(target=of.id, date=date, **told),
    )


def held(of: Item[Any], **told: Any) -> Item[Any]:
    return new_item(paper.KIND, details=paper.PaperDetails(target=of.id, **told))


def plan_with(*items: Item[Any]) -> Plan:
    document = Document(Plan())
    document.apply(Add((STONE, OTHER, *items)))
    return document.plan


def test_days_stand_in_order_and_what_has_none_comes_last() -> None:
    plan = plan_with(
        look("2026-03-14"), look(""), look("2025"), look("2026-03-02"), look("2024", OTHER)
    )
    dates = [e.date for e in chronology(plan, STONE.id)]
    assert dates == ["2025", "2026-03-02", "2026-03-14", ""]


def test_every_day_of_a_record_is_told_and_its_words_once() -> None:
    one = look(
        "2026-03-14", result=inspection.Result.MINOR, force_n=250.0, next_due="2027-03-14"
    )
    told = [(e.date, e.what, e.words) for e in chronology(plan_with(one), STONE.id)]
    said = "Result: minor fault, look again; Force applied: 250 N; Next due: 2027-03-14"
    assert told == [("2026-03-14", "Inspection", said)]
    ordered = new_item(
        works.KIND,
        details=works.WorksDetails(target=STONE.id, leave_given="2026-04", done="2026-05"),
    )
    assert [(e.date, e.what) for e in chronology(plan_with(ordered), STONE.id)] == [
        ("2026-04", "Work"),
        ("2026-05", "Work: done"),
    ]


def test_a_day_that_was_only_planned_is_told_in_words_and_is_no_event() -> None:
    """A day that is set, wished or reckoned did not happen, and proves nothing."""
    space = new_item(
        grave.KIND, Rectangle(east=0.0, north=0.0, width=1.2, length=2.4), number="A 1"
    )
    records = (
        works.WorksDetails(target=space.id, what="level", due="2026-06-30"),
        reservation.ReservationDetails(
            grave=space.id, granted="2001-05-01", expires="2031-05-01"
        ),
        request.RequestDetails(grave=space.id, asked="2026-03-01", wished="2026-03-09"),
    )
    kinds = (works.KIND, reservation.KIND, request.KIND)
    items = [new_item(k, details=d) for k, d in zip(kinds, records, strict=True)]
    price = quote.QuoteDetails(works=items[0].id, date="2026-03-02", valid_until="2026-09-02")
    plan = plan_with(space, *items, new_item(quote.KIND, details=price))
    told = {(e.date, e.what): e.words for e in chronology(plan, space.id)}
    assert list(told) == [
        ("2001-05-01", "Reservation"),
        ("2026-03-01", "Burial request"),
        ("2026-03-02", "Quote"),
        ("", "Work"),
    ]
    assert "Expires: 2031-05-01" in told["2001-05-01", "Reservation"]
    assert "Day of the burial: 2026-03-09" in told["2026-03-01", "Burial request"]
    assert "Holds until: 2026-09-02" in told["2026-03-02", "Quote"]
    assert "Due: 2026-06-30" in told["", "Work"]


def test_papers_of_an_inspection_and_quotes_for_works_belong_to_the_stone() -> None:
    seen, work = look("2026-03-14"), new_item(works.KIND, details=_work())
    price = new_item(quote.KIND, details=quote.QuoteDetails(works=work.id, accepted=True))
    photo = held(seen, digest="a" * 64, content_type="image/jpeg", date="2026-03-14")
    plan = plan_with(seen, work, price, photo)
    assert {i.id for i in concerned(plan, STONE.id)} == {
        STONE.id,
        seen.id,
        work.id,
        price.id,
        photo.id,
    }
    assert photographs(plan, STONE.id) == ("a" * 64,)


def _work() -> works.WorksDetails:
    return works.WorksDetails(target=STONE.id, what="lay flat")


def test_living_people_are_left_out_unless_asked_for() -> None:
    step = new_item(
        tracing.KIND,
        details=tracing.TracingDetails(
            target=STONE.id, date="2026-04-02", contact=JANE.id, says="Dear Jane Example"
        ),
    )
    letter = held(STONE, says="from Jane Example", personal=True, date="2026-04-05")
    plan = plan_with(JANE, step, letter)
    hidden = chronology(plan, STONE.id)
    assert [e.date for e in hidden] == ["2026-04-02"]
    assert "Example" not in repr(hidden)
    asked = chronology(plan, STONE.id, contacts=True)
    assert [e.date for e in asked] == ["2026-04-01", "2026-04-02", "2026-04-05"]
    assert "To or from: Owner Jane Example" in asked[1].words


def test_what_somebody_answers_for_elsewhere_is_another_matter() -> None:
    kept = new_item(reservation.KIND, details=reservation.ReservationDetails(contact=JANE.id))
    theirs = held(JANE, date="2026-01-01")
    plan = plan_with(JANE, kept, theirs)
    ids = {i.id for i in concerned(plan, STONE.id, contacts=True)}
    assert ids == {STONE.id, JANE.id, theirs.id}


def test_numbers_and_answers_are_spelled_as_people_read_them() -> None:
    yew = new_item(
        tree.KIND, shapely.Point(9.0, 9.0), details=tree.TreeDetails(stems_mm=(300.0, 250.0))
    )
    work = new_item(works.KIND, details=works.WorksDetails(target=yew.id))
    price = new_item(quote.KIND, details=quote.QuoteDetails(works=work.id, accepted=True))
    here = held(yew, place=(1.5, 2.25), date="2026", personal=True)
    told = [e.words for e in chronology(plan_with(yew, work, price, here), yew.id)]
    assert any(words.endswith("Accepted: yes") for words in told)
    assert any("300, 250 mm" in words for words in told)
    assert "1.5" not in "".join(told)  # the camera's place is not told


def test_a_thing_of_which_nothing_is_recorded_has_no_days() -> None:
    box = new_item(bin_kind.KIND, shapely.Point(1.0, 1.0))
    assert chronology(plan_with(box), box.id) == ()
