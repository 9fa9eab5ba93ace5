"""Whether a value is one that a detail may hold."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import dates, kind_of, texts, values_of

from plan_editor.plan.kind import kinds
from plan_editor.plan.plan import Plan
from plan_editor.plan.values import fault_of_value, is_date, is_number, is_text

DETAILS = {
    f"{kind.name}.{detail.name}": detail for kind in kinds() for detail in kind.entries()
}


@given(st.data())
def test_what_the_declaration_allows_is_allowed(data: st.DataObject) -> None:
    detail = data.draw(st.sampled_from(list(DETAILS.values())))
    assert fault_of_value(detail, data.draw(values_of(detail, Plan()))) == ""


@pytest.mark.parametrize(
    ("detail", "value", "said"),
    [
        ("wall.height_m", -0.1, "has “Height” -0.1 m; the least is 0 m"),
        ("wall.height_m", 20.5, "has “Height” 20.5 m; the most is 20 m"),
        ("wall.height_m", "2", "has “Height” “2”; wanted is a number"),
        ("wall.height_m", math.nan, "has “Height” “nan”; wanted is a number"),
        ("wall.height_m", True, "has “Height” “True”; wanted is a number"),
        ("grave.coffins", 2.0, "has “Depth for coffins” “2.0”; wanted is a whole number"),
        ("grave.coffins", 2**63, "; wanted is a whole number"),
        ("grave.coffins", True, "; wanted is a whole number"),
        ("grave.coffins", 5, "has “Depth for coffins” 5; the most is 4"),
        ("grave.state", "lost", "has “State” “lost”; wanted is one of its choices"),
        ("grave.state", None, "has “State” empty; wanted is one of its choices"),
        ("grave.dug", "Easter 1911", "; wanted is a date such as 1911-04-16, 1911-04 or 1911"),
        ("grave.remarks", None, "has “Remarks” empty; wanted is a text"),
        ("memorial.material", "slate\0", "; wanted is a text"),
        ("memorial.material", "\ud800", "; wanted is a text"),
        ("memorial.war_grave", 1, "has “War grave” “1”; wanted is yes or no"),
        ("burial.grave", "", "has “Lies in” empty; wanted is something on the plan"),
        ("burial.grave", 7, "has “Lies in” “7”; wanted is something on the plan"),
        ("tree.stems_mm", [300.0], "; wanted is numbers"),
        ("tree.stems_mm", (300.0, math.inf), "; wanted is numbers"),
        ("tree.stems_mm", (300.0, 5.0), "has “Stem diameters” 5 mm; the least is 10 mm"),
        ("base_plan.fit", (1.0,) * 5, "has 5 numbers as “Fit”; they come 6 at a time"),
        ("base_plan.fit", (1.0,) * 12, "has 12 numbers as “Fit”; the most is 6"),
    ],
)
def test_what_it_may_not_hold_is_said_in_words(detail: str, value: Any, said: str) -> None:
    assert fault_of_value(DETAILS[detail], value).endswith(said)


@pytest.mark.parametrize("detail", ["wall.height_m", "burial.grave", "grave.coffins"])
def test_what_is_not_recorded_is_no_fault(detail: str) -> None:
    assert fault_of_value(DETAILS[detail], None) == ""


@given(dates)
def test_a_day_a_month_and_a_year_are_dates(date: str) -> None:
    assert is_date(date)


@pytest.mark.parametrize(
    "date",
    [
        "1911-4-16",
        "1911-13",
        "1911-02-29",
        "191",
        "0000",
        "16.04.1911",
        "1911-04-16T12:00",
        1911,
    ],
)
def test_what_is_no_date_of_iso_8601_is_none(date: Any) -> None:
    assert not is_date(date)


@given(texts)
def test_a_text_is_a_text(text: str) -> None:
    assert is_text(text)
    assert not is_number(text)


def test_every_kind_of_value_is_met_among_the_declared() -> None:
    assert kind_of("grave").entries()
    assert len({detail.value for detail in DETAILS.values()}) == 9
