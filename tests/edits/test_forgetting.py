"""What is left of a thing once somebody is forgotten, and what of others stays."""

from dataclasses import replace
from typing import Any

import pytest

from plan_editor.edits.basic import Add
from plan_editor.edits.forgetting import (
    ForgetPerson,
    is_concerned,
    left_of,
    naming_words,
    papers_of,
    papers_of_theirs,
    still_naming,
)
from plan_editor.edits.person import Person, person_of
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import (
    application,
    burial,
    inspection,
    memorial,
    owner_contact,
    paper,
    reservation,
)
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Item, new_item
from plan_editor.plan.plan import Plan

STONE = new_item(
    memorial.KIND,
    Rectangle(east=2.0, north=1.5, width=0.8, length=0.3, bearing_deg=7.5),
    number="M 1",
)
JANE = new_item(
    owner_contact.KIND,
    details=owner_contact.OwnerContactDetails(
        name="Mrs Jane T. Example", telephone="01632 960 001"
    ),
)
"""The number is one of those that Ofcom keeps for drama."""

PERSON = person_of(JANE)


def asking(mason: str, of: Item[Any] | None = JANE) -> Item[Any]:
    told = application.ApplicationDetails(
        applicant="J. Example", mason=mason, contact=None if of is None else of.id
    )
    return new_item(application.KIND, details=told)


def held(*items: Item[Any]) -> Document:
    document = Document(Plan())
    document.apply(Add((STONE, JANE, *items)))
    return document


def test_private_words_and_the_reference_go_and_the_mason_stays() -> None:
    asked = asking("Harrow Masonry")
    document = held(asked)
    document.apply(ForgetPerson(PERSON))
    left = document.plan.items[asked.id].details
    assert (left.applicant, left.contact, left.mason) == ("", None, "Harrow Masonry")
    assert set(document.plan.items) == {STONE.id, asked.id}
    assert document.undo_title == "Forget somebody"


def test_a_mason_who_is_the_person_goes() -> None:
    left = left_of(asking("Jane Example, mason"), PERSON).details
    assert left.mason == ""


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("for MRS. JANE EXAMPLE", True),
        ("for Jane Example", True),
        ("rang 01632960001 twice", True),
        ("for Jane", False),
        ("John Example", False),
        ("", False),
    ],
)
def test_somebody_is_named_by_the_whole_name_or_the_number(text: str, *, named: bool) -> None:
    assert PERSON.is_named_in(text) is named


def test_nobody_is_named_where_no_name_is_known() -> None:
    unnamed = new_item(owner_contact.KIND)
    assert not person_of(unnamed).is_named_in("anything at all")
    short = replace(unnamed, details=replace(unnamed.details, telephone="12"))
    assert not person_of(short).is_named_in("the 12 apostles")


def test_what_pointed_to_the_person_once_is_emptied_only_where_it_names_the_person() -> None:
    kept = new_item(
        reservation.KIND,
        details=reservation.ReservationDetails(held_for="Mrs Jane Example", faculty="F 3"),
    )
    others = new_item(
        reservation.KIND, details=reservation.ReservationDetails(held_for="somebody else")
    )
    once = replace(PERSON, once=frozenset((kept.id, others.id)))
    assert not is_concerned(kept, PERSON)
    assert is_concerned(kept, once)
    assert not is_concerned(others, once)
    document = held(kept, others)
    document.apply(ForgetPerson(once))
    assert document.plan.items[kept.id].details.held_for == ""
    assert document.plan.items[others.id] == others


def test_papers_go_that_are_the_contacts_or_personal_and_of_what_points_to_it() -> None:
    asked = asking("")

    def of(target: Item[Any], *, personal: bool) -> Item[Any]:
        told = paper.PaperDetails(target=target.id, personal=personal)
        return new_item(paper.KIND, details=told)

    gone = (of(JANE, personal=False), of(asked, personal=True))
    stay = (of(asked, personal=False), of(STONE, personal=True))
    document = held(asked, *gone, *stay)
    assert papers_of(document.plan, PERSON) == {p.id for p in gone}
    document.apply(ForgetPerson(PERSON))
    assert set(document.plan.items) == {STONE.id, asked.id, *(p.id for p in stay)}


def test_what_may_still_name_the_person_is_found() -> None:
    told = replace(STONE.details, inscription="given by Mrs Jane Example")
    stone = replace(STONE, id=new_item(memorial.KIND, STONE.rectangle).id, number="M 2")
    document = held(replace(stone, details=told))
    document.apply(ForgetPerson(PERSON))
    assert [i.number for i in still_naming(document.plan, PERSON)] == ["M 2"]


BARE = new_item(
    owner_contact.KIND,
    details=owner_contact.OwnerContactDetails(name="Mrs Example", memorial=STONE.id),
)


def test_a_surname_alone_empties_nothing_of_others() -> None:
    asked = replace(asking("Example & Sons, masons"), id=new_item(application.KIND).id)
    told = replace(asked.details, contact=BARE.id)
    of_firm = replace(asked, details=told)
    once_theirs = new_item(
        reservation.KIND, details=reservation.ReservationDetails(held_for="Tom Example")
    )
    document = held(BARE, of_firm, once_theirs)
    document.apply(ForgetPerson(person_of(BARE, (once_theirs.id,))))
    assert document.plan.items[of_firm.id].details.mason == "Example & Sons, masons"
    assert document.plan.items[once_theirs.id] == once_theirs


def test_the_dead_are_not_told_for_a_surname_alone_but_others_are() -> None:
    dead = new_item(burial.KIND, details=burial.BurialDetails(remarks="widow of Mr Example"))
    carved = replace(STONE.details, inscription="Mrs Example, aged 93", remarks="Mrs Example")
    stone = replace(STONE, id=new_item(memorial.KIND, STONE.rectangle).id, number="M 2")
    looked = new_item(
        inspection.KIND,
        details=inspection.InspectionDetails(target=STONE.id, inspector="Jane Example"),
    )
    taped = replace(looked, id=new_item(inspection.KIND).id, number="Jane Example 1")
    taped = replace(taped, basis=Basis(source="book of J. Example"), details=STEP)
    document = held(replace(stone, details=carved), dead, looked, taped)
    found = {i.id: naming_words(i, PERSON) for i in still_naming(document.plan, PERSON)}
    assert found == {
        stone.id: ("Remarks",),
        looked.id: ("Inspected by",),
        taped.id: ("Number", "Source"),
    }


STEP = inspection.InspectionDetails(target=STONE.id)


def test_what_was_corrected_since_is_emptied_as_it_was_but_not_words_of_the_dead() -> None:
    told = inspection.InspectionDetails(inspector="Jane Example", action="none wanted")
    looked = new_item(inspection.KIND, details=told)
    carved = replace(STONE.details, inscription="Jane Example", remarks="by Jane Example")
    stone = replace(STONE, details=carved)
    person = replace(PERSON, corrected=frozenset((looked.id, stone.id)))
    assert not is_concerned(looked, PERSON)
    left = left_of(looked, person).details
    assert (left.inspector, left.action) == ("", "none wanted")
    left = left_of(stone, person).details
    assert (left.inscription, left.remarks) == ("Jane Example", "")


def test_what_is_emptied_is_not_told() -> None:
    document = held(asking("Jane Example, mason"))
    assert still_naming(document.plan, PERSON) == ()


def test_personal_papers_of_the_stone_and_shared_bytes_are_to_be_looked_at() -> None:
    owner = replace(JANE, details=replace(JANE.details, memorial=STONE.id))

    def of(target: Item[Any], *, personal: bool, digest: str = "") -> Item[Any]:
        told = paper.PaperDetails(target=target.id, personal=personal, digest=digest)
        return new_item(paper.KIND, details=told)

    theirs = of(owner, personal=True, digest="d" * 64)
    of_stone = of(STONE, personal=True)
    shared = of(STONE, personal=False, digest="d" * 64)
    document = Document(Plan())
    document.apply(Add((STONE, owner, theirs, of_stone, shared, of(STONE, personal=False))))
    found = papers_of_theirs(document.plan, PERSON)
    assert {p.id for p in found} == {of_stone.id, shared.id}
    document.apply(ForgetPerson(PERSON))
    assert {of_stone.id, shared.id} <= set(document.plan.items)
    assert papers_of_theirs(document.plan, PERSON) == ()


def test_only_a_contact_is_forgotten_and_who_is_gone_changes_nothing() -> None:
    document = held()
    with pytest.raises(EditRefused, match="M 1 is no owner"):
        document.apply(ForgetPerson(Person(id=STONE.id)))
    assert document.apply(ForgetPerson(Person(id=new_item(owner_contact.KIND).id))) is None
