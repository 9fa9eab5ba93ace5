"""Several churchyards on one plan, and a plan of one of them alone."""

from shapely import LineString, Point, box
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.churchyards import farthest_apart, named_churchyards, only_churchyard
from plan_editor.kinds import boundary, burial, grave, inspection, memorial, parish, path, tree
from plan_editor.kinds.boundary import BoundaryDetails
from plan_editor.kinds.burial import BurialDetails
from plan_editor.kinds.inspection import InspectionDetails
from plan_editor.kinds.memorial import MemorialDetails
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of


def yard(name: str, shape: BaseGeometry) -> Item:
    return new_item(boundary.KIND, shape, details=BoundaryDetails(name=name))


def grave_at(east: float) -> Item:
    return new_item(grave.KIND, Rectangle(east=east, north=10, width=1.2, length=2.4))


def stone_on(item: Item, east: float) -> Item:
    place = Rectangle(east=east, north=10, width=0.8, length=0.2)
    return new_item(memorial.KIND, place, details=MemorialDetails(grave=item.id))


HOME, FAR = yard("St Elfric", box(0, 0, 60, 50)), yard("Upper ground", box(660, 0, 700, 50))
HERE, THERE = grave_at(10), grave_at(670)
STONE, STONE_THERE = stone_on(HERE, 10), stone_on(THERE, 670)


def test_each_has_a_name_that_no_other_has() -> None:
    line = new_item(boundary.KIND, LineString([(0, 0), (9, 9)]))
    grounds = [HOME, FAR, yard("", box(0, 90, 9, 99)), yard("St Elfric", box(0, 190, 9, 199))]
    names = [n for n, _ in named_churchyards(plan_of([*grounds, line]))]
    assert names == ["St Elfric", "Upper ground", "Churchyard 3", "St Elfric (4)"]


def test_how_far_they_lie_apart_is_told() -> None:
    assert farthest_apart(plan_of([HOME, FAR])) == 600.0
    assert farthest_apart(plan_of([HOME])) == 0.0


def test_a_plan_of_one_alone_holds_what_lies_there_and_its_entries() -> None:
    lane = new_item(path.KIND, LineString([(-30, 5), (-5, 5)]))
    yew = new_item(tree.KIND, Point(710, 20))
    entries = [
        new_item(burial.KIND, details=BurialDetails(grave=HERE.id)),
        new_item(burial.KIND, details=BurialDetails(grave=THERE.id)),
        new_item(inspection.KIND, details=InspectionDetails(target=STONE_THERE.id)),
        new_item(parish.KIND),
    ]
    things = [HOME, FAR, HERE, THERE, STONE, STONE_THERE, lane, yew, *entries]
    plan = plan_of(things, name="Harrowmere", revision=7)
    home = only_churchyard(plan, HOME.id, "St Elfric")
    assert (home.name, home.revision) == ("Harrowmere: St Elfric", 7)
    wanted = {HOME.id, HERE.id, STONE.id, lane.id, entries[0].id, entries[3].id}
    assert set(home.items) == wanted
    far = only_churchyard(plan_of(things), FAR.id, "Upper ground")
    assert far.name == "Upper ground"
    assert set(far.items) == (set(plan.items) - wanted) | {entries[3].id}


def test_a_stone_whose_grave_lies_in_the_other_refers_to_nothing_there() -> None:
    astray = stone_on(THERE, 12)
    alone = only_churchyard(plan_of([HOME, FAR, HERE, THERE, astray]), HOME.id, "St Elfric")
    assert alone.items[astray.id].details.grave is None
    assert THERE.id not in alone.items
