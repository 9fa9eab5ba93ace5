"""Several edits made as one, and findings of the check that are let stand."""

import pytest
from shapely import Point

from plan_editor.edits.basic import Add, Describe, Remove, Renumber
from plan_editor.edits.mending import Mend
from plan_editor.edits.places import Move
from plan_editor.edits.settling import SettleFindings, TellAgain, settled_item
from plan_editor.errors import EditRefused
from plan_editor.kinds import settled, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.settled import settled_fingerprints

YEW = new_item(tree.KIND, Point(1, 2), number="T1")


def document() -> Document:
    return Document(plan_of([YEW]))


def test_several_edits_are_one_step_with_one_change_of_each_thing() -> None:
    plan = document()
    moves = Move(ids=(YEW.id,), east=1.0, north=0.0), Move(ids=(YEW.id,), east=0.0, north=3.0)
    named = Describe(ids=(YEW.id,), details=(("species", "yew"),))
    entry = plan.apply(Mend(title="Plant it right", edits=(*moves, named)))
    assert entry is not None
    assert entry.title == "Plant it right"
    (change,) = entry.changes
    assert change.before == YEW
    assert plan.plan.items[YEW.id].shape == Point(2, 5)
    assert plan.plan.items[YEW.id].details.species == "yew"
    plan.undo()
    assert plan.plan.items[YEW.id] == YEW


def test_what_comes_and_goes_again_is_no_change() -> None:
    oak = new_item(tree.KIND, Point(5, 5))
    mend = Mend(title="Plant and fell", edits=(Add((oak,)), Remove(ids=(oak.id,))))
    assert mend.changes(plan_of([YEW])) == ()


def test_it_is_refused_as_a_whole() -> None:
    plan = document()
    felled = Remove(ids=(YEW.id,))
    with pytest.raises(EditRefused, match="Nothing was changed"):
        plan.apply(Mend(title="Fell", edits=(felled, Renumber(id=YEW.id, number="T2"))))
    assert plan.plan.items[YEW.id] == YEW


def test_a_finding_is_let_stand_and_told_again() -> None:
    plan = document()
    one = settled_item("spikes", "It has a spike.", "a" * 32, "2026-05-16")
    plan.apply(SettleFindings((one, settled_item("sizes", "It is long.", "b" * 32, ""))))
    assert settled_fingerprints(plan.plan) == {"a" * 32, "b" * 32}
    plan.apply(TellAgain())
    assert not settled_fingerprints(plan.plan)
    plan.undo()
    assert plan.plan.count(settled.KIND) == 2


def test_a_finding_settled_twice_is_kept_once() -> None:
    plan = document()
    for says in ("It has a spike.", "It has a spike still."):
        plan.apply(SettleFindings((settled_item("spikes", says, "a" * 32, ""),)))
    (kept,) = plan.plan.of(settled.KIND)
    assert kept.details.says == "It has a spike still."


def test_its_title_counts() -> None:
    one = settled_item("spikes", "", "a" * 32, "")
    assert SettleFindings((one,)).title == "Let a finding of the check stand"
    assert SettleFindings((one, one)).title == "Let 2 findings of the check stand"
