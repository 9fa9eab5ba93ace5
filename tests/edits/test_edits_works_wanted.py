"""What an inspection found becomes a piece of work, once."""

from dataclasses import replace

import pytest
from shapely import Point

from plan_editor.edits.works_wanted import MakeWorks
from plan_editor.errors import EditRefused
from plan_editor.kinds import inspection, tree, wall, works
from plan_editor.kinds.inspection import InspectionDetails, Result
from plan_editor.kinds.works import Priority, WorksDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, ItemId, new_item
from plan_editor.plan.plan import plan_of

WALL = new_item(wall.KIND, number="South")
YEW = new_item(tree.KIND, Point(0, 0), number="T 1")
# an item of a five-yearly report: number, thing, what is wanted
TOLD = InspectionDetails(
    target=WALL.id,
    date="2024-06-18",
    result=Result.MINOR,
    inspector="The inspecting architect",
    action="Repoint 6 m\nin lime.",
    item_no="4.2",
)

GONE = ItemId("f" * 32)


def found(**changed: object) -> Item:
    return new_item(inspection.KIND, details=replace(TOLD, **changed))


def made(one: Item) -> WorksDetails:
    document = Document(plan_of([WALL, YEW, one]))
    document.apply(MakeWorks(inspection=one.id, called="wall South"))
    (work,) = document.plan.of(works.KIND)
    return work.details


def test_an_item_of_the_report_becomes_a_work_with_its_number() -> None:
    one = found()
    assert made(one) == WorksDetails(
        what="Repoint 6 m in lime.", target=WALL.id, inspection=one.id, item_no="4.2"
    )


def test_what_is_unsafe_is_wanted_at_once() -> None:
    work = made(found(target=YEW.id, result=Result.IMMEDIATE, action="", item_no=""))
    assert (work.what, work.target, work.priority) == ("Mend Tree T 1", YEW.id, Priority.NOW)
    assert made(found(result=Result.MADE_SAFE)).priority is None
    assert len(made(found(action="lime " * 40)).what) <= 80


def test_the_same_once_more_does_nothing_and_undo_takes_it_back() -> None:
    one = found()
    document = Document(plan_of([WALL, one]))
    document.apply(MakeWorks(inspection=one.id, called="wall South"))
    assert document.undo_title == "Make a work of what was found at wall South"
    assert document.apply(MakeWorks(inspection=one.id)) is None
    assert document.plan.count(works.KIND) == 1
    document.undo()
    assert document.plan.count(works.KIND) == 0


@pytest.mark.parametrize(
    ("one", "says"),
    [
        (found(result=Result.SOUND), "names no fault"),
        (found(result=None), "names no fault"),
        (found(target=None), "names no fault"),
        (YEW, "is no inspection"),
        (replace(YEW, id=GONE), "no longer on the plan"),
    ],
    ids=["sound", "without result", "of nothing", "a tree", "gone"],
)
def test_what_names_no_fault_is_refused(one: Item, says: str) -> None:
    there = {i.id: i for i in (WALL, YEW, one) if i.id != GONE}
    plan = plan_of(there.values())
    with pytest.raises(EditRefused, match=says) as refused:
        MakeWorks(inspection=one.id).changes(plan)
    assert "Nothing was changed" in str(refused.value)
