"""The edits that suit things of every kind."""

from dataclasses import replace
from typing import Any

import pytest
from shapely import box
from strategies import kind_of, one_of_each, plain

from plan_editor.edits.basic import (
    Add,
    Describe,
    Remove,
    Renumber,
    Replace,
    SetBasis,
    SetStatus,
)
from plan_editor.errors import EditRefused
from plan_editor.kinds.grave import State as GraveState
from plan_editor.kinds.vault import State as VaultState
from plan_editor.plan.change import Change
from plan_editor.plan.document import Document
from plan_editor.plan.edit import Edit
from plan_editor.plan.item import Basis, Item, ItemId, Method, Status
from plan_editor.plan.kind import Kind, kinds
from plan_editor.plan.plan import Plan, plan_of

GRAVE, PATH, BURIAL = kind_of("grave"), kind_of("path"), kind_of("burial")
C14 = replace(plain(GRAVE, 1), number="C 14")
WAY = plain(PATH, 2)
SCAN = replace(plain(kind_of("base_plan"), 3), number="1962")
TRACED = replace(plain(PATH, 4), basis=Basis(source="Plan of 1962", base_plan=SCAN.id))
LIES = replace(plain(BURIAL, 5), number="88", details=BURIAL.details(grave=C14.id))
PLAN = plan_of([C14, WAY, SCAN, TRACED, LIES])
LOST = ItemId("f" * 32)


def after(edit: Edit) -> Plan:
    document = Document(PLAN)
    document.apply(edit)
    return document.plan


def refusal(edit: Edit) -> str:
    with pytest.raises(EditRefused) as caught:
        after(edit)
    assert "Nothing was changed." in str(caught.value)
    return str(caught.value)


# add


def test_new_things_come_on_the_plan() -> None:
    new = (replace(plain(GRAVE, 8), number="C 15"), plain(PATH, 9))
    assert dict(after(Add(new)).items) == dict(PLAN.items) | {i.id: i for i in new}


@pytest.mark.parametrize(
    ("items", "title"),
    [
        ((), "Add nothing"),
        ((WAY,), "Add a path"),
        ((C14,), "Add grave C 14"),
        ((plain(kind_of("grass")),), "Add grass"),
        ((plain(GRAVE, 6), plain(GRAVE, 7)), "Add 2 graves"),
        ((C14, WAY, SCAN), "Add 3 things"),
    ],
)
def test_its_title_names_what_is_added(items: tuple[Item[Any], ...], title: str) -> None:
    assert Add(items).title == title


def test_what_is_there_is_not_added_again() -> None:
    assert refusal(Add((plain(PATH, 9), C14))).startswith("Grave C 14 is on the plan already.")


# describe


def test_a_detail_is_changed_and_the_others_stay() -> None:
    told = after(Describe(ids=(WAY.id, TRACED.id), details=(("surface", "gravel"),)))
    assert told.items[WAY.id].details == PATH.details(surface="gravel")
    assert told.items[TRACED.id] == replace(TRACED, details=PATH.details(surface="gravel"))


def test_graves_and_vaults_are_given_one_state_though_each_kind_has_states_of_its_own() -> None:
    vault = plain(kind_of("vault"), 9)
    document = Document(plan_of([C14, vault]))
    used = GraveState.OCCUPIED
    document.apply(Describe(ids=(C14.id, vault.id), details=(("state", used),)))
    found = [document.plan.items[i.id].details.state for i in (C14, vault)]
    assert found == ["occupied", "occupied"]
    assert [type(state) for state in found] == [GraveState, VaultState]


@pytest.mark.parametrize("kind", kinds(), ids=lambda kind: kind.name)
def test_every_detail_of_a_kind_can_be_given_at_once(kind: Kind) -> None:
    plan = one_of_each()
    bare, full = plan.of(kind)
    told = tuple((d.name, getattr(full.details, d.name)) for d in kind.entries())
    document = Document(plan)
    document.apply(Describe(ids=(bare.id,), details=told))
    assert document.plan.items[bare.id] == replace(bare, details=full.details)


@pytest.mark.parametrize(
    ("details", "said"),
    [
        ((("colour", "red"),), "Nothing called “colour” is recorded of a path."),
        ((("width_m", "wide"),), "Path has “Width” “wide”; wanted is a number."),
        ((("width_m", 30.0),), "Path has “Width” 30 m; the most is 20 m."),
        ((("surface", None),), "Path has “Surface” empty; wanted is a text."),
    ],
)
def test_what_cannot_be_recorded_is_refused(details: Any, said: str) -> None:
    assert refusal(Describe(ids=(WAY.id,), details=details)).startswith(said)


# number, status, basis


def test_a_thing_is_numbered_anew() -> None:
    edit = Renumber(id=C14.id, number="C 15", called="grave C 14")
    assert edit.title == "Number grave C 14 as C 15"
    assert after(edit).items[C14.id].number == "C 15"
    assert Renumber(id=C14.id, number="").title == "Number 1 thing as nothing"


def test_things_are_there_or_proposed_or_to_go() -> None:
    edit = SetStatus(ids=(C14.id, WAY.id), status=Status.TO_BE_REMOVED)
    assert edit.title == "Call 2 things “to be removed”"
    told = after(edit)
    assert {told.items[i].status for i in edit.ids} == {Status.TO_BE_REMOVED}


def test_only_what_is_said_of_a_basis_is_changed() -> None:
    told = after(SetBasis(ids=(TRACED.id,), basis=(("method", Method.TRACED), ("sd_m", 0.3))))
    assert told.items[TRACED.id].basis == Basis(
        method=Method.TRACED, source="Plan of 1962", base_plan=SCAN.id, sd_m=0.3
    )


def test_what_cannot_be_said_of_a_basis_is_refused() -> None:
    unknown = SetBasis(ids=(WAY.id,), basis=(("weather", "fair"),))
    assert refusal(unknown).startswith("Nothing called “weather” is recorded of a measurement.")
    traced = SetBasis(ids=(WAY.id,), basis=(("base_plan", C14.id),))
    assert refusal(traced).startswith("Path would point to Grave C 14 as “traced on”.")
    less = SetBasis(ids=(WAY.id,), basis=(("sd_m", -1.0),))
    assert refusal(less).startswith("Path has a standard deviation that is not a length.")


# remove


def test_things_go() -> None:
    assert set(after(Remove(ids=(WAY.id,))).items) == set(PLAN.items) - {WAY.id}


def test_what_was_traced_on_a_base_plan_stays_and_says_where_from() -> None:
    told = after(Remove(ids=(SCAN.id,), called="base plan 1962"))
    assert SCAN.id not in told.items
    assert told.items[TRACED.id] == replace(TRACED, basis=Basis(source="Plan of 1962"))


def test_a_base_plan_goes_together_with_what_was_traced_on_it() -> None:
    assert set(after(Remove(ids=(SCAN.id, TRACED.id))).items) == {C14.id, WAY.id, LIES.id}


def test_what_others_point_at_does_not_go_before_them() -> None:
    said = refusal(Remove(ids=(C14.id,)))
    assert said.startswith("Burial 88 still points to Grave C 14 as “Lies in”.")
    assert said.endswith("Remove or change that first.")
    assert set(after(Remove(ids=(C14.id, LIES.id))).items) == {WAY.id, SCAN.id, TRACED.id}


def test_taken_back_everything_is_there_again() -> None:
    document = Document(PLAN)
    document.apply(Remove(ids=tuple(PLAN.items)))
    assert not document.plan.items
    document.undo()
    assert dict(document.plan.items) == dict(PLAN.items)


# changes made elsewhere


def test_what_was_changed_elsewhere_is_taken_in_under_its_title() -> None:
    moved = WAY.at(box(0, 0, 5, 5))
    edit = Replace(
        made=(Change(WAY, moved), Change(LIES, None)), title="Changed by another program"
    )
    document = Document(PLAN)
    entry = document.apply(edit)
    assert entry is not None
    assert entry.title == "Changed by another program"
    assert document.plan.items[WAY.id] == moved
    assert LIES.id not in document.plan.items


def test_what_was_changed_elsewhere_and_here_is_refused() -> None:
    stale = Replace(made=(Change(replace(WAY, number="old"), None),), title="Elsewhere")
    assert refusal(stale).startswith("Path is no longer what it was.")


@pytest.mark.parametrize(
    "edit",
    [
        Describe(ids=(LOST,), details=()),
        Renumber(id=LOST, number="1"),
        SetStatus(ids=(LOST,), status=Status.PROPOSED),
        SetBasis(ids=(LOST,), basis=()),
        Remove(ids=(WAY.id, LOST)),
    ],
)
def test_what_is_not_on_the_plan_cannot_be_changed(edit: Edit) -> None:
    assert "no longer on the plan" in refusal(edit)


@pytest.mark.parametrize(
    ("edit", "title"),
    [
        (Describe(ids=(LOST,), details=()), "Describe 1 thing"),
        (Describe(ids=(LOST,), details=(), called="tree 3"), "Describe tree 3"),
        (SetBasis(ids=(LOST, C14.id), basis=()), "Record how 2 things came on the plan"),
        (Remove(ids=(LOST,), called="grave C 14"), "Remove grave C 14"),
    ],
)
def test_a_title_says_what_was_done_to_what(edit: Edit, title: str) -> None:
    assert edit.title == title
