"""Cut, copy, paste, duplicate, another kind, locks, from thing to thing: without a window."""

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path

import pytest
from asked import Asked
from shapely import LineString, Point
from strategies import kind_of, plain

from plan_editor.commands.chosen_things import change_kind, duplicate, lock, unlock
from plan_editor.commands.clipboard import copy, copy_place, cut, paste
from plan_editor.commands.command import beside_pointer
from plan_editor.commands.stepping import next_thing, previous_thing, reading_order
from plan_editor.drafting.tool import tools
from plan_editor.drawing.showing import Showing
from plan_editor.edits.basic import Add
from plan_editor.edits.kind_changes import kinds_for
from plan_editor.errors import CannotRead, CannotUse, EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.document import Document
from plan_editor.plan.item import ItemId
from plan_editor.plan.plan import Plan
from plan_editor.session import Session
from plan_editor.storage.plan_file import PlanFile
from plan_editor.survey.grids.grid import Grid

BNG = Grid(crs="EPSG:27700", east=553000.0, north=421000.0)
GRAVE, STONE, FENCE, GATE = map(kind_of, ("grave", "memorial", "fence", "gate"))


C14 = replace(
    plain(GRAVE, 1).on(Rectangle(east=0.0, north=0.0, width=1.0, length=2.0)), number="C 14"
)
C15 = replace(
    plain(GRAVE, 2).on(Rectangle(east=5.0, north=0.5, width=1.0, length=2.0)), number="C 15"
)
D1 = replace(
    plain(GRAVE, 3).on(Rectangle(east=2.0, north=-9.0, width=1.0, length=2.0)), number="D 1"
)
MINE = plain(STONE, 4)
MINE = replace(MINE, details=replace(MINE.details, grave=C14.id))
RAIL = plain(FENCE, 5).at(LineString([(-20, 20), (20, 20)]))
RAIL = replace(RAIL, details=replace(RAIL.details, material="oak"))
DOOR = plain(GATE, 6).at(Point(0, 30))
DOOR = replace(DOOR, details=replace(DOOR.details, key_kept="at the rectory"))
ITEMS = (C14, C15, D1, MINE, RAIL, DOOR)

Opened = Callable[..., Session]


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[Opened]:
    with ExitStack() as files:

        def open_plan(name: str, grid: Grid, *items: object) -> Session:
            file = files.enter_context(
                PlanFile.create(tmp_path / f"{name}.gpkg", name=name, grid=grid)
            )
            one = Session(Document(file.plan, journal=file), first=tools()[0], file=file)
            if items:
                one.apply(Add(items))  # type: ignore[arg-type]  # whatever the test gives
            return one

        yield open_plan


def test_things_go_to_their_true_place_in_another_plan_of_the_same_system(
    opened: Opened,
) -> None:
    here, there = opened("a", BNG, *ITEMS), opened("b", replace(BNG, east=552990.0))
    ask = Asked()
    here.choose((C15.id, MINE.id, DOOR.id))
    copy(here, ask)
    assert "3 things copied. 1 reference leads to things that do not come along" in ask.told[-1]
    assert "living" in ask.told[-1]
    paste(there, ask)
    new = [there.document.plan.items[i] for i in there.chosen]
    assert [i.kind for i in new] == [GRAVE, STONE, GATE]
    assert new[0].rectangle == replace(C15.rectangle, east=15.0)
    assert new[0].number == "C 15"
    assert new[1].details.grave is None
    assert new[2].details.key_kept == ""
    assert there.document.undo_title == "Paste 3 things"
    there.document.undo()
    assert not there.document.plan.items


def test_pasted_again_they_lie_a_little_aside_without_the_numbers_that_are_taken(
    opened: Opened,
) -> None:
    here, ask = opened("a", BNG, *ITEMS), Asked()
    here.choose((C14.id, MINE.id))
    copy(here, ask)
    paste(here, ask)
    new = [here.document.plan.items[i] for i in here.chosen]
    assert new[0].rectangle == replace(C14.rectangle, east=0.5, north=-0.5)
    assert new[1].details.grave == new[0].id
    assert new[0].number == ""
    assert "One number is taken here" in ask.told[-1]


def test_what_was_cut_comes_back_where_it_was_with_its_number(opened: Opened) -> None:
    here, ask = opened("a", BNG, *ITEMS), Asked()
    here.choose((D1.id,))
    cut(here, ask)
    assert ask.told[-1] == "Grave D 1 cut."
    assert D1.id not in here.document.plan.items
    paste(here, ask)
    (new,) = here.chosen
    assert here.document.plan.items[new] == replace(D1, id=new)


def test_what_something_points_to_is_not_cut_and_the_clipboard_stays(opened: Opened) -> None:
    here, ask = opened("a", BNG, *ITEMS), Asked()
    ask.text = "as it was"
    here.choose((C14.id,))
    with pytest.raises(EditRefused, match="still points to"):
        cut(here, ask)
    assert ask.text == "as it was"


def test_into_another_system_things_come_to_the_middle_of_the_view_if_that_is_wanted(
    opened: Opened,
) -> None:
    here, there = opened("a", BNG, *ITEMS), opened("b", Grid())
    ask = Asked()
    here.choose((C14.id,))
    copy(here, ask)
    paste(there, ask)  # never mind
    assert not there.document.plan.items
    ask.answers = [0]
    paste(there, ask)
    (new,) = there.document.plan.items.values()
    assert new.shape is not None
    assert new.shape.centroid.equals_exact(Point(0, 0), 0.001)


def test_a_clipboard_with_something_else_changes_nothing(opened: Opened) -> None:
    here, ask = opened("a", BNG, *ITEMS), Asked()
    ask.text = "shopping: eggs"
    with pytest.raises(CannotRead):
        paste(here, ask)
    for ids in ((), (ItemId("0" * 32),)):
        here.choose(ids)
        for command in (copy, cut, duplicate):
            with pytest.raises(CannotUse):
                command(here, ask)


def test_the_coordinates_of_the_pointer_go_to_the_clipboard(opened: Opened) -> None:
    here, ask = opened("a", BNG), Asked()
    with pytest.raises(CannotUse):
        copy_place(here, ask)
    ask.place = (112.48, 87.15)
    copy_place(here, ask)
    assert ask.text == "553112.480\t421087.150"


def test_copies_are_laid_aside_and_chosen(opened: Opened) -> None:
    here, ask = opened("a", BNG, *ITEMS), Asked()
    here.choose((C14.id, C15.id))
    duplicate(here, ask)
    assert len(here.chosen) == 2
    assert here.document.undo_title == "Duplicate 2 graves"
    assert not set(here.chosen) & {C14.id, C15.id}


def test_what_would_be_lost_is_said_before_a_kind_is_changed(opened: Opened) -> None:
    here, ask = opened("a", BNG, *ITEMS), Asked()
    here.choose((RAIL.id,))
    number = [k.name for k in kinds_for((RAIL,))].index("hedge")
    ask.answers = [None]
    change_kind(here, ask)
    ask.answers = [number, None]  # never mind, when it is said what goes
    change_kind(here, ask)
    assert RAIL.id in here.document.plan.items
    ask.answers = [number, 0]
    change_kind(here, ask)
    (new,) = here.chosen
    assert here.document.plan.items[new].kind.name == "hedge"
    here.choose((C14.id, DOOR.id, new))
    with pytest.raises(CannotUse, match="No other kind"):
        change_kind(here, ask)


def test_the_kinds_of_what_is_chosen_are_locked_and_unlocked_again(opened: Opened) -> None:
    here, ask = opened("a", BNG, *ITEMS), Asked()
    here.choose((C14.id, RAIL.id))
    lock(here, ask)
    assert here.locked == {"grave", "fence"}
    assert here.chosen == ()
    assert "Fences, graves are locked" in ask.told[-1]
    unlock(here, ask)
    assert not here.locked


def test_the_ground_is_read_from_north_to_south_and_each_line_from_west_to_east(
    opened: Opened,
) -> None:
    here, ask = opened("a", BNG, C15, D1, RAIL, C14), Asked()
    assert reading_order(here.document.plan) == (RAIL.id, C14.id, C15.id, D1.id)
    assert reading_order(Plan()) == ()
    next_thing(here, ask)  # nothing is chosen: what lies in the middle of the view
    assert here.chosen == (C14.id,)
    met = []
    for _ in range(4):
        next_thing(here, ask)
        met += here.chosen
    assert met == [C15.id, D1.id, RAIL.id, C14.id]
    previous_thing(here, ask)
    assert here.chosen == (RAIL.id,)
    here.lock({"grave"})
    next_thing(here, ask)
    assert here.chosen == (RAIL.id,)
    here.show(Showing(kinds=frozenset({"fence"})))
    with pytest.raises(CannotUse):
        next_thing(here, ask)


def test_the_menu_at_the_pointer_is_made_of_commands_in_tens() -> None:
    places = [c.beside for c in beside_pointer()]
    assert places == sorted(places)
    assert len(set(places)) == len(places)
    assert {"copy", "paste", "remove", "copy_place"} <= {c.name for c in beside_pointer()}
