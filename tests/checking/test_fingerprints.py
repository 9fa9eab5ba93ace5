from dataclasses import replace

import pytest
from churchyards import found, grave_at

from plan_editor.checking.fingerprints import fingerprint
from plan_editor.edits.places import Move
from plan_editor.plan.document import Document
from plan_editor.plan.item import Status
from plan_editor.plan.plan import plan_of

ONE, OTHER, THIRD = grave_at(0, 0, "A 1"), grave_at(0, 1.0, "A 2"), grave_at(9, 9, "A 3")
PLAN = plan_of([ONE, OTHER, THIRD])
(FINDING,) = found("overlapping_graves", PLAN)
PRINT = fingerprint(PLAN, FINDING)


def test_what_happens_elsewhere_leaves_the_fingerprint_alone() -> None:
    document = Document(PLAN)
    document.apply(Move(ids=(THIRD.id,), east=1.0, north=0.0))
    assert fingerprint(document.plan, FINDING) == PRINT
    turned_round = replace(FINDING, items=(OTHER.id, ONE.id))
    assert fingerprint(PLAN, turned_round) == PRINT


def test_moving_both_together_is_another_finding() -> None:
    document = Document(PLAN)
    document.apply(Move(ids=(ONE.id, OTHER.id), east=1.0, north=0.0))
    (again,) = found("overlapping_graves", document.plan)
    assert again.text == FINDING.text
    assert fingerprint(document.plan, again) != PRINT


@pytest.mark.parametrize(
    "other", [replace(OTHER, number="A 9"), replace(OTHER, status=Status.PROPOSED)]
)
def test_another_number_or_status_is_another_finding(other) -> None:
    assert fingerprint(plan_of([ONE, other]), FINDING) != PRINT


def test_what_has_no_place_has_a_fingerprint() -> None:
    plan = plan_of([replace(ONE, shape=None, rectangle=None), OTHER])
    assert len(fingerprint(plan, FINDING)) == 32
