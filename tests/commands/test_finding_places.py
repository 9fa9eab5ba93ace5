"""What the one field finds: coordinates, kinds and states, numbers, kept places."""

import pytest
from shapely import Point

from plan_editor.commands.finding import find
from plan_editor.commands.finding_states import coordinates_in
from plan_editor.commands.kept_places import kept_places
from plan_editor.drafting.tools import select
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, kept_place, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.session import Session
from plan_editor.survey.grids.grid import Grid


def a_grave(n: int, state: grave.State) -> Item:
    place = Rectangle(east=3.0 * n, north=0, width=1.2, length=2.4)
    return new_item(grave.KIND, place, number=f"C {n}", details=grave.GraveDetails(state=state))


@pytest.fixture
def session() -> Session:
    states = (grave.State.FREE, grave.State.FREE, grave.State.OCCUPIED, grave.State.CLOSED)
    graves = [a_grave(n, state) for n, state in enumerate(states, 1)]
    yew = new_item(tree.KIND, Point(9, 9), details=tree.TreeDetails(species="yew"))
    kept = kept_place.KeptPlaceDetails(name="By the west gate", seen=(5.0, 6.0, 20.0))
    place = new_item(kept_place.KIND, details=kept)
    grid = Grid(crs="EPSG:27700", east=553100.0, north=421000.0)
    return Session(Document(plan_of([*graves, yew, place], grid=grid)), first=select.TOOL)


@pytest.mark.parametrize(
    "text",
    [
        "553112.48 421087.15",
        "553112.48, 421087.15",
        "553112.48;421087.15",
        "E 553112.48 N 421087.15",
        "e553 112.48 n421 087.15",
        "E 553\u202f112.48  N 421\u202f087.15",
    ],
)
def test_coordinates_are_gone_to(session: Session, text: str) -> None:
    assert coordinates_in(text) == (553112.48, 421087.15)
    first = find(session, text)[0]
    assert first.place == pytest.approx((12.48, 87.15))
    assert first.text == "Go to E 553\u202f112.48  N 421\u202f087.15"


@pytest.mark.parametrize("text", ["553112.48", "553 112.48 421 087.15", "C 14", "E 5", "1 2 3"])
def test_what_may_be_read_in_two_ways_is_no_coordinates(text: str) -> None:
    assert coordinates_in(text) is None


def test_coordinates_far_from_the_plan_are_told_to_be_so(session: Session) -> None:
    first = find(session, "0 0")[0]
    assert first.place is None
    assert "100 km" in first.text


@pytest.mark.parametrize(
    ("text", "told", "count"),
    [
        ("graves", "4 graves", 4),
        ("free graves", "2 graves: free", 2),
        ("grave free", "2 graves: free", 2),
        ("free", "2 graves: free", 2),
        ("occupied", "1 grave: occupied", 1),
        ("cannot used grave", "1 grave: cannot be used", 1),
        ("tree", "1 tree", 1),
    ],
)
def test_kinds_and_states_are_found(session: Session, text: str, told: str, count: int) -> None:
    found = {f.text: f for f in find(session, text)}
    assert len(found[told].items) == count


def test_a_state_that_nothing_is_in_is_not_told(session: Session) -> None:
    assert not [f for f in find(session, "reserved graves") if f.items]


def test_at_most_four_lines_of_kinds_are_told(session: Session) -> None:
    told = [f for f in find(session, "existing") if f.items]
    assert [f.text for f in told] == ["4 graves: existing", "1 tree: existing"]


def test_a_kept_place_is_found_by_its_name(session: Session) -> None:
    (place,) = kept_places(session)
    assert [f.items for f in find(session, "west gate")] == [(place.id,)]
    assert place.kind.view_m(place.details) == (-5.0, -4.0, 15.0, 16.0)
    assert place.kind.view_m(kept_place.KeptPlaceDetails()) is None
    assert tree.KIND.view_m(tree.TreeDetails()) is None
