"""Sections of the ground and churchyards: what lies in which, counted once."""

from shapely import LineString, Point, box
from shapely.geometry.base import BaseGeometry

from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.sections import (
    churchyard_of,
    churchyards,
    lying_in,
    section_of,
    sections,
)
from plan_editor.kinds import (
    ashes_plot,
    boundary,
    grave,
    memorial,
    parish,
    path,
    section,
    tree,
    vault,
)
from plan_editor.kinds.boundary import BoundaryDetails
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.kinds.section import SectionDetails
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of


def part(name: str, shape: BaseGeometry) -> Item:
    return new_item(section.KIND, shape, details=SectionDetails(name=name))


def yard(name: str, shape: BaseGeometry) -> Item:
    return new_item(boundary.KIND, shape, details=BoundaryDetails(name=name))


def grave_at(east: float, north: float, state: State = State.OCCUPIED) -> Item:
    place = Rectangle(east=east, north=north, width=1.0, length=2.0)
    return new_item(grave.KIND, place, details=GraveDetails(state=state))


OLD = part("Old", box(0, 0, 50, 40))
NEW = part("New", box(50, 0, 100, 40))
PLOT = part("Children", box(10, 10, 20, 20))
YARD = yard("St Elfric", box(-2, -2, 102, 42))
FAR = yard("Upper ground", box(700, 0, 760, 50))


def test_a_thing_belongs_where_the_larger_share_of_it_lies() -> None:
    # 2 m long from east to west: 1.4 m of it lie east of the line at 50
    over = grave_at(49.4, 5.0)
    way = new_item(path.KIND, LineString([(45, 30), (80, 30)]))
    line = new_item(path.KIND, LineString([(20, 50), (40, 50)]))
    yew = new_item(tree.KIND, Point(5, 5))
    plan = plan_of([OLD, NEW, over, way, line, yew])
    assert section_of(plan, over.id) == NEW.id
    assert section_of(plan, way.id) == NEW.id
    assert section_of(plan, line.id) is None
    assert section_of(plan, yew.id) == OLD.id


def test_what_has_no_place_lies_nowhere_and_a_section_in_the_one_it_is_a_part_of() -> None:
    entry = new_item(parish.KIND)
    plan = plan_of([OLD, entry, PLOT])
    assert section_of(plan_of([entry]), entry.id) is None
    assert section_of(plan, entry.id) is None
    assert section_of(plan, PLOT.id) == OLD.id
    assert section_of(plan, OLD.id) is None


def test_of_nested_sections_the_inner_counts_and_is_told_as_a_part() -> None:
    inner, outer = grave_at(12, 12), grave_at(30, 30, State.FREE)
    plan = plan_of([OLD, NEW, PLOT, inner, outer])
    told = {p.name: p for p in sections(plan)}
    assert told["Children"].part_of == OLD.id
    assert told["Children"].graves == ((State.OCCUPIED, 1),)
    assert told["Old"].graves == ((State.FREE, 1),)
    assert told["Old"].part_of is None
    assert told["Old"].area_m2 == 2000.0
    assert told["New"].all_graves == 0
    assert not told["Old"].overlaps
    assert lying_in(plan, OLD.id) == {OLD.id, inner.id, outer.id}
    assert lying_in(plan, PLOT.id) == {PLOT.id, inner.id}


def test_sections_over_one_another_say_so() -> None:
    wide = part("Wide", box(40, 0, 70, 40))
    plan = plan_of([OLD, NEW, wide])
    told = {p.name: p for p in sections(plan)}
    assert set(told["Wide"].overlaps) == {OLD.id, NEW.id}
    # neighbours that share their edge do not
    assert NEW.id not in told["Old"].overlaps
    assert wide.id in told["Old"].overlaps


def test_two_churchyards_count_what_each_holds() -> None:
    stone = new_item(memorial.KIND, Rectangle(east=710, north=5, width=0.9, length=0.15))
    things = (
        grave_at(10, 10),
        grave_at(710, 10, State.RESERVED),
        grave_at(715, 10, State.RESERVED),
        new_item(vault.KIND, Rectangle(east=20, north=20, width=3, length=3)),
        new_item(ashes_plot.KIND, Rectangle(east=720, north=20, width=0.6, length=0.6)),
        stone,
    )
    outside = grave_at(400, 10)
    plan = plan_of([FAR, YARD, *things, outside])
    first, second = churchyards(plan)
    assert (first.name, first.all_graves, first.vaults) == ("St Elfric", 1, 1)
    assert (second.graves, second.ashes_plots) == (((State.RESERVED, 2),), 1)
    assert (second.memorials, first.memorials) == (1, 0)
    assert churchyard_of(plan, outside.id) is None
    assert churchyard_of(plan, stone.id) == FAR.id


def test_a_boundary_that_is_a_line_holds_nothing() -> None:
    line = new_item(boundary.KIND, LineString([(0, 0), (10, 0), (10, 10)]))
    assert churchyards(plan_of([line])) == ()
    # what only touches the ground from outside has no share of it
    beside = new_item(path.KIND, box(-7, 5, -2, 10))
    assert churchyard_of(plan_of([YARD, beside]), beside.id) is None
