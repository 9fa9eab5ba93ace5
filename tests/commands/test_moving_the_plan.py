"""What both doors share of moving the plan: typed marks, words, files read meanwhile."""

from pathlib import Path

import pytest
from ezdxf.filemanagement import new
from shapely import Point

from plan_editor.commands.frame import grid_told, marks_of, to_be_filled_in, typed_known
from plan_editor.commands.laying import add, made_ready
from plan_editor.edits.basic import Add
from plan_editor.edits.frame import MoveToGrid
from plan_editor.edits.framing import KnownMark
from plan_editor.errors import CannotRead, EditRefused
from plan_editor.kinds import mark
from plan_editor.plan.document import Document
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

MARKS = tuple(
    new_item(mark.KIND, Point(p), number=n)
    for n, p in {"M 10": (0, 40), "M 2": (60, 0), "M 1": (0, 0), "": (9, 9)}.items()
)
PLAN = plan_of(MARKS)


def test_marks_are_listed_as_people_count_and_written_in_one_word() -> None:
    assert [i.number for i in marks_of(PLAN)] == ["", "M 1", "M 2", "M 10"]
    assert to_be_filled_in(PLAN) == "M1  \nM2  \nM10  "


@pytest.mark.parametrize(
    "typed",
    [
        "M1 553112.48 421034.915 0.02\nm2 553172 421034",
        "M1\t553112,48\t421034,915\t0,02\nM2\t553172\t421034\t",
        "M 1;553112.48;421034.915;0.02\nM 2;553172;421034;",
        "point,E,N,sd\nM1,553112.48,421034.915,0.02\nM2,553172,421034,",
        "M1  553112.48 421034.915 0.02\nM10  \n\nM2 553172 421034",
    ],
)
def test_marks_are_read_as_they_are_pasted(typed: str) -> None:
    assert typed_known(PLAN, typed) == (
        KnownMark(mark=MARKS[2].id, east=553112.48, north=421034.915, sd_m=0.02),
        KnownMark(mark=MARKS[1].id, east=553172.0, north=421034.0),
    )


def test_where_nothing_is_typed_yet_there_are_no_marks() -> None:
    assert typed_known(PLAN, "") == ()
    assert typed_known(PLAN, to_be_filled_in(PLAN)) == ()


def test_what_is_no_place_is_said_with_its_line() -> None:
    with pytest.raises(CannotRead, match="What was typed, line 2: “north” is not a number"):
        typed_known(PLAN, "M1 553112.48 421034.915\nM2 553172 north")


def test_a_tape_reads_longer_where_the_grid_is_larger_than_the_ground() -> None:
    # Ordnance Survey, A guide to coordinate systems in Great Britain, annexe C (Caister water
    # tower); k = 1.000377315 there, so that 30 m are 30.0113 m by hand
    told = grid_told(plan_of((), grid=Grid(crs="EPSG:27700", east=651409.9, north=313177.3)))
    assert told.scale.startswith("30 m on a level tape are 30.011 m on the grid")
    assert told.north == "True north lies 2°57′ west of grid north."
    assert told.system == "EPSG:27700, OSGB36 / British National Grid"


def test_a_file_read_while_the_plan_was_moved_is_not_laid_where_it_no_longer_belongs(
    tmp_path: Path,
) -> None:
    national = Grid(crs="EPSG:27700", east=553_100.0, north=421_000.0)
    with PlanFile.create(tmp_path / "plan.gpkg", name="", grid=national) as file:
        document = Document(file.plan, journal=file)
        document.apply(Add(MARKS))
        drawing = new("R2010", units=6)
        drawing.modelspace().add_line((553_105, 421_003), (553_160, 421_044))
        drawing.saveas(tmp_path / "survey.dxf")
        placed = made_ready(file, national, tmp_path / "survey.dxf", name="The survey")
        assert placed.item.shape is not None
        known = tuple(
            KnownMark(mark=i.id, east=i.shape.x, north=i.shape.y)
            for i in MARKS
            if isinstance(i.shape, Point)
        )
        document.apply(MoveToGrid(crs="local", marks=known))
        before = document.plan
        with pytest.raises(EditRefused, match="moved to another grid while Base plan The"):
            add(document, placed)
        assert document.plan is before
        document.undo()
        assert add(document, placed).placed
