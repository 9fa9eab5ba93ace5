"""Steps of a burial, and memorials that are asked for, as window and command line ask."""

from dataclasses import replace

import pytest

from plan_editor.commands.burials import (
    new_request,
    request_lines,
    standing,
    step_edit,
    step_note,
    told_of,
    usual,
)
from plan_editor.commands.memorials import application_lines, application_on
from plan_editor.edits.basic import Add
from plan_editor.errors import CannotUse
from plan_editor.kinds import application, request
from plan_editor.kinds.application import ApplicationDetails
from plan_editor.kinds.request import Progress, RequestDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of


def of(**details: object) -> Item:
    return new_item(request.KIND, details=RequestDetails(**details))


def test_of_a_burial_that_is_over_nothing_is_left_to_record() -> None:
    over = of(surname="Farrow", forenames="Ada", progress=Progress.BURIED)
    document = Document(plan_of([over]))
    found = standing(document.plan, over.id)
    assert found is not None
    assert (usual(found), step_note(document, found), told_of(found)) == ({}, "", "")
    with pytest.raises(CannotUse, match="This burial is over"):
        step_edit(document, found, {})
    (line,) = request_lines(document.plan)
    assert (line.name, line.next) == ("Farrow, Ada", "buried")


def test_what_is_no_request_has_no_standing() -> None:
    asked = new_item(application.KIND)
    plan = plan_of([asked])
    assert standing(plan, asked.id) is None
    assert standing(plan, None) is None
    assert application_on(plan, asked.id) == asked
    assert application_on(plan, None) is None


def test_a_new_request_has_no_name_yet() -> None:
    edit, item = new_request()
    assert isinstance(edit, Add)
    (line,) = request_lines(plan_of([item]))
    assert (line.name, line.next) == ("not yet named", "choose the space")


def test_applications_that_wait_come_before_those_fixed_the_latest_first() -> None:
    old, new = (
        new_item(application.KIND, details=ApplicationDetails(received=day))
        for day in ("2026-01-05", "2026-05-05")
    )
    done = replace(
        new, id=new_item(request.KIND).id, details=replace(new.details, fixed="2026-09-01")
    )
    lines = application_lines(plan_of([done, old, new]))
    assert [s.item for s in lines] == [new.id, old.id, done.id]
    assert [s.decision for s in lines] == ["waiting", "waiting", "fixed"]
    assert {s.grave for s in lines} == {"no grave yet"}
