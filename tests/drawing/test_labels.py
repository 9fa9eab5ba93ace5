"""Labels: none over another, none over a stone."""

import numpy as np
import pytest
import shapely
from churchyard import churchyard, grave, made, stone
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, affinity, box

from plan_editor.drawing.compose import grouped
from plan_editor.drawing.ink import Anchor, Fill, Stroke, Text
from plan_editor.drawing.labels import Obstacles, place
from plan_editor.drawing.lettering import CAPITAL, width
from plan_editor.drawing.numbers import NUMBERS
from plan_editor.drawing.obstacles import obstacles
from plan_editor.drawing.viewport import Viewport
from plan_editor.drawing.wish import Wish
from plan_editor.drawing.wishes import label_of, wishes
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.plan import Plan, plan_of

FRAME = (20.0, 10.0, 410.0, 287.0)
NONE = Obstacles(open=np.array([], dtype=object), solid=np.array([], dtype=object))


def outline(text: Text) -> Polygon:
    """Return the room that capitals of a text take on paper."""
    long = width(text.text, bold=text.bold) * text.size
    left = {Anchor.LEFT: 0.0, Anchor.MIDDLE: -long / 2, Anchor.RIGHT: -long}[text.anchor]
    flat = box(text.x + left, text.y, text.x + left + long, text.y + text.size * CAPITAL)
    return affinity.rotate(flat, text.turn_deg, origin=(text.x, text.y))


def placed_on(plan: Plan, scale: float) -> tuple[list[Text], tuple[str, ...]]:
    groups = grouped(plan.items.values())
    view = Viewport(east=40.0, north=30.0, scale=scale, frame=FRAME)
    found = place(wishes(groups, view), obstacles(groups, view), FRAME)
    return [i for i in found.ink if isinstance(i, Text)], found.left_out


@pytest.mark.parametrize("scale", [100.0, 200.0, 250.0, 500.0, 1000.0])
def test_no_two_labels_overlap_and_none_is_lost_unsaid(scale: float) -> None:
    plan = churchyard()
    texts, left_out = placed_on(plan, scale)
    boxes = np.array([outline(t) for t in texts])
    one, other = shapely.STRtree(boxes).query(boxes, predicate="intersects")
    assert (one == other).all()
    wanted = [label_of(i.kind, i) for i in plan.items.values() if i.shape is not None]
    assert len(texts) + len(left_out) == len([w for w in wanted if w])


def test_no_label_leaves_the_frame() -> None:
    texts, _ = placed_on(churchyard(), 250.0)
    assert all(box(*FRAME).contains(outline(t)) for t in texts)


def test_a_number_stands_outside_the_foot() -> None:
    (text,), _ = placed_on(plan_of([grave("C 14", 40, 30)]), 200.0)
    # head to the west: the foot is at the eastern end
    foot = 215.0 + 2.2 * 5
    assert outline(text).bounds[0] > foot
    assert outline(text).centroid.y == pytest.approx(148.5 + 2.5, abs=0.01)


def test_numbers_of_close_rows_stand_inside_and_all_alike() -> None:
    rows = [grave(f"C {n}", 40 + 2.5 * n, 30) for n in range(10)]
    texts, _ = placed_on(plan_of(rows), 200.0)
    view = Viewport(east=40.0, north=30.0, scale=200.0, frame=FRAME)
    for text, item in zip(sorted(texts, key=lambda t: t.x), rows, strict=True):
        assert view.shape(item.shape).contains(outline(text))


def test_a_number_is_smaller_where_it_then_fits_inside() -> None:
    rows = [grave(f"{n}C1", 40 + 2.5 * n, 30) for n in range(10)]
    texts, _ = placed_on(plan_of(rows), 390.0)
    assert {t.size for t in texts} == {NUMBERS[1]}


def test_numbers_are_left_out_together_where_most_have_no_room() -> None:
    rows = [grave(f"Row C {n}", 40 + 2.3 * (n % 20), 30 + 1.05 * (n // 20)) for n in range(200)]
    texts, left_out = placed_on(plan_of(rows), 1000.0)
    assert texts == []
    assert len(left_out) == 200


def test_no_number_lies_on_another_grave() -> None:
    plan = churchyard()
    view = Viewport(east=40.0, north=30.0, scale=500.0, frame=FRAME)
    graves = {
        i.number: view.shape(i.shape) for i in plan.items.values() if i.kind.name == "grave"
    }
    texts, _ = placed_on(plan, 500.0)
    for text in texts:
        if text.text in graves:
            hit = [n for n, g in graves.items() if g.buffer(-0.01).intersects(outline(text))]
            assert hit in ([], [text.text])


def test_no_number_lies_on_a_stone() -> None:
    on = grave("C 1", 40, 30)
    tight = grave("C 2", 42.3, 30)
    texts, _ = placed_on(plan_of([on, tight, stone("M 1", tight), stone("M 2", on)]), 200.0)
    view = Viewport(east=40.0, north=30.0, scale=200.0, frame=FRAME)
    stones = [view.shape(stone("", g).shape) for g in (on, tight)]
    assert not any(s.intersects(outline(t)) for s in stones for t in texts)


@given(st.floats(0, 359.9))
def test_a_number_is_never_upside_down_whatever_way_the_grave_lies(bearing: float) -> None:
    lying = made(
        "grave",
        Rectangle(east=40, north=30, width=1, length=2.2, bearing_deg=bearing),
        number="7",
    )
    (text,), _ = placed_on(plan_of([lying]), 100.0)
    assert abs(text.turn_deg) <= 45.01


def test_a_label_without_room_has_a_leader() -> None:
    crowd = Obstacles(
        open=np.array([box(95, 95, 105, 105)], dtype=object),
        solid=np.array([box(95, 95, 105, 105)], dtype=object),
    )
    wish = Wish(text="12", places=np.array([(100.0, 100.0)]), target=(100.0, 100.0))
    found = place([wish], crowd, (0, 0, 200, 200))
    leader, text = found.ink
    assert isinstance(leader, Stroke)
    assert isinstance(text, Text)
    assert leader.lines[0][0].tolist() == [100.0, 100.0]
    assert outline(text).distance(Point(leader.lines[0][1])) < 0.6


def test_a_thicket_of_leaders_is_none() -> None:
    wall = np.array([box(0, 0, 100, 100)], dtype=object)
    crowd = [
        Wish(text=str(n), places=np.array([(50.0, 50.0)]), target=(99.0, float(n)))
        for n in range(60)
    ]
    found = place(crowd, Obstacles(open=wall, solid=wall), (0, 0, 400, 100))
    assert found.ink == ()
    assert len(found.left_out) == 60


def test_a_name_may_lie_on_line_work_where_nothing_else_is_free() -> None:
    line = np.array([LineString([(0, 50), (100, 50)]).buffer(20)], dtype=object)
    wish = Wish(text="Path", places=np.array([(50.0, 50.0)]), target=(50.0, 50.0))
    found = place([wish], Obstacles(open=line, solid=NONE.solid), (0, 0, 100, 100))
    assert [t.text for t in found.ink if isinstance(t, Text)] == ["Path"]


def test_a_boxed_label_has_paper_under_it_and_a_line_round_it() -> None:
    wish = Wish(text="M 1", places=np.array([(50.0, 50.0)]), target=(50.0, 50.0), boxed=True)
    fill, ring, text = place([wish], NONE, (0, 0, 100, 100)).ink
    assert isinstance(fill, Fill)
    assert isinstance(ring, Stroke)
    assert isinstance(text, Text)
    assert Polygon(ring.lines[0]).contains(outline(text))


def test_no_labels_make_no_ink() -> None:
    assert place([], NONE, FRAME).ink == ()


def test_a_dimension_is_written_with_its_length() -> None:
    item = made("dimension", LineString([(0, 0), (2.74, 0)]), words="kerb to kerb", feet=True)
    told = label_of(item.kind, item)
    # 2.74 m are 8 ft 11 7/8 in: 107.87 inches
    assert told.startswith("2.74 m (8")
    assert told.endswith("kerb to kerb")


def test_names_of_areas_points_and_lines_are_placed() -> None:
    plan = plan_of([
        made("building", box(30, 20, 60, 40), name="St Ŵyne’s church"),
        made("path", LineString([(0, 0), (30, 3)]), name="South path", width_m=1.5),
        made("tree", Point(70, 50), species="Yew"),
        made("note", Point(10, 50), text="See the faculty of 1987. " * 10),
        made("spot_level", Point(5, 5)),
    ])  # fmt: skip
    texts, left_out = placed_on(plan, 250.0)
    told = {t.text for t in texts}
    assert {"St Ŵyne’s church", "South path", "Yew"} < told
    assert any(t.endswith("…") for t in told)
    assert left_out == ()


def test_obstacles_come_in_the_order_of_the_things() -> None:
    groups = grouped(churchyard(rows=2, spaces=3).items.values())
    view = Viewport(east=40.0, north=30.0, scale=200.0, frame=FRAME)
    found = obstacles(groups, view)
    items = [i for g in groups for i in g.items]
    assert len(found.open) == len(items)
    for item, shape in zip(items, found.open, strict=True):
        assert shape.distance(view.shape(item.shape)) < 1e-6
    assert len(obstacles((), view).open) == 0


def test_every_wish_knows_what_it_belongs_to() -> None:
    groups = grouped(churchyard(rows=2, spaces=3).items.values())
    view = Viewport(east=40.0, north=30.0, scale=200.0, frame=FRAME)
    items = [i for g in groups for i in g.items]
    found = wishes(groups, view)
    assert all(label_of(items[w.own].kind, items[w.own])[:8] == w.text[:8] for w in found)
    assert len({w.own for w in found}) == len(found)


def test_a_number_may_cross_a_line_within_its_own_grave_and_no_other() -> None:
    crowd = [grave(f"C {n}", 40.0 + 2.25 * (n % 5), 30.0 + 1.05 * (n // 5)) for n in range(25)]
    fence = made("fence", LineString([(46.0, 20.0), (46.2, 45.0)]))
    texts, left_out = placed_on(plan_of([*crowd, fence]), 200.0)
    assert left_out == ()
    view = Viewport(east=40.0, north=30.0, scale=200.0, frame=FRAME)
    graves = {g.number: view.shape(g.shape) for g in crowd}
    assert sum(outline(t).intersects(view.shape(fence.shape)) for t in texts) >= 1
    for text in texts:
        others = [g for number, g in graves.items() if number != text.text]
        assert not any(g.buffer(-0.01).intersects(outline(text)) for g in others)


def test_an_optional_label_without_room_of_its_own_is_left_out_without_a_word() -> None:
    line = np.array([box(0, 0, 100, 100)], dtype=object)
    wish = Wish(text="Ash", places=np.array([(50.0, 50.0)]), target=(50.0, 50.0), optional=True)
    found = place([wish], Obstacles(open=line, solid=NONE.solid), (0, 0, 100, 100))
    assert (found.ink, found.left_out) == ((), ())


def test_labels_take_the_room_that_they_say() -> None:
    wish = Wish(text="M 1", places=np.array([(50.0, 50.0)]), target=(50.0, 50.0), boxed=True)
    found = place([wish], NONE, (0, 0, 100, 100))
    (room,) = found.taken
    assert room.centroid.distance(Point(50, 50)) < 1e-9
    long, high = wish.extent
    assert room.area >= long * high
