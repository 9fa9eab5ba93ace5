"""The field books of a plan together: who is measured from, who is found, and by what name."""

from typing import Any

import pytest
from shapely import LineString, Point

from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.book_names import Place, place_of
from plan_editor.ground.field_books import adjusted, books, survey_of
from plan_editor.kinds import grave, mark, observation, tree, wall
from plan_editor.kinds.observation import Measure, ObservationDetails, Side
from plan_editor.plan.item import Basis, Item, ItemId, Method, new_item
from plan_editor.plan.plan import Plan, plan_of
from plan_editor.survey.adjustment.observed import Station
from plan_editor.survey.books.field_book import BookLine, FieldBook, Sort

EXACT = Basis(method=Method.GNSS, sd_m=0.0)
TAPED = Basis(method=Method.TAPED, source="Book 1", sd_m=0.03)


def marked(number: str, east: float, north: float, basis: Basis = EXACT) -> Item:
    return new_item(mark.KIND, Point(east, north), number=number, basis=basis)


M1, M2 = marked("M1", 0.0, 0.0), marked("M2", 20.0, 0.0)
P1 = marked("P1", 8.0, 6.0, TAPED)


def told(**details: Any) -> Item:
    kept = {"book": "Book 1", "from_mark": M1.id, "distance_m": 10.0, **details}
    return new_item(observation.KIND, details=ObservationDetails(**kept))


def plan(*observations: Item, more: tuple[Item, ...] = ()) -> Plan:
    return plan_of([M1, M2, P1, *more, *observations])


def test_what_a_book_found_is_looked_for_and_all_else_is_a_station():
    survey = survey_of(plan(told(target=P1.id, point="P1")))
    assert survey.stations == (Station(name="M1", east=0.0, north=0.0),)
    assert dict(survey.places) == {"M1": Place(M1.id), "P1": Place(P1.id)}
    assert survey.unsure == ()


def test_a_point_of_a_book_that_nobody_measures_with_is_a_station():
    other = Basis(method=Method.TAPED, source="Another book", sd_m=None)
    nail = marked("N1", 5.0, 5.0, other)
    survey = survey_of(plan(told(target=nail.id, point="N1"), more=(nail,)))
    assert {s.name for s in survey.stations} == {"M1", "N1"}
    assert survey.unsure == ("N1",)


def test_a_place_known_to_a_hair_is_exact():
    hair = marked("M3", 5.0, 5.0, Basis(method=Method.GNSS, sd_m=1e-172))
    survey = survey_of(plan(told(from_mark=hair.id, target=P1.id), more=(hair,)))
    assert survey.stations[0].sd == 0.0


def test_names_that_are_no_marks_belong_to_their_book():
    survey = survey_of(
        plan(
            told(point="X"),
            told(point="x ", from_mark=M2.id),
            told(point="X", book="Book 2"),
            told(point="X", book="Book 3"),
            told(point="Y", book="Book 2", from_mark=None, from_point="X"),
        )
    )
    lines = [r.line for r in survey.readings]
    assert [x.point for x in lines] == ["X", "X", "X (Book 2)", "Y", "X (Book 3)"]
    assert lines[3].start == "X (Book 2)"


def test_a_corner_of_a_thing_is_measured_by_its_number():
    plot = new_item(grave.KIND, Rectangle(east=5, north=5, width=1, length=2), number="C 1")
    edge = new_item(wall.KIND, LineString([(1, 1), (4, 5)]))
    survey = survey_of(
        plan(
            told(target=plot.id, corner=2, point="head"),
            told(target=edge.id, corner=2, point="end"),
            told(target=edge.id, point="nowhere"),
            told(target=plot.id, corner=9, point="far"),
            more=(plot, edge),
        )
    )
    assert [r.line.point for r in survey.readings] == ["head", "end", "nowhere", "far"]
    stations = {s.name: (s.east, s.north) for s in survey.stations}
    assert stations["head"] == pytest.approx((5.0, 6.0))
    assert stations["end"] == (4.0, 5.0)
    assert set(stations) == {"M1", "head", "end"}
    assert place_of(plan(), Place(ItemId("f" * 32))) is None


def test_a_thing_without_number_or_name_is_called_what_it_is():
    yew = new_item(tree.KIND, Point(3, 4))
    survey = survey_of(plan(told(target=yew.id), more=(yew,)))
    assert survey.readings[0].line.point == "Tree"


def test_legs_and_checks_go_to_marks_points_and_things():
    yew = new_item(tree.KIND, Point(3, 4))
    survey = survey_of(
        plan(
            told(measure=Measure.LEG, to_mark=M2.id, bearing_deg=90.0, distance_m=None),
            told(measure=Measure.LEG, to_point="A", angle_deg=45.0, back_mark=M2.id),
            told(measure=Measure.LEG, to_point="A", angle_deg=45.0, back_point="p 1"),
            told(measure=Measure.CHECK, target=yew.id, point="yew"),
            told(measure=Measure.LEG, to_point="yew", point="yew", target=yew.id),
            told(measure=Measure.TIE, point="B", side=Side.LEFT, to_mark=M2.id),
            more=(yew,),
        )
    )
    lines = [r.line for r in survey.readings]
    assert [x.end for x in lines] == ["M2", "A", "A", "yew", "yew", "M2"]
    assert [x.back for x in lines[1:3]] == ["M2", "P1"]
    assert (lines[5].sort, lines[5].right) == (Sort.TIE, False)


@pytest.mark.parametrize(
    "details",
    [
        {"from_mark": None},
        {"point": ""},
        {"point": "P2", "distance_m": None},
        {"target": M1.id},
        {"measure": Measure.OFFSET, "point": "P2", "offset_m": 1.0},
        {"measure": Measure.OFFSET, "point": "P2", "to_mark": M2.id},
        {"measure": Measure.LEG, "to_mark": M2.id, "angle_deg": 5.0},
        {"measure": Measure.LEG, "to_mark": M2.id, "distance_m": None},
        {"point": "P2", "rise_m": 10.0},
    ],
)
def test_a_line_that_says_too_little_or_too_much_is_passed_over(details):
    assert survey_of(plan(told(**details))).readings == ()


def test_a_book_without_stations_is_adjusted_on_the_ground_as_it_is():
    survey = survey_of(plan(told(from_mark=None, from_point="A", point="B")))
    found = adjusted(plan(), survey)
    assert found.scale_factor == 1.0
    assert [p.east for p in found.points] == [None, None]


def test_the_books_of_a_plan_are_told_in_order():
    assert books(plan(told(book="B"), told(book="A"), told(book="B"))) == ("B", "A")


def test_a_new_book_calls_its_points_as_the_plan_does():
    tie = BookLine(line=2, sort=Sort.TIE, start="m1", point="p 1", distance=10.0)
    other = BookLine(line=3, sort=Sort.TIE, start="m2", point="Q", distance=10.0)
    survey = survey_of(
        plan(told(target=P1.id, point="P1", from_mark=M2.id)),
        FieldBook(name="Book 2", lines=(tie, other)),
    )
    assert dict(survey.names) == {"m1": "M1", "p1": "P1", "m2": "M2", "q": "Q"}
    assert [(r.key, r.line.start, r.line.point) for r in survey.readings[1:]] == [
        ("line 2", "M1", "P1"),
        ("line 3", "M2", "Q"),
    ]


def test_a_point_that_was_renumbered_is_still_the_one_its_book_measured():
    renamed = marked("M15", 8.0, 6.0, TAPED)
    line = BookLine(line=2, sort=Sort.TIE, start="M1", point="P7", distance=10.0)
    survey = survey_of(
        plan(told(target=renamed.id, point="P7"), more=(renamed,)),
        FieldBook(name="book 1", lines=(line,)),
    )
    assert dict(survey.names)["p7"] == "M15"
    assert [r.key for r in survey.readings] == ["line 2"]
