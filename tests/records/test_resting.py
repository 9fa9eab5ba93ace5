"""Who rests at a place, and which one it is in its row."""

import shapely

from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, grave, memorial
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.resting import named, place_of, resting_at, row_told


def _grave(n):
    return new_item(
        grave.KIND, Rectangle(east=0, north=1.3 * n, width=0.9, length=2.1), number=f"B {n}"
    )


def _entry(**details):
    return new_item(burial.KIND, details=burial.BurialDetails(**details))


def test_burials_are_told_oldest_first_from_the_grave_its_stone_and_its_entries():
    here = _grave(1)
    stone = new_item(
        memorial.KIND, shapely.Point(1, 2), details=memorial.MemorialDetails(grave=here.id)
    )
    late = _entry(forenames="Ann", surname="Weir", grave=here.id, buried="1902-03")
    early = _entry(surname="Weir", grave=here.id, died="1871-12-30", buried="1872-01-02")
    lost = _entry(forenames="Tom", surname="Fell")
    plan = plan_of([here, stone, late, early, lost])
    for thing in (here, stone, late):
        assert resting_at(plan, thing.id) == (early, late)
    assert resting_at(plan, lost.id) == (lost,)
    assert [named(e) for e in (early, late, lost)] == [
        "Weir, died 1871",
        "Ann Weir, buried 1902",
        "Tom Fell",
    ]
    assert named(_entry(buried="1900")) == "Name not recorded, buried 1900"


def test_the_place_of_an_entry_is_its_grave():
    here = _grave(1)
    entry, lost = _entry(grave=here.id), _entry()
    plan = plan_of([here, entry, lost])
    assert place_of(plan, here.id) == here
    assert place_of(plan, entry.id) == here
    assert place_of(plan, lost.id) is None


def test_a_grave_is_counted_from_the_nearer_end_of_its_row():
    graves = [_grave(n) for n in range(1, 7)]
    alone = new_item(grave.KIND, Rectangle(east=50, north=50, width=0.9, length=2.1))
    plan = plan_of([*graves, alone])
    told = [row_told(plan, g.id) for g in graves]
    assert told[0] == told[5] == "It is the first of 6 in its row."
    assert told[1] == "It is number 2 of 6 in its row, counted from Grave B 1."
    assert told[4] == "It is number 2 of 6 in its row, counted from Grave B 6."
    assert row_told(plan, alone.id) == ""
