"""What must be true of every plan."""

from dataclasses import replace
from typing import Any

import pytest
import shapely
from shapely import LineString, MultiPoint, Point, Polygon, box
from strategies import kind_of, one_of_each, plain

from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.change import Change
from plan_editor.plan.checks import checked, fault_of, pointing_at, references
from plan_editor.plan.index import Index
from plan_editor.plan.item import Basis, Item, ItemId
from plan_editor.plan.plan import Plan, plan_of

GRAVE, NOTE, PATH, BURIAL = (kind_of(n) for n in ("grave", "note", "path", "burial"))
C14 = replace(plain(GRAVE, 1), number="C 14")
LOST = ItemId("f" * 32)


def refusal(plan: Plan, *changes: Change) -> str:
    with pytest.raises(EditRefused) as caught:
        checked(plan, changes, Index(plan).numbered)
    assert "Nothing was changed." in str(caught.value)
    return str(caught.value)


def test_what_is_true_passes_unchanged() -> None:
    plan = one_of_each()
    changes = tuple(Change(i, replace(i, number=f"n {i.id}")) for i in plan.items.values())
    assert checked(plan, changes, Index(plan).numbered) is changes


def test_one_thing_is_not_changed_twice() -> None:
    plan = plan_of([C14])
    twice = (Change(C14, replace(C14, number="1")), Change(C14, None))
    assert refusal(plan, *twice).startswith("One thing would be changed twice")


def test_what_was_changed_meanwhile_is_left_alone() -> None:
    plan = plan_of([replace(C14, number="C 15")])
    said = "Grave C 15 is no longer what it was. Nothing was changed."
    assert refusal(plan, Change(C14, None)).startswith(said)
    assert refusal(plan, Change(None, C14)).startswith(said)
    assert refusal(plan_of([]), Change(C14, None)).startswith("Grave C 14 is no longer")


def test_nothing_becomes_another_kind_or_another_thing() -> None:
    note = replace(plain(NOTE), id=C14.id)
    plan = plan_of([C14])
    assert refusal(plan, Change(C14, note)).startswith("Grave C 14 cannot become a note.")
    swapped = Change(plain(GRAVE, 3), plain(GRAVE, 4))
    assert refusal(plan_of([plain(GRAVE, 4)]), swapped).startswith("Grave is no longer")


@pytest.mark.parametrize(
    ("item", "fault"),
    [
        (replace(plain(PATH), shape=Point(0, 0)), "cannot have a shape of that form"),
        (replace(plain(NOTE), shape=MultiPoint([(0, 0)])), "cannot have a shape of that form"),
        (replace(plain(NOTE), shape=None), "needs a place on the plan"),
        (replace(plain(GRAVE), shape=None), "needs a place on the plan"),
        (replace(plain(BURIAL), shape=Point(0, 0)), "cannot have a shape of that form"),
        (
            replace(plain(PATH), shape=Polygon([(0, 0), (1, 1), (1, 0), (0, 1)])),
            "has an outline that crosses itself",
        ),
        (
            replace(plain(PATH), shape=LineString([(0, 0), (200_000, 0)])),
            "lies more than 100 km from the plan's origin",
        ),
        (replace(plain(NOTE), number="\0"), "has a number or a source that is not a text"),
        (
            replace(plain(NOTE), basis=Basis(date="last week")),
            "was measured on “last week”, which is no date",
        ),
        (
            replace(plain(NOTE), basis=Basis(sd_m=-0.1)),
            "has a standard deviation that is not a length",
        ),
        (
            replace(plain(NOTE), details=NOTE.details(height_mm=0.5)),
            "has “Height of capitals” 0.5 mm; the least is 1 mm",
        ),
    ],
)
def test_what_is_wrong_with_an_item_is_said(item: Item[Any], fault: str) -> None:
    assert fault_of(item) == fault
    said = f"{item.called()} {fault}. Nothing was changed."
    assert refusal(plan_of([]), Change(None, item)) == said


def test_a_corner_that_is_nowhere_is_refused() -> None:
    nowhere = shapely.from_wkt("POINT (nan 0)")
    assert fault_of(replace(plain(NOTE), shape=nowhere)) != ""


def test_an_outline_that_is_no_rectangle_may_be_a_grave() -> None:
    assert fault_of(C14.at(box(0, 0, 2, 3))) == ""
    assert fault_of(C14.at(Polygon([(0, 0), (2, 0), (1, 3)]))) == ""


def test_an_outline_is_that_of_its_rectangle() -> None:
    other = Rectangle(east=50.0, north=0.0, width=1.0, length=2.0)
    said = refusal(plan_of([]), Change(None, replace(C14, rectangle=other)))
    assert said.startswith("Grave C 14 has an outline that is not that of its rectangle.")


def test_a_number_is_borne_once_however_it_is_written() -> None:
    again = replace(plain(GRAVE, 2), number="c14")
    said = "There is already a grave numbered c14. Nothing was changed."
    assert refusal(plan_of([C14]), Change(None, again)) == said
    assert refusal(plan_of([]), Change(None, C14), Change(None, again)) == said


def test_two_numbers_may_be_exchanged_in_one_step() -> None:
    c15 = replace(plain(GRAVE, 2), number="C 15")
    plan = plan_of([C14, c15])
    swapped = (
        Change(C14, replace(C14, number="C 15")),
        Change(c15, replace(c15, number="C 14")),
    )
    assert checked(plan, swapped, Index(plan).numbered) is swapped


def test_things_of_other_kinds_may_bear_the_same_number() -> None:
    plan = plan_of([C14, replace(plain(NOTE, 2), number="7")])
    ashes = replace(plain(kind_of("ashes_plot"), 3), number="C 14")
    note = replace(plain(NOTE, 4), number="7")
    changes = (Change(None, ashes), Change(None, note), Change(None, plain(GRAVE, 5)))
    assert checked(plan, changes, Index(plan).numbered) is changes


def test_a_reference_points_at_something_that_it_may_point_at() -> None:
    lies = replace(plain(BURIAL, 5), details=BURIAL.details(surname="Wren", grave=LOST))
    said = "Burial Wren would point to something that is not on the plan as “Lies in”."
    assert refusal(plan_of([]), Change(None, lies)).startswith(said)
    note = replace(plain(NOTE), id=LOST)
    said = "Burial Wren would point to Note as “Lies in”."
    assert refusal(plan_of([note]), Change(None, lies)).startswith(said)
    gone = (Change(None, lies), Change(note, None))
    assert refusal(plan_of([note]), *gone).startswith("Burial Wren would point to something")


def test_what_is_pointed_at_does_not_go_alone() -> None:
    lies = replace(plain(BURIAL, 5), details=BURIAL.details(surname="Wren", grave=C14.id))
    plan = plan_of([C14, lies, plain(NOTE, 7)])
    said = "Burial Wren still points to Grave C 14 as “Lies in”. Nothing was changed."
    assert refusal(plan, Change(C14, None)).startswith(said)
    both = (Change(C14, None), Change(lies, None))
    assert checked(plan, both, Index(plan).numbered) is both


def test_references_are_those_of_details_and_of_the_base_plan() -> None:
    lies = replace(plain(BURIAL), details=BURIAL.details(grave=C14.id))
    traced = replace(lies, basis=Basis(base_plan=LOST))
    assert list(references(plain(BURIAL))) == []
    assert list(references(traced)) == [
        ("Lies in", ("grave", "vault", "ashes_plot"), C14.id),
        ("traced on", ("base_plan",), LOST),
    ]
    plan = plan_of([C14, traced, plain(NOTE, 9)])
    assert list(pointing_at(plan, {C14.id})) == [(traced, "Lies in", C14.id)]
    assert list(pointing_at(plan, {LOST})) == [(traced, "traced on", LOST)]
    assert list(pointing_at(plan, set())) == []
