"""The tool that goes through what was found in a scan, one after another or by the row."""

from dataclasses import replace

import pytest
from shapely import Point, box

from plan_editor.drafting.proposed import Course
from plan_editor.drafting.tool import Act, Answer, Pointer, Setting
from plan_editor.drafting.tools.proposals import ALL, LEFT, NONE, PUT, THIS, TOOL
from plan_editor.edits.basic import Remove
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.proposals import Proposal
from plan_editor.kinds import base_plan, grave
from plan_editor.kinds.base_plan import BasePlanDetails
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Item, Method, new_item
from plan_editor.plan.plan import plan_of

SHEET = Rectangle(east=-50.0, north=-50.0, width=100.0, length=100.0).outline()
SCAN = replace(
    new_item(
        base_plan.KIND,
        SHEET,
        details=BasePlanDetails(
            name="Plan of 1962",
            digest="0" * 64,
            extent=(0.0, 0.0, 1000.0, 1000.0),
            fit=(0.1, 0.0, -50.0, 0.0, -0.1, 50.0),
        ),
    ),
    basis=Basis(sd_m=0.08),
)


def found(east: float, north: float, score: float = 0.9) -> Proposal:
    """Return a grave with its head to the west, its south-west corner at a place."""
    place = Rectangle(east=east, north=north, width=1.2, length=2.4)
    return Proposal(rectangle=place, score=score, base_plan=SCAN.id)


ROW = tuple(found(0.0, 1.5 * n) for n in range(4))
OTHER = tuple(found(4.0, 1.5 * n) for n in range(2))


class Walk:
    """A plan with a scan, and the tool in hand."""

    def __init__(
        self,
        proposals: tuple[Proposal, ...] = (*ROW, *OTHER),
        there: tuple[Item, ...] = (),
        left_out: frozenset[Proposal] = frozenset(),
    ) -> None:
        self.document = Document(plan_of([SCAN, *there]))
        self.answer = TOOL.start(
            Setting(plan=self.document.plan, proposals=proposals, left_out=left_out)
        )

    def send(self, act: Act, east: float = 0.0, north: float = 0.0, **more) -> Answer:
        pointer = Pointer(act=act, east=east, north=north, reach=0.2, **more)
        self.answer = self.answer.tool.take(pointer, self.document.plan)
        if self.answer.edit is not None:
            self.document.apply(self.answer.edit)
        return self.answer

    def offer(self, name: str) -> Answer:
        offered = next(o for o in self.answer.offers if o.name == name)
        assert offered.possible
        return self.send(Act.TAKE, offer=name)

    @property
    def course(self) -> Course:
        return self.answer.tool.course  # type: ignore[attr-defined]  # of that tool

    @property
    def graves(self) -> dict[str, Rectangle | None]:
        return {i.number: i.rectangle for i in self.document.plan.of(grave.KIND)}


def test_the_first_of_the_row_is_in_hand_strongly_and_the_others_lightly() -> None:
    walk = Walk()
    assert walk.course.at == ROW[0]
    assert walk.answer.prompt == THIS
    assert walk.answer.preview[0].equals(ROW[0].rectangle.outline())
    assert len(walk.answer.lightly) == 6  # five others, and the line along its row
    assert walk.answer.look_at is not None
    assert box(*walk.answer.look_at).contains(ROW[0].rectangle.outline())
    assert "6 to go" in walk.answer.figures


def test_enter_draws_it_traced_on_its_scan_as_one_step_and_the_next_is_in_hand() -> None:
    walk = Walk()
    walk.send(Act.FINISH)
    assert walk.graves == {"A 1": ROW[0].rectangle}
    (drawn,) = walk.document.plan.of(grave.KIND)
    assert drawn.basis.method is Method.TRACED
    assert drawn.basis.base_plan == SCAN.id
    assert drawn.basis.source == "Plan of 1962"
    assert walk.course.at == ROW[1]
    assert walk.answer.blanks[0].text == "A 2"
    walk.offer("accept")
    walk.send(Act.MOVE)
    assert sorted(walk.graves) == ["A 1", "A 2"]
    assert walk.answer.blanks[0].text == "A 3"
    walk.document.undo()
    assert sorted(walk.graves) == ["A 1"]
    walk.send(Act.MOVE)
    assert ROW[1] in walk.course.open


def test_all_of_a_row_is_drawn_as_one_step_numbered_about_the_one_in_hand() -> None:
    walk = Walk()
    walk.send(Act.PRESS, 1.2, 3.6)
    walk.send(Act.RELEASE, 1.2, 3.6)
    assert walk.course.at == ROW[2]
    walk.send(Act.FILL, filled=(("number", " P 7 "),))
    walk.offer("row")
    assert sorted(walk.graves) == ["P 5", "P 6", "P 7", "P 8"]
    assert walk.course.at == OTHER[0]
    assert walk.answer.blanks[0].text == "Q 1"
    assert walk.document.undo_title == "Lay out 4 graves in a row, P 5 to P 8"
    walk.document.undo()
    assert walk.graves == {}


def test_those_for_whom_no_number_is_left_get_none() -> None:
    walk = Walk()
    walk.send(Act.PRESS, 1.2, 3.6)
    walk.send(Act.RELEASE, 1.2, 3.6)
    walk.send(Act.FILL, filled=(("number", "P 2"),))
    walk.offer("row")
    numbers = [i.number for i in walk.document.plan.of(grave.KIND)]
    assert numbers == ["", "P 1", "P 2", "P 3"]


def test_a_name_is_no_number_and_goes_to_the_one_in_hand_alone() -> None:
    walk = Walk()
    walk.send(Act.FILL, filled=(("number", "Old Tom"),))
    walk.offer("row")
    numbers = [i.number for i in walk.document.plan.of(grave.KIND)]
    assert numbers == ["Old Tom", "", "", ""]
    assert walk.answer.blanks[0].text == "A 1"


def test_what_is_left_out_is_told_and_can_be_gone_back_to() -> None:
    walk = Walk()
    walk.offer("leave out")
    assert walk.answer.left_out == {ROW[0]}
    assert walk.course.at == ROW[1]
    assert len(walk.course.its_row()) == 3
    walk.send(Act.BACK)
    assert walk.course.at == ROW[0]
    assert walk.answer.prompt == LEFT
    assert not next(o for o in walk.answer.offers if o.name == "back").possible
    walk.send(Act.BACK)
    assert walk.course.at == ROW[0]
    walk.send(Act.FINISH)
    assert walk.answer.left_out == frozenset()
    assert list(walk.graves) == ["A 1"]


def test_what_was_left_out_before_does_not_come() -> None:
    walk = Walk(left_out=frozenset({ROW[0], ROW[1]}))
    assert walk.course.at == ROW[2]
    assert "4 to go" in walk.answer.figures


def test_what_is_drawn_already_does_not_come_and_its_row_is_numbered_on() -> None:
    there = new_item(grave.KIND, ROW[0].rectangle.moved(0.05, 0.0), number="C 4")
    walk = Walk(there=(there,))
    assert walk.course.at == ROW[1]
    assert walk.answer.blanks[0].text == "C 5"


def test_a_number_that_is_taken_is_not_offered_again() -> None:
    there = new_item(grave.KIND, ROW[0].rectangle, number="C 4")
    far = new_item(grave.KIND, ROW[0].rectangle.moved(30.0, 0.0), number="C 5")
    assert Walk(there=(there, far)).answer.blanks[0].text == "D 1"


def test_a_row_that_counts_down_is_carried_on_downwards() -> None:
    there = tuple(
        new_item(grave.KIND, p.rectangle, number=n)
        for p, n in zip(ROW, ("C 4", "C 3"), strict=False)
    )
    walk = Walk(there=there)
    assert walk.answer.blanks[0].text == "C 2"
    walk.offer("row")
    assert {"C 2", "C 1"} <= set(walk.graves)


def test_a_row_that_counts_down_to_nothing_goes_on_with_another_letter() -> None:
    there = tuple(
        new_item(grave.KIND, p.rectangle, number=n)
        for p, n in zip(ROW, ("C 2", "C 1"), strict=False)
    )
    walk = Walk(there=there)
    assert walk.answer.blanks[0].text == "D 1"


def test_drawn_by_somebody_else_meanwhile_it_is_in_hand_no_longer() -> None:
    walk = Walk()
    there = new_item(grave.KIND, ROW[0].rectangle, number="C 1")
    walk.document = Document(plan_of([SCAN, there]))
    walk.send(Act.MOVE)
    assert walk.course.at == ROW[1]
    assert walk.answer.blanks[0].text == "C 2"


def test_after_the_last_it_says_so_and_goes_back_all_the_same() -> None:
    walk = Walk(proposals=OTHER)
    walk.offer("leave out")
    walk.offer("leave out")
    assert walk.course.at is None
    assert walk.answer.prompt == ALL
    assert walk.answer.preview == ()
    for act in (Act.FINISH, Act.MOVE, Act.PRESS):
        assert walk.send(act, 90.0, 90.0).edit is None
    walk.send(Act.TAKE, offer="leave out")
    walk.send(Act.TAKE, offer="row")
    assert walk.course.at is None
    walk.offer("back")
    assert walk.course.at == OTHER[1]


def test_the_last_one_drawn_ends_it() -> None:
    walk = Walk(proposals=OTHER)
    walk.offer("row")
    assert walk.answer.prompt == ALL
    assert not walk.answer.offers
    assert len(walk.graves) == 2


def test_without_proposals_it_says_where_they_come_from() -> None:
    walk = Walk(proposals=())
    assert walk.answer.prompt == NONE
    assert walk.send(Act.BACK).edit is None
    assert walk.send(Act.CANCEL).preview == ()


@pytest.mark.parametrize("clicked", [True, False], ids=["by two clicks", "drawn"])
def test_a_corner_is_drawn_to_its_place_and_the_opposite_one_stays(*, clicked: bool) -> None:
    walk = Walk()
    walk.send(Act.PRESS, 2.45, 1.25)
    assert walk.answer.prompt == PUT
    assert walk.answer.offers == ()
    if clicked:
        walk.send(Act.RELEASE, 2.45, 1.25)
        walk.send(Act.MOVE, 2.7, 1.3)
        walk.send(Act.PRESS, 2.7, 1.3)
    else:
        walk.send(Act.MOVE, 2.7, 1.3)
        walk.send(Act.RELEASE, 2.7, 1.3)
    walk.send(Act.FINISH, 2.7, 1.3)
    (drawn,) = walk.graves.values()
    assert drawn == Rectangle(east=0.0, north=0.0, width=1.3, length=2.7)


def test_a_side_is_drawn_by_its_middle_and_all_of_it_by_its_inside() -> None:
    walk = Walk()
    walk.send(Act.PRESS, 2.4, 0.6)
    walk.send(Act.MOVE, 2.9, 0.7)
    walk.send(Act.RELEASE, 2.9, 0.7)
    walk.send(Act.PRESS, 1.2, 0.4)
    walk.send(Act.MOVE, 1.3, 0.7)
    walk.send(Act.FINISH, 1.3, 0.7)
    walk.send(Act.FINISH, 1.3, 0.7)
    (drawn,) = walk.graves.values()
    assert drawn is not None
    assert drawn.length == pytest.approx(2.9)
    assert (drawn.east, drawn.north) == pytest.approx((0.1, 0.3))


def test_a_click_into_the_one_in_hand_moves_nothing() -> None:
    walk = Walk()
    walk.send(Act.PRESS, 1.2, 0.6)
    walk.send(Act.RELEASE, 1.2, 0.6)
    assert walk.course.rectangle == ROW[0].rectangle
    assert walk.answer.prompt == THIS


def test_what_is_held_is_let_go_by_backspace_and_escape_as_it_was() -> None:
    walk = Walk()
    for act in (Act.BACK, Act.CANCEL):
        walk.send(Act.PRESS, 0.0, 0.0)
        walk.send(Act.MOVE, 0.5, 0.0)
        shown = walk.send(act, 0.5, 0.0)
        assert walk.course.rectangle == ROW[0].rectangle
        assert bool(shown.preview) is (act is Act.BACK)


def test_what_is_held_is_let_go_when_it_was_drawn_by_somebody_else() -> None:
    walk = Walk()
    walk.send(Act.PRESS, 0.0, 0.0)
    there = new_item(grave.KIND, ROW[0].rectangle, number="C 1")
    walk.document = Document(plan_of([SCAN, there]))
    walk.send(Act.MOVE, 0.5, 0.0)
    assert walk.course.at == ROW[1]


def test_without_its_scan_nothing_is_drawn() -> None:
    walk = Walk()
    walk.document.apply(Remove(ids=(SCAN.id,)))
    assert walk.send(Act.FINISH).edit is None
    assert walk.graves == {}


def test_the_bar_lies_by_the_head() -> None:
    bar = Walk().answer.preview[1]
    assert bar.distance(Point(0.0, 0.6)) == pytest.approx(0.08 * 2.4)
