"""What is shown: kinds and states left out, kept as words."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from shapely import Point

from plan_editor.drawing.showing import STATUS, Showing, State, showing_of, states_of, telling
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, tree
from plan_editor.plan.item import Status, new_item
from plan_editor.plan.kind import kinds

FREE = State("grave", "state", "free")
PROPOSED = State("grave", STATUS, "proposed")


def a_grave(state: grave.State) -> object:
    details = grave.GraveDetails(state=state)
    return new_item(grave.KIND, Rectangle(east=0, north=0, width=1, length=2), details=details)


def test_everything_is_shown_unless_it_is_left_out():
    yew = new_item(tree.KIND, Point(0, 0))
    free, used = a_grave(grave.State.FREE), a_grave(grave.State.OCCUPIED)
    assert all(Showing().shows(i) for i in (yew, free, used))
    no_free = Showing().with_state(FREE, shown=False)
    assert [no_free.shows(i) for i in (yew, free, used)] == [True, False, True]
    no_graves = Showing().with_kind("grave", shown=False)
    assert [no_graves.shows(i) for i in (yew, free, used)] == [True, False, False]
    assert no_free.with_state(FREE, shown=True) == Showing()
    assert no_graves.with_kind("grave", shown=True) == Showing()


def test_what_is_proposed_can_be_left_out_of_one_kind():
    there = a_grave(grave.State.FREE)
    to_come = replace(there, status=Status.PROPOSED)
    showing = Showing(states=frozenset({PROPOSED}))
    assert showing.shows(there)
    assert not showing.shows(to_come)
    assert showing.shows(replace(new_item(tree.KIND, Point(0, 0)), status=Status.PROPOSED))


def test_a_grave_is_told_by_its_state_and_a_tree_by_its_status_alone():
    assert [s.value for s in states_of(grave.KIND)] == [*grave.State, *Status]
    assert [s.value for s in states_of(tree.KIND)] == list(Status)
    assert [d.name for d in telling(grave.KIND)] == ["state"]


def test_texts_that_stand_for_nothing_are_passed_over():
    assert showing_of(["grave|state", "a|b|c|d", "tree"]) == Showing(kinds=frozenset({"tree"}))


@given(
    st.frozensets(st.sampled_from([k.name for k in kinds()])),
    st.frozensets(st.sampled_from([s for k in kinds() for s in states_of(k)])),
)
def test_what_is_kept_as_words_comes_back(hidden, states):
    showing = Showing(kinds=hidden, states=states)
    assert showing_of(showing.words()) == showing
