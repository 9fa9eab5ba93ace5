"""Field books taken in: lines, points, and what moves because of them."""

from dataclasses import replace
from math import hypot

import pytest
import shapely
from shapely import LineString, Point

from plan_editor.edits.basic import Add, Describe, SetBasis
from plan_editor.edits.field_books import AdjustFieldBooks, TakeInFieldBook
from plan_editor.edits.places import Move
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import grave, mark, observation, tree, wall
from plan_editor.kinds.observation import Measure, ObservationDetails, Side
from plan_editor.plan.document import Document
from plan_editor.plan.item import Basis, Item, Method, new_item
from plan_editor.plan.plan import plan_of
from plan_editor.survey.books.book_settings import BookSettings
from plan_editor.survey.books.field_book import FieldBook
from plan_editor.survey.books.whole_book import whole_book
from plan_editor.survey.grids.grid import Grid

MARKS = {"M1": (0.0, 0.0), "M2": (20.0, 0.0), "M3": (10.0, 15.0)}
PLACES = {**MARKS, "P1": (8.0, 6.0), "P2": (12.0, 4.0), "T1": (7.0, 7.0)}


def fixed(name: str, sd: float | None = 0.01) -> Item:
    basis = Basis(method=Method.GNSS, sd_m=sd)
    return new_item(mark.KIND, Point(MARKS[name]), number=name, basis=basis)


def document(*more: Item, grid: Grid | None = None) -> Document:
    return Document(plan_of([*map(fixed, MARKS), *more], grid=grid))


def tape(start: str, end: str, **more: str) -> dict[str, str]:
    (e0, n0), (e1, n1) = PLACES[start], PLACES[end]
    return {"from": start, "point": end, "distance": f"{hypot(e1 - e0, n1 - n0):.4f}", **more}


def check(start: str, end: str) -> dict[str, str]:
    told = tape(start, end)
    return {"type": "check", "from": start, "to": end, "distance": told["distance"]}


def offset(point: str, along: str, aside: str, **more: str) -> dict[str, str]:
    base = {"from": "M1", "to": "M2", "point": point, "distance": along, "offset": aside}
    return base | more


def ties(point: str, **more: str) -> list[dict[str, str]]:
    return [tape(m, point, **more) for m in MARKS]


def book(*rows: dict[str, str], name: str = "Book 1", date: str = "2026-05") -> FieldBook:
    settings = BookSettings(name=name, date=date, observer="the sexton")
    return whole_book(list(enumerate(rows, 2)), settings)


def numbered(doc: Document, number: str) -> Item:
    (found,) = (i for i in doc.plan.items.values() if i.number == number)
    return found


def at(item: Item) -> tuple[float, float]:
    east, north = shapely.get_coordinates(item.shape)[0].tolist()
    return east, north


def lines(doc: Document) -> list[ObservationDetails]:
    return [o.details for o in doc.plan.of(observation.KIND)]


def test_its_points_come_on_the_plan_with_how_they_are_known():
    doc = document()
    entry = doc.apply(TakeInFieldBook(book=book(*ties("P1"))))
    assert entry is not None
    assert entry.title == "Take in the field book Book 1"
    point = numbered(doc, "P1")
    assert at(point) == pytest.approx((8.0, 6.0), abs=0.002)
    assert (point.kind, point.details.permanent) == (mark.KIND, False)
    basis = point.basis
    assert (basis.method, basis.source, basis.date) == (Method.TAPED, "Book 1", "2026-05")
    assert basis.sd_m is not None
    assert 0.01 < basis.sd_m < 0.04
    doc.undo()
    assert len(doc.plan.items) == 3


def test_its_lines_are_kept_as_they_were_read():
    doc = document()
    doc.apply(TakeInFieldBook(book=book(
        tape("M1", "P1", side="left", to="M2", remarks="wet"),
        tape("M2", "P1"),
        offset("P2", "12", "-4") | {"out": "yes"},
        {"type": "leg", "from": "P1", "to": "A", "distance": "5", "bearing": "75", "rise": "1"},
        {"type": "leg", "from": "A", "to": "M3", "angle": "80", "slope": "", "distance": "3"},
        check("M1", "M2"),
    )))  # fmt: skip
    first, second, aside, leg, turned, checked = lines(doc)
    ids = {i.number: i.id for i in doc.plan.of(mark.KIND)}
    assert (first.measure, first.side, first.remarks) == (Measure.TIE, Side.LEFT, "wet")
    assert (first.from_mark, first.to_mark, first.target) == (ids["M1"], ids["M2"], ids["P1"])
    assert (first.book, first.book_line, first.observer) == ("Book 1", 2, "the sexton")
    assert (second.distance_m, second.sd_m) == (pytest.approx(13.4164), 0.0334)
    assert (aside.offset_m, aside.left_out, aside.target) == (-4.0, True, None)
    assert (leg.from_mark, leg.to_mark, leg.bearing_deg, leg.rise_m) == (
        ids["P1"],
        ids["A"],
        75.0,
        1.0,
    )
    assert (turned.back_mark, turned.angle_deg, turned.angle_sd_deg) == (ids["P1"], 80.0, 0.02)
    assert (checked.measure, checked.to_mark, checked.target) == (
        Measure.CHECK,
        ids["M2"],
        None,
    )


def test_what_cannot_be_placed_is_not_put_on_the_plan_but_its_lines_are_kept():
    doc = document()
    doc.apply(TakeInFieldBook(book=book(tape("M1", "P1"), tape("M1", "P2"), tape("M2", "P2"))))
    assert [m.number for m in doc.plan.of(mark.KIND)] == list(MARKS)
    assert [(x.point, x.target) for x in lines(doc)] == [
        ("P1", None),
        ("P2", None),
        ("P2", None),
    ]


def test_distances_are_made_grid_distances_by_the_local_scale_factor():
    # on the British grid at E 400000 a metre on the ground is 0.9996 m: the central meridian
    doc = document(grid=Grid(crs="EPSG:27700", east=400000.0, north=300000.0))
    doc.apply(TakeInFieldBook(book=book(
        offset("P1", "10", "0"),
        offset("P2", "10", "-100"),
    )))  # fmt: skip
    (_, n1), (_, n2) = at(numbered(doc, "P1")), at(numbered(doc, "P2"))
    assert n2 - n1 == pytest.approx(99.96, abs=0.002)


def test_codes_say_what_points_become():
    doc = document()
    doc.apply(TakeInFieldBook(book=book(
        *ties("T1", code="tree common yew"),
        offset("W1", "5", "2", code="wall1"),
        offset("W2", "9", "2", code="wall1"),
    )))  # fmt: skip
    (yew,) = doc.plan.of(tree.KIND)
    assert (yew.number, yew.details.species) == ("T1", "common yew")
    assert at(yew) == pytest.approx((7.0, 7.0), abs=0.002)
    (edge,) = doc.plan.of(wall.KIND)
    assert shapely.get_coordinates(edge.shape).tolist() == [[5.0, -2.0], [9.0, -2.0]]
    assert [(x.target, x.corner) for x in lines(doc)[3:]] == [(edge.id, 1), (edge.id, 2)]


def test_a_tree_that_is_on_the_plan_is_measured_and_not_doubled():
    traced = Basis(method=Method.TRACED, source="Plan of 1962", sd_m=0.25)
    there = new_item(tree.KIND, Point(7.2, 7.1), number="T1", basis=traced)
    doc = document(there)
    doc.apply(TakeInFieldBook(book=book(*ties("T1", code="tree"))))
    (after,) = doc.plan.of(tree.KIND)
    assert (after.id, at(after)) == (there.id, pytest.approx((7.0, 7.0), abs=0.002))
    assert (after.basis.method, after.basis.source) == (Method.TAPED, "Book 1")


def test_the_same_book_again_replaces_its_lines_and_moves_its_points():
    doc = document()
    doc.apply(TakeInFieldBook(book=book(*ties("P1"), *ties("P2"))))
    before, second = numbered(doc, "P1"), numbered(doc, "P2")
    hung = new_item(wall.KIND, LineString([at(before), (30, 30)]))
    doc.apply(Add((hung,)))
    PLACES["P1"] = (8.5, 6.2)
    try:
        again = book(*ties("P1"), name="book1", date="2026-06")
    finally:
        PLACES["P1"] = (8.0, 6.0)
    entry = doc.apply(TakeInFieldBook(book=again))
    after = numbered(doc, "P1")
    assert after.id == before.id
    assert at(after) == pytest.approx((8.5, 6.2), abs=0.002)
    assert at(doc.plan.items[hung.id]) == at(after)
    assert (after.basis.date, len(lines(doc))) == ("2026-06", 3)
    assert numbered(doc, "P2") == second
    assert entry is not None
    doc.undo()
    assert at(doc.plan.items[hung.id]) == at(before)


def test_the_same_book_unchanged_changes_nothing_and_one_line_of_it_only_itself():
    doc = document()
    doc.apply(TakeInFieldBook(book=book(*ties("P1"), check("M1", "M2"))))
    assert doc.apply(TakeInFieldBook(book=book(*ties("P1"), check("M1", "M2")))) is None
    kept = {o.details.book_line: o.id for o in doc.plan.of(observation.KIND)}
    remarked = check("M1", "M2") | {"remarks": "in rain"}
    entry = doc.apply(TakeInFieldBook(book=book(*ties("P1"), remarked)))
    assert entry is not None
    assert len(entry.changes) == 2
    now = {o.details.book_line: o.id for o in doc.plan.of(observation.KIND)}
    assert {line for line in kept if kept[line] != now[line]} == {max(kept)}


def test_another_book_measures_the_same_points_and_both_are_adjusted_together():
    doc = document()
    doc.apply(TakeInFieldBook(book=book(*ties("P1"))))
    first = numbered(doc, "P1")
    doc.apply(TakeInFieldBook(book=book(*ties("P2"), check("P1", "P2"), name="Book 2")))
    assert {x.book for x in lines(doc)} == {"Book 1", "Book 2"}
    again = numbered(doc, "P1")
    assert again.basis.source == "Book 1"
    assert again.basis.sd_m is not None
    assert first.basis.sd_m is not None
    assert again.basis.sd_m < first.basis.sd_m


def test_adjusting_again_moves_the_points_and_what_hangs_on_them_as_one_edit():
    doc = document()
    doc.apply(TakeInFieldBook(book=book(*ties("P1"), *ties("P2"))))
    p1, p2 = at(numbered(doc, "P1")), at(numbered(doc, "P2"))
    plot = new_item(grave.KIND, Rectangle(east=p1[0], north=p1[1], width=1.2, length=2.7))
    doc.apply(Add((plot, new_item(wall.KIND, LineString([p1, p2])))))
    assert doc.apply(AdjustFieldBooks()) is None
    marks = tuple(i.id for i in doc.plan.of(mark.KIND) if i.number in MARKS)
    doc.apply(Move(ids=marks, east=1.0, north=0.5))
    entry = doc.apply(AdjustFieldBooks())
    assert entry is not None
    assert len(entry.changes) == 4
    assert at(numbered(doc, "P1")) == pytest.approx((p1[0] + 1.0, p1[1] + 0.5), abs=0.0011)
    moved = doc.plan.items[plot.id].rectangle
    assert (moved.east, moved.north) == pytest.approx(at(numbered(doc, "P1")), abs=1e-6)
    (edge,) = doc.plan.of(wall.KIND)
    assert tuple(shapely.get_coordinates(edge.shape)[1]) == at(numbered(doc, "P2"))


def test_a_line_that_is_left_out_afterwards_no_longer_counts():
    doc = document()
    rows = [*ties("P1"), tape("M1", "P1")]
    rows[3]["distance"] = "11"
    doc.apply(TakeInFieldBook(book=book(*rows)))
    assert hypot(at(numbered(doc, "P1"))[0] - 8.0, at(numbered(doc, "P1"))[1] - 6.0) > 0.1
    wrong = [o for o in doc.plan.of(observation.KIND) if o.details.distance_m == 11.0]
    doc.apply(Describe(ids=(wrong[0].id,), details=(("left_out", True),)))
    doc.apply(AdjustFieldBooks())
    assert at(numbered(doc, "P1")) == pytest.approx((8.0, 6.0), abs=0.002)


def test_a_point_that_was_measured_better_since_is_a_station_then():
    doc = document()
    doc.apply(TakeInFieldBook(book=book(*ties("P1"))))
    point = numbered(doc, "P1")
    doc.apply(SetBasis(ids=(point.id,), basis=(("method", Method.GNSS), ("sd_m", 0.01))))
    doc.apply(Move(ids=(point.id,), east=0.5, north=0.0))
    assert doc.apply(AdjustFieldBooks()) is None
    assert at(numbered(doc, "P1"))[0] == pytest.approx(8.5, abs=0.002)


def test_a_mark_beside_a_point_stays_where_it_is():
    doc = document()
    doc.apply(TakeInFieldBook(book=book(*ties("P1"))))
    beside = new_item(mark.KIND, Point(at(numbered(doc, "P1"))), number="M9")
    doc.apply(Add((beside,)))
    marks = tuple(i.id for i in doc.plan.of(mark.KIND) if i.number in MARKS)
    doc.apply(Move(ids=marks, east=1.0, north=0.0))
    doc.apply(AdjustFieldBooks())
    assert at(numbered(doc, "M9")) == at(beside)


def test_a_wall_of_measured_corners_follows_its_marks_and_tells_how_well_it_is_known():
    doc = document()
    rows = [offset(n, d, "2", code="wall1") for n, d in (("W1", "5"), ("W2", "9"))]
    doc.apply(TakeInFieldBook(book=book(*rows)))
    marks = tuple(i.id for i in doc.plan.of(mark.KIND))
    doc.apply(Move(ids=marks, east=1.0, north=0.0))
    doc.apply(AdjustFieldBooks())
    (edge,) = doc.plan.of(wall.KIND)
    assert shapely.get_coordinates(edge.shape).tolist() == [[6.0, -2.0], [10.0, -2.0]]
    doc.apply(Describe(ids=(lines_of(doc, "W2"),), details=(("left_out", True),)))
    doc.apply(Move(ids=marks, east=1.0, north=0.0))
    doc.apply(AdjustFieldBooks())
    (edge,) = doc.plan.of(wall.KIND)
    assert shapely.get_coordinates(edge.shape).tolist() == [[7.0, -2.0], [10.0, -2.0]]


def lines_of(doc: Document, point: str):
    return next(o.id for o in doc.plan.of(observation.KIND) if o.details.point == point)


def test_books_that_make_no_sense_are_refused():
    doc = document()
    with pytest.raises(EditRefused, match="no name or no lines"):
        doc.apply(TakeInFieldBook(book=FieldBook(name="B")))
    with pytest.raises(EditRefused, match="no name or no lines"):
        doc.apply(TakeInFieldBook(book=book(*ties("P1"), name=" ")))
    with pytest.raises(EditRefused, match="There is no field book on the plan"):
        doc.apply(AdjustFieldBooks())


def test_a_figure_that_is_no_number_is_refused_before_anything_changes():
    doc = document()
    whole = book(*ties("P1"))
    bad = replace(whole, lines=(replace(whole.lines[0], distance=float("nan")),))
    with pytest.raises(EditRefused, match="The field books cannot be adjusted"):
        doc.apply(TakeInFieldBook(book=bad))
    assert len(doc.plan.items) == 3
