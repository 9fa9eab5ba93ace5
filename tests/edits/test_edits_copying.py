"""Copies of things: beside them, or from another plan."""

from dataclasses import replace

import pytest
from shapely import LineString, Point
from strategies import kind_of, plain

from plan_editor.edits.copying import Duplicate, Paste, outward, shifted
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.document import Document
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import BASE_PLAN, Basis, ItemId, Method
from plan_editor.plan.plan import Plan, plan_of

SPACE = Rectangle(east=10.0, north=20.0, width=1.22, length=2.74, bearing_deg=10.0)
SCAN = plain(kind_of(BASE_PLAN), 9)
C14 = replace(
    plain(kind_of("grave"), 1).on(SPACE),
    number="C 14",
    basis=Basis(method=Method.TRACED, base_plan=SCAN.id, sd_m=0.1),
)
STONE = plain(kind_of("memorial"), 2)
STONE = replace(STONE, details=replace(STONE.details, grave=C14.id), number="M 3")
WAY = plain(kind_of("path"), 3).at(LineString([(0, 0), (10, 0)]))
LIES = plain(kind_of("burial"), 4)
PLAN = plan_of([C14, STONE, WAY, LIES, SCAN])


def after(edit: Edit, plan: Plan = PLAN) -> Plan:
    document = Document(plan)
    document.apply(edit)
    return document.plan


def refusal(edit: Edit, plan: Plan = PLAN) -> str:
    with pytest.raises(EditRefused) as caught:
        after(edit, plan)
    assert "Nothing was changed." in str(caught.value)
    return str(caught.value)


def test_copies_lie_beside_without_number_and_nobody_has_measured_them() -> None:
    edit = Duplicate(ids=(C14.id, WAY.id), east=2.0, north=-1.0, called="2 things")
    told = after(edit).items
    grave, way = (told[i] for i in edit.copies)
    assert grave.rectangle == replace(SPACE, east=12.0, north=19.0)
    assert way.shape == LineString([(2, -1), (12, -1)])
    assert (grave.number, grave.basis) == ("", Basis())
    assert told[C14.id] == C14
    assert edit.title == "Duplicate 2 things"
    assert Duplicate(ids=(C14.id,), east=1, north=1).title == "Duplicate 1 thing"


def test_a_copied_stone_stands_at_the_copied_grave_or_at_none() -> None:
    both = Duplicate(ids=(STONE.id, C14.id), east=2.0, north=0.0)
    stone, grave = both.copies
    assert after(both).items[stone].details.grave == grave
    alone = Duplicate(ids=(STONE.id,), east=2.0, north=0.0)
    assert after(alone).items[alone.copies[0]].details.grave is None


@pytest.mark.parametrize("item", [LIES, SCAN])
def test_what_has_no_place_of_its_own_is_not_duplicated(item) -> None:  # type: ignore[no-untyped-def]
    assert item.called() in refusal(Duplicate(ids=(item.id,), east=1.0, north=0.0))


def test_pasted_things_keep_their_numbers_where_they_are_free() -> None:
    more = (
        replace(C14, id=ItemId("b" * 32), number="c14"),
        replace(C14, id=ItemId("c" * 32), number="D 1"),
    )
    edit = Paste(items=(*more, replace(WAY, number="C 14")))
    told = [after(edit).items[i] for i in edit.pasted]
    assert [i.number for i in told] == ["", "D 1", "C 14"]
    assert edit.title == "Paste 3 things"
    # taken from a second on by the first of the same pasting
    twice = Paste(items=(more[1], replace(more[1], id=ItemId("d" * 32))))
    assert [after(twice).items[i].number for i in twice.pasted] == ["D 1", ""]


def test_what_is_pasted_points_to_one_another_and_to_nothing_else() -> None:
    edit = Paste(items=(STONE, C14, LIES))
    stone, grave, lies = (after(edit, plan_of([])).items[i] for i in edit.pasted)
    assert stone.details.grave == grave.id
    assert grave.basis == replace(C14.basis, base_plan=None)
    assert lies.shape is None
    assert outward((STONE, C14), {STONE.id}) == 1
    assert outward((STONE, C14), {C14.id}) == 0


def test_one_thing_is_not_pasted_twice_at_once() -> None:
    refusal(Paste(items=(WAY, WAY)))


def test_a_thing_without_place_stays_without() -> None:
    spot = plain(kind_of("note"), 7).at(Point(1, 2))
    there, lies = shifted((spot, LIES), 2.0, 0.0004)
    assert there.shape == Point(3, 2)
    assert lies == LIES
