"""Sections of the ground as a list has them, and one of them shown alone."""

import pytest
from asked import Asked
from shapely import LineString, box

from plan_editor.commands.ground_pieces import (
    box_of_piece,
    has_piece,
    is_partly_shown,
    only_in_hand,
    piece_in_hand,
    piece_lines,
    piece_told,
    show_all_pieces,
)
from plan_editor.commands.menus import ground
from plan_editor.drafting.tool import tools
from plan_editor.errors import CannotUse
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import boundary, grave, parish, path, section, vault
from plan_editor.kinds.boundary import BoundaryDetails
from plan_editor.kinds.grave import GraveDetails, State
from plan_editor.kinds.section import SectionDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.session import Session


def part(name: str, west: float, east: float, north: float = 40.0) -> Item:
    details = SectionDetails(name=name)
    return new_item(section.KIND, box(west, 0, east, north), details=details)


def grave_at(east: float, state: State) -> Item:
    place = Rectangle(east=east, north=5, width=1, length=2)
    return new_item(grave.KIND, place, details=GraveDetails(state=state))


YARD = new_item(boundary.KIND, box(0, 0, 100, 40), details=BoundaryDetails(name="St Elfric"))
OLD, NEW, PLOT = part("Old", 0, 50), part("New", 50, 100), part("Plot", 0, 10, 10)
HERE, THERE = grave_at(20, State.OCCUPIED), grave_at(70, State.FREE)
CHILD = grave_at(2, State.OCCUPIED)
VAULT = new_item(vault.KIND, Rectangle(east=60, north=20, width=3, length=3))
WAY = new_item(path.KIND, LineString([(5, 30), (95, 30)]))
ENTRY = new_item(parish.KIND)
ALL = (YARD, OLD, NEW, PLOT, HERE, THERE, CHILD, VAULT, WAY, ENTRY)


@pytest.fixture
def session() -> Session:
    return Session(Document(plan_of(ALL)), first=tools()[0])


def test_churchyards_stand_first_and_parts_below_their_whole() -> None:
    lines = piece_lines(plan_of(ALL))
    names = ["Churchyard St Elfric", "New", "Old", "    Plot"]
    assert [p.name for p in lines] == names
    assert [p.graves for p in lines] == ["3", "1", "1", "1"]
    assert [p.free for p in lines] == ["1", "1", "0", "0"]


def test_what_lies_in_one_is_told_in_figures() -> None:
    plan = plan_of(ALL)
    told = dict(piece_told(plan, NEW.id))
    assert told == {"Area": "2\u202f000 m²", "Graves, free": "1", "Vaults": "1"}
    assert dict(piece_told(plan, PLOT.id))["A part of"] == "Section Old"
    wide = part("Wide", 40, 70)
    both = [v for k, v in piece_told(plan_of([*ALL, wide]), wide.id) if k == "Lies over"]
    assert sorted(both) == ["Section New", "Section Old"]
    assert piece_told(plan, HERE.id) == ()


def test_a_section_without_a_name_says_so() -> None:
    nameless = new_item(section.KIND, box(0, 0, 5, 5))
    assert [p.name for p in piece_lines(plan_of([nameless]))] == ["Section without a name"]


def test_what_is_in_hand_is_the_piece_chosen_or_the_one_in_which_it_lies(
    session: Session,
) -> None:
    for chosen, piece in ((OLD, OLD), (CHILD, PLOT), (YARD, YARD), (ENTRY, None)):
        session.choose((chosen.id,))
        assert piece_in_hand(session) == (None if piece is None else piece.id)
    session.choose((HERE.id, THERE.id))
    assert not has_piece(session)


def test_only_what_reaches_into_it_is_shown_until_all_is_again(session: Session) -> None:
    session.choose((THERE.id,))
    commands = {c.name: c for _, c in ground.MENU.all_commands()}
    commands["only_section"].run(session, Asked())
    assert session.chosen == (NEW.id,)
    shown = {i.id for i in ALL if session.showing.shows(i)}
    # the way and the boundary reach into both
    assert shown == {NEW.id, THERE.id, VAULT.id, WAY.id, YARD.id, ENTRY.id}
    assert is_partly_shown(session)
    assert session.hits(20.5, 6.0, 0.5) == (YARD.id,)
    assert session.showing.words() == ()
    show_all_pieces(session)
    assert all(session.showing.shows(i) for i in ALL)


def test_without_one_in_hand_it_says_what_to_do(session: Session) -> None:
    session.choose(())
    with pytest.raises(CannotUse, match="Choose a section"):
        only_in_hand(session, Asked())


def test_the_ground_to_look_at_reaches_a_little_beyond() -> None:
    plan = plan_of(ALL)
    assert box_of_piece(plan, PLOT.id) == (-2.0, -2.0, 12.0, 12.0)
    assert box_of_piece(plan, ENTRY.id) is None
