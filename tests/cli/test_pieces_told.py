"""``show`` tells churchyards and sections of the ground."""

from shapely import box

from plan_editor.cli.pieces import piece_facts, piece_table
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.sections import sections
from plan_editor.kinds import grave, section
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.kinds.section import SectionDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of

OLD = new_item(section.KIND, box(0, 0, 50, 40), details=SectionDetails(name="Old"))
PLOT = new_item(section.KIND, box(0, 0, 10, 10), details=SectionDetails(name="Plot"))
FREE = GraveDetails(state=State.FREE)
GRAVE = new_item(grave.KIND, Rectangle(east=2, north=2, width=1, length=2), details=FREE)


def test_programs_are_told_what_lies_in_each() -> None:
    old, plot = piece_facts(sections(plan_of([OLD, PLOT, GRAVE])))
    assert old == {
        "id": OLD.id,
        "name": "Old",
        "area_m2": 2000.0,
        "graves": {},
        "vaults": 0,
        "ashes_plots": 0,
        "memorials": 0,
        "part_of": None,
        "overlaps": [],
    }
    assert (plot["graves"], plot["part_of"]) == ({"free": 1}, OLD.id)


def test_people_are_told_in_a_table_where_there_are_any() -> None:
    told = piece_table(plan_of([OLD, PLOT, GRAVE]))
    assert [line.split()[0] for line in told.splitlines()] == ["graves", "Old", "Plot"]
    assert piece_table(plan_of([GRAVE])) == ""
