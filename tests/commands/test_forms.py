"""Fields as text and back, for every declared kind."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import one_of_each

from plan_editor.commands.entries import entries_of
from plan_editor.commands.forms import read, read_date, shown, shown_on
from plan_editor.errors import CannotUse
from plan_editor.plan.detail import Detail, Value
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.kind import Kind, kind_named, kinds
from plan_editor.plan.plan import Plan, plan_of

NOTHING = Document(Plan())


def _kind(name: str) -> Kind:
    found = kind_named(name)
    assert found is not None
    return found


def _detail(kind: str, name: str) -> Detail:
    return next(d for d in _kind(kind).entries() if d.name == name)


@pytest.mark.parametrize("kind", kinds(), ids=lambda k: k.name)
def test_what_a_form_shows_of_a_usual_value_is_read_as_that_value(kind: Kind) -> None:
    for entry in entries_of(kind):
        detail = entry.detail
        if detail.value is Value.ITEM:
            continue
        value = entry.value(new_item(kind))
        assert read(detail, shown(detail, value, NOTHING), NOTHING) == value


@given(number=st.floats(0.2, 20.0))
def test_a_number_is_read_with_its_unit_and_with_a_comma(number: float) -> None:
    width = _detail("path", "width_m")
    text = f"{number:.3f}"
    wanted = pytest.approx(number, abs=0.0005)
    assert read(width, text, NOTHING) == wanted
    assert read(width, text.replace(".", ",") + " m", NOTHING) == wanted


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0.1", "“Width” is at least 0.2 m."),
        ("21", "“Width” is at most 20 m."),
        ("wide", "“Width” wants a number in m, such as 1.25."),
    ],
)
def test_a_number_that_will_not_do_is_said_with_what_would(typed: str, said: str) -> None:
    with pytest.raises(CannotUse) as error:
        read(_detail("path", "width_m"), typed, NOTHING)
    assert str(error.value) == said


def test_half_a_coffin_is_refused_and_more_than_can_be_counted() -> None:
    with pytest.raises(CannotUse, match="wants a number"):
        read(_detail("grave", "coffins"), "9" * 400, NOTHING)
    with pytest.raises(CannotUse, match="whole number"):
        read(_detail("grave", "coffins"), "1.5", NOTHING)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("2026", "2026"),
        ("2026-7", "2026-07"),
        ("2026-07-04", "2026-07-04"),
        ("4/7/2026", "2026-07-04"),  # day first, as it is written in Britain
        ("29.2.2024", "2024-02-29"),
    ],
)
def test_dates_are_kept_as_iso_8601_writes_them(typed: str, kept: str) -> None:
    assert read_date(typed) == kept


@pytest.mark.parametrize("typed", ["2026-13", "29/2/2026", "last May", "26"])
def test_what_is_no_date_is_said(typed: str) -> None:
    with pytest.raises(CannotUse, match="2026-07-14"):
        read_date(typed)


def test_a_reference_is_found_by_number_or_by_what_it_is_called() -> None:
    grave = new_item(_kind("grave"), number="C 14")
    other = new_item(_kind("tree"), number="C 15")
    document = Document(plan_of([grave, other]))
    where = _detail("burial", "grave")
    for typed in ("c14", "C 14", "grave c 14"):
        assert read(where, typed, document) == grave.id
    assert read(where, "", document) is None
    assert shown(where, grave.id, document) == "Grave C 14"
    with pytest.raises(CannotUse, match="C 15"):
        read(where, "C 15", document)


def test_every_field_of_one_item_of_each_kind_can_be_shown_and_given_again() -> None:
    document = Document(one_of_each())
    plan = document.plan
    for item in plan.items.values():
        for entry in entries_of(item.kind):
            value = entry.value(item)
            text = shown(entry.detail, value, document)
            assert bool(text) or not value
            edit = entry.give(plan, (item.id,), value)
            assert all(c.before == c.after for c in edit.changes(plan))


def test_a_form_names_the_people_to_choose_from_and_what_is_printed_does_not() -> None:
    contact = _detail("application", "contact")
    details = _kind("owner_contact").details
    people = [
        new_item(_kind("owner_contact"), details=details(name=f"{name} Example"))
        for name in ("Ann", "Ben")
    ]
    document = Document(plan_of(people))
    for person, name in zip(people, ("Ann", "Ben"), strict=True):
        assert shown(contact, person.id, document) == f"Owner {name} Example"
        assert read(contact, f"owner {name} example", document) == person.id
        assert shown_on(contact, person.id, document.plan) == "Owner"
