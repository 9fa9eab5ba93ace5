"""By what somebody is known: name, telephone, e-mail, address; and never a surname alone."""

import pytest

from plan_editor.edits.person import Person, person_of
from plan_editor.kinds import owner_contact
from plan_editor.plan.item import new_item


def known(name: str = "", **rest: str) -> Person:
    told = owner_contact.OwnerContactDetails(name=name, **rest)
    return person_of(new_item(owner_contact.KIND, details=told))


@pytest.mark.parametrize(
    ("name", "text", "named"),
    [
        ("Mrs Jane T. Example", "for MRS. JANE EXAMPLE", True),
        ("Mrs Jane T. Example", "wrote to J. Example", True),
        ("Mrs Jane T. Example", "J T Example", True),
        ("Mrs Jane T. Example", "Example, Jane", True),
        ("Mrs Jane T. Example", "from Example, Mrs J.", True),
        ("Mrs Jane T. Example", "Jane and John Example", True),
        ("Mrs Jane T. Example", "Jane Mary Example's letter", True),
        ("Example, Jane", "rang Jane Example", True),
        ("Jane Mary Example", "Mary Example", True),
        ("Jane O'Xample-Smythe", "jane o’xample\u2010smythe", True),
        ("Mrs Jane T. Example", "Mrs Example", False),
        ("Mrs Jane T. Example", "John Example", False),
        ("Mrs Jane T. Example", "T. Example", False),
        ("Mrs Jane T. Example", "Example & Sons, masons", False),
        ("Mrs Jane T. Example", "Tom Example, Jane Other", False),
        ("Mrs Jane T. Example", "told Jane about Example", False),
        ("Mrs Jane T. Example", "Jane", False),
        ("Mrs Jane T. Example", "", False),
        ("Jan van der Example", "Piet van der Example", False),
        ("Mrs Example", "Mrs Example", False),
        ("", "anything at all", False),
    ],
)
def test_a_whole_name_is_a_surname_with_forename_or_initial(
    name: str, text: str, *, named: bool
) -> None:
    assert known(name).is_named_in(text) is named


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("Mrs Example rang", True),
        ("Jane Example rang", True),
        ("Example & Sons", False),
        ("Example", False),
        ("Mr Other", False),
    ],
)
def test_somebody_of_that_surname_who_is_addressed_may_be_meant(
    text: str, *, named: bool
) -> None:
    assert known("Mrs Jane Example").may_be_named_in(text) is named


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("rang 01632960001 twice", True),
        ("(01632) 960-001", True),
        ("+44 1632 960001", True),
        ("+44 (0)1632 960001", True),
        ("0044 1632 960 001", True),
        ("local 960001", True),
        ("01632 960002", False),
        ("on 2026-02-03", False),
    ],
)
def test_a_telephone_is_known_however_it_is_written(text: str, *, named: bool) -> None:
    # of the numbers that Ofcom keeps for drama
    assert known(telephone="01632 960 001").is_named_in(text) is named


def test_a_number_too_short_names_nobody() -> None:
    assert not known(telephone="12").is_named_in("the 12 apostles")
    assert not known(telephone="12-34").is_named_in("12-34")


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("write to JANE@example.org.", True),
        ("maryjane@example.org", False),
        ("jane at home", False),
    ],
)
def test_an_e_mail_is_known_whole(text: str, *, named: bool) -> None:
    assert known(email="jane@example.org").is_named_in(text) is named


@pytest.mark.parametrize(
    ("address", "text", "named"),
    [
        ("9 Pxlontree Lane\nHarrowmere\nHX1 2AB", "lives at 9, Pxlontree Lane", True),
        ("9 Pxlontree Lane\nHarrowmere\nHX1 2AB", "19 Pxlontree Lane", False),
        ("9 Pxlontree Lane\nHarrowmere\nHX1 2AB", "all of Pxlontree Lane", False),
        ("9 Pxlontree Lane\nHarrowmere\nHX1 2AB", "Harrowmere", False),
        ("9 Pxlontree Lane\nHarrowmere\nHX1 2AB", "HX1 2AB", False),
        ("9, Pxlontree Lane", "9 Pxlontree Lane", True),
        ("Flat 2, 9 Pxlontree Lane", "9 Pxlontree Lane", True),
        ("Flat 2, 9 Pxlontree Lane", "flat 2", False),
        ("Yew Cottage, Harrowmere", "Yew Cottage", True),
        ("Pxlontree Lane, Harrowmere", "Pxlontree Lane", False),
        ("", "", False),
    ],
)
def test_a_line_of_the_address_that_tells_a_house_is_known(
    address: str, text: str, *, named: bool
) -> None:
    assert known(address=address).is_named_in(text) is named
