"""The tool that lays out rows: two clicks and Enter, what is typed, ends that are held."""

from collections.abc import Iterable

import pytest
from shapely import box

from plan_editor.drafting.row_ends import further
from plan_editor.drafting.row_wish import OTHER_END, OTHER_SIDE, RowWish, next_free, row_kinds
from plan_editor.drafting.tool import Act, Answer, Pointer, Setting
from plan_editor.drafting.tools.row import BEGIN, TOOL
from plan_editor.edits.rows import LayOutRow, StretchRow
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import Axis, at_pitch, head_of
from plan_editor.ground.rows import rows
from plan_editor.kinds import ashes_plot, grave, section
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import Plan, plan_of

NORTH = Axis(start=(0.0, 0.0), bearing_deg=0.0)


def graves(count: int, numbers: Iterable[str] = ()) -> list[Item]:
    """Return a row that runs north, its feet to the east: 1.2 by 2.4 m at 1.5 m."""
    places = at_pitch(NORTH, (1.2, 2.4), count, 1.5, right=True)
    told = [*numbers, *(f"A {n}" for n in range(1, count + 1))]
    return [
        new_item(grave.KIND, p, number=n) for p, n in zip(places, told[:count], strict=True)
    ]


class Drawing:
    """A plan and the row tool in hand."""

    def __init__(self, plan: Plan) -> None:
        self.document = Document(plan)
        self.answer = TOOL.start(Setting())
        self.at = (0.0, 0.0)
        self.send(Act.MOVE)

    def send(self, act: Act, east: float = 0.0, north: float = 0.0, **more) -> Answer:
        pointer = Pointer(act=act, east=east, north=north, reach=0.3, **more)
        self.at = (east, north)
        self.answer = self.answer.tool.take(pointer, self.document.plan)
        if self.answer.edit is not None:
            self.document.apply(self.answer.edit)
        return self.answer

    def click(self, east: float, north: float) -> Answer:
        self.send(Act.PRESS, east, north)
        return self.send(Act.RELEASE, east, north)

    def fill(self, **typed: str) -> Answer:
        before = {b.name: b.text for b in self.answer.blanks}
        return self.send(Act.FILL, *self.at, filled=tuple((before | typed).items()))

    @property
    def graves(self) -> list[Item]:
        return list(self.document.plan.of(grave.KIND))


def test_two_clicks_and_enter_lay_out_a_row_like_those_there_are() -> None:
    drawing = Drawing(plan_of(graves(5)))
    assert drawing.send(Act.MOVE).prompt == BEGIN
    drawing.click(10.0, 0.0)
    assert "6 graves, B 1 to B 6" in drawing.send(Act.MOVE, 10.0, 8.7).figures
    drawing.click(10.0, 8.7)
    assert drawing.document.undo_title is None
    answer = drawing.send(Act.FINISH, 10.0, 8.7)
    assert drawing.document.undo_title == "Lay out 6 graves in a row, B 1 to B 6"
    new = [g.rectangle for g in drawing.graves[5:]]
    assert [r.north for r in new] == pytest.approx([0.0, 1.5, 3.0, 4.5, 6.0, 7.5])
    assert {(r.width, r.length, r.facing_deg) for r in new} == {(1.2, 2.4, 90.0)}
    assert answer.prompt == BEGIN


def test_a_click_where_the_next_row_begins_lays_out_the_last() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.click(10.0, 0.0)
    drawing.click(10.0, 8.7)
    drawing.click(13.0, 0.0)
    assert drawing.document.undo_title == "Lay out 6 graves in a row, B 1 to B 6"
    drawing.click(13.0, 4.2)
    drawing.send(Act.FINISH)
    assert drawing.document.undo_title == "Lay out 3 graves in a row, C 1 to C 3"


def test_a_row_drawn_southward_still_has_its_feet_to_the_east() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.click(10.0, 8.7)
    drawing.click(10.0, 0.0)
    drawing.send(Act.FINISH)
    new = drawing.graves[5:]
    assert {round(g.rectangle.facing_deg) for g in new} == {90}
    assert new[0].number == "B 1"
    assert head_of(new[0].rectangle)[1] > head_of(new[-1].rectangle)[1]


def test_the_other_side_and_the_other_end_are_offered() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.send(Act.TAKE, offer=OTHER_SIDE)
    drawing.click(10.0, 0.0)
    drawing.send(Act.TAKE, 10.0, 4.2, offer=OTHER_END)
    drawing.click(10.0, 4.2)
    offers = {o.name: o.on for o in drawing.send(Act.TAKE, offer="nothing of ours").offers}
    assert offers == {OTHER_SIDE: True, OTHER_END: True}
    drawing.send(Act.FINISH)
    new = drawing.graves[5:]
    assert {round(g.rectangle.facing_deg) for g in new} == {270}
    assert [g.number for g in new] == ["B 3", "B 2", "B 1"]
    assert drawing.document.undo_title == "Lay out 3 graves in a row, B 3 to B 1"


@pytest.mark.parametrize(
    ("typed", "count", "pitch"),
    [
        ({"count": "4"}, 4, (8.7 - 1.2) / 3),
        ({"pitch": "2.00"}, 5, 2.0),
        ({"pitch": "6' 6\""}, 5, 1.9812),
        ({"size": "4' by 9'"}, 6, (8.7 - 1.2192) / 5),
        ({"size": "1.0 x 2.0"}, 6, (8.7 - 1.0) / 5),
    ],
)
def test_what_is_typed_rules(typed: dict[str, str], count: int, pitch: float) -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.click(10.0, 0.0)
    drawing.fill(**typed)
    drawing.click(10.0, 8.7)
    drawing.send(Act.FINISH)
    new = drawing.graves[5:]
    assert len(new) == count
    heads = [head_of(g.rectangle)[1] for g in new]
    assert heads[1] - heads[0] == pytest.approx(pitch, abs=1e-5)


def test_whichever_of_count_and_pitch_was_typed_last_rules_and_empty_is_usual() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.click(10.0, 0.0)
    drawing.click(10.0, 8.7)
    assert len(drawing.fill(count="3").preview) == 3 + 3  # the line and both ends
    assert len(drawing.fill(pitch="2").preview) == 5 + 3
    assert len(drawing.fill(pitch="").preview) == 6 + 3
    assert len(drawing.fill(count="2").preview) == 2 + 3
    assert len(drawing.fill(count="").preview) == 6 + 3
    drawing.fill(size="2 by 3")
    assert len(drawing.fill(size="").preview) == 6 + 3
    drawing.fill(first="N 07")
    drawing.send(Act.FINISH)
    assert drawing.graves[-1].number == "N 12"


def test_what_cannot_be_read_is_told_and_changes_nothing() -> None:
    drawing = Drawing(plan_of(graves(5)))
    for wrong, told in (
        ({"count": "many"}, "no count"),
        ({"count": "501"}, "from 1 to 500"),
        ({"pitch": "wide"}, "not a length"),
        ({"size": "2.4"}, "width by length"),
        ({"size": "0.01 by 2"}, "no size"),
        ({"size": "1 by 90"}, "no size"),
    ):
        for step in ((), ((10.0, 0.0),), ((10.0, 0.0), (10.0, 8.7))):
            drawing.send(Act.CANCEL)
            for place in step:
                drawing.click(*place)
            assert told in drawing.fill(**wrong).prompt
    assert drawing.document.undo_title is None


def test_an_unnumbered_row_and_one_number_that_cannot_be_counted_on() -> None:
    drawing = Drawing(plan_of(graves(5)))
    for first, numbers in (("", ["", "", ""]), ("north", ["north", "", ""])):
        drawing.click(10.0, 0.0)
        drawing.fill(first=first)
        drawing.click(10.0, 4.2)
        drawing.send(Act.FINISH)
        assert [g.number for g in drawing.graves[-3:]] == numbers
        drawing.document.undo()


def test_going_back_and_giving_up_leave_nothing() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.click(10.0, 0.0)
    drawing.send(Act.BACK)
    assert drawing.answer.prompt == BEGIN
    drawing.click(10.0, 0.0)
    drawing.click(10.0, 0.0)  # no way yet
    drawing.click(10.0, 8.7)
    drawing.send(Act.BACK, 10.0, 5.0)
    assert drawing.answer.origin == (10.0, 0.0)
    drawing.click(10.0, 8.7)
    drawing.send(Act.CANCEL)
    assert drawing.answer.prompt == BEGIN
    assert drawing.document.undo_title is None


def test_a_row_is_drawn_in_one_go_of_the_pen() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.send(Act.PRESS, 10.0, 0.0)
    drawing.send(Act.MOVE, 10.0, 4.0)
    drawing.send(Act.RELEASE, 10.0, 4.2)
    drawing.send(Act.FINISH)
    assert len(drawing.graves) == 8


def test_the_ends_of_a_row_that_is_not_laid_out_yet_can_be_shifted() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.click(10.0, 0.0)
    drawing.click(10.0, 8.7)
    for grip, to in (((10.0, 8.7), (11.0, 11.7)), ((10.0, 0.0), (11.0, 0.0))):
        drawing.send(Act.PRESS, *grip)
        drawing.send(Act.MOVE, *to)
        drawing.send(Act.RELEASE, *to)
    drawing.send(Act.MOVE, 50.0, 50.0)  # nothing is in hand any more
    drawing.send(Act.PRESS, 11.0, 0.0)
    drawing.send(Act.MOVE, 11.0, 11.7)  # upon the other end: it stays where it was
    drawing.send(Act.RELEASE, 11.0, 11.7)
    drawing.send(Act.FINISH)
    new = [g.rectangle for g in drawing.graves[5:]]
    assert {r.bearing_deg for r in new} == {0.0}
    assert new[0].east == pytest.approx(11.0)
    assert len(new) == 8


def test_a_typed_length_sets_the_other_end() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.click(10.0, 0.0)
    drawing.send(Act.PRESS, 10.0, 8.7, typed=True)
    drawing.send(Act.PRESS, 10.0, 4.2, typed=True)
    drawing.send(Act.PRESS, 10.0, 0.0, typed=True)  # onto the start: nothing changes
    drawing.send(Act.FINISH)
    assert len(drawing.graves) == 8


def test_ashes_plots_stand_in_rows_too() -> None:
    assert {"grave", "ashes_plot"} <= {k.name for k in row_kinds()}
    drawing = Drawing(plan_of(graves(5)))
    drawing.fill(kind="Ashes plot")
    drawing.click(10.0, 0.0)
    drawing.click(10.0, 3.0)
    drawing.send(Act.FINISH)
    assert drawing.document.plan.count(ashes_plot.KIND) > 2
    drawing.fill(kind="Something else")
    drawing.fill(kind="Ashes plot")
    drawing.click(20.0, 0.0)
    drawing.fill(count="1")
    assert drawing.click(20.0, 3.0).figures[-1].startswith("on 3.00 m")
    assert RowWish(kind=grave.KIND).habit.told_by == "the usual size"
    named = TOOL.start(Setting(kind=ashes_plot.KIND))
    assert named.blanks[0].text == "Ashes plot"
    assert "memorial" not in {k.name for k in row_kinds()}


def test_the_end_of_a_row_is_drawn_to_where_the_scan_has_it() -> None:
    row = graves(5)
    drawing = Drawing(plan_of(row))
    drawing.send(Act.PRESS, 0.1, 7.2)
    assert drawing.answer.chosen is not None
    drawing.send(Act.RELEASE, 0.1, 7.2)
    drawing.send(Act.MOVE, 0.1, 9.2)
    assert any("5 graves on 9.20 m" in f for f in drawing.answer.figures)
    drawing.send(Act.RELEASE, 0.0, 9.2)
    assert drawing.document.undo_title == "Lay a row of 5 graves to other ends"
    heads = [head_of(g.rectangle)[1] for g in drawing.graves]
    assert heads == pytest.approx([0.6, 2.6, 4.6, 6.6, 8.6])
    assert [g.number for g in drawing.graves] == [g.number for g in row]


def test_the_start_of_a_row_is_held_too_and_let_go_where_it_was() -> None:
    drawing = Drawing(plan_of(graves(5)))
    for let_go in (Act.FINISH, Act.CANCEL):
        drawing.send(Act.PRESS, 0.0, 0.0)
        drawing.send(Act.MOVE, 0.0, -2.0)
        drawing.send(let_go, 0.0, -2.0)
        assert drawing.document.undo_title is None
    drawing.send(Act.PRESS, 0.0, 0.0)
    drawing.send(Act.MOVE, 0.0, 7.2)  # upon the other end
    assert drawing.answer.figures == ()
    drawing.send(Act.PRESS, 0.0, 0.0)  # back where it was
    assert drawing.document.undo_title is None
    drawing.send(Act.PRESS, 0.0, 0.0)
    drawing.send(Act.PRESS, 0.0, -2.0, typed=True)
    assert isinstance(drawing.answer.edit, StretchRow)


def test_a_row_is_carried_on_by_drawing_its_end_out() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.send(Act.PRESS, 0.0, 7.2)
    drawing.send(Act.TAKE, 0.0, 7.2, offer="more")
    drawing.send(Act.MOVE, 0.0, 11.6)
    assert drawing.answer.figures == ("3 more", "A 6 to A 8")
    drawing.send(Act.RELEASE, 0.0, 11.6)
    assert isinstance(drawing.answer.edit, LayOutRow)
    (row,) = rows(drawing.document.plan)
    assert len(row.ids) == 8
    assert row.pitch_m == pytest.approx(1.5)
    drawing.send(Act.PRESS, *row.end)
    drawing.send(Act.TAKE, *row.end, offer="more")
    drawing.send(Act.MOVE, row.end[0], row.end[1] + 0.4)
    drawing.send(Act.RELEASE, row.end[0], row.end[1] + 0.4)
    assert drawing.answer.edit is None  # not as far as another grave
    drawing.send(Act.PRESS, *row.end)
    drawing.send(Act.TAKE, *row.end, offer="more")
    answer = drawing.send(Act.TAKE, *row.end, offer="more")
    assert not answer.offers[0].on


def test_further_graves_can_be_counted_out() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.click(0.0, 7.2)
    for wrong in ("", "none", "0", "501"):
        assert "whole number" in drawing.fill(further=wrong).prompt
    drawing.fill(further="2")
    assert [g.number for g in drawing.graves[5:]] == ["A 6", "A 7"]


def test_before_the_first_of_a_row_no_number_below_one_is_given() -> None:
    row = graves(5, ["A 3", "A 4", "A 5", "A 6", "A 7"])
    plan = plan_of(row)
    (found,) = rows(plan)
    assert [i.number for i in further(plan, found, 2, at_end=False)] == ["A 2", "A 1"]
    assert [i.number for i in further(plan, found, 3, at_end=False)] == ["", "", ""]
    bare = plan_of(graves(5, [""] * 5))
    (unnumbered,) = rows(bare)
    assert [i.number for i in further(bare, unnumbered, 1, at_end=True)] == [""]


def test_a_held_row_of_which_one_was_removed_meanwhile_is_let_go() -> None:
    row = graves(5)
    drawing = Drawing(plan_of(row))
    drawing.send(Act.PRESS, 0.0, 7.2)
    answer = drawing.answer.tool.take(Pointer(act=Act.MOVE), plan_of(row[1:]))
    assert answer.prompt == BEGIN


def test_the_next_number_is_that_of_the_section() -> None:
    details = section.SectionDetails(name="North", prefix="N")
    north = new_item(section.KIND, box(-50, 20, 50, 90), details=details)
    plan = plan_of([north, *graves(3)])
    assert next_free(plan, grave.KIND, (0.0, 30.0)) == "N 1"
    assert next_free(plan, grave.KIND, (0.0, 0.0)) == "B 1"
    there = new_item(grave.KIND, Rectangle(east=0, north=30, width=1, length=2), number="N 07")
    assert next_free(plan_of([north, there]), grave.KIND, (0.0, 30.0)) == "N 08"


def test_what_is_usual_is_shown_before_the_pointer_has_moved() -> None:
    plan = plan_of(graves(5))
    shown = TOOL.start(Setting(plan=plan))
    assert shown.figures == ("as in the row there is",)
    written = {b.name: b.text for b in shown.blanks}
    assert (written["pitch"], written["size"]) == ("1.50 m", "1.20 × 2.40")


def test_the_pitch_that_comes_of_it_is_shown() -> None:
    drawing = Drawing(plan_of(graves(5)))
    drawing.click(10.0, 0.0)
    shown = drawing.click(10.0, 8.2)
    # (8.2 - 1.2) / 5 = 1.40 from one of six to the next
    assert {b.name: b.text for b in shown.blanks}["pitch"] == "1.40 m"
    drawing.fill(count="1")
    assert {b.name: b.text for b in drawing.answer.blanks}["pitch"] == "1.50 m"
