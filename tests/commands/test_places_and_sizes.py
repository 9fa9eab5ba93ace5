"""Figures as a sexton reads them. A foot is 0.3048 m (Weights and Measures Act 1985)."""

import pytest
import shapely
from strategies import kind_of

from plan_editor.commands.places import coordinate, place
from plan_editor.commands.placing import read_coordinate, read_place
from plan_editor.commands.relations import lines_of
from plan_editor.commands.safety import NEVER, inspected_lines, states_counted
from plan_editor.commands.size import Figure, area, length, sizes
from plan_editor.errors import CannotUse
from plan_editor.geometry.outlines import Rectangle
from plan_editor.ground.provisional import on_base_plan, provisionally
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.survey.grids.grid import Grid


def test_coordinates_stand_in_groups_of_three_digits() -> None:
    grid = Grid(crs="EPSG:27700", east=553000.0, north=421000.0)
    assert place(grid, 112.48, 87.15) == "E 553\u202f112.48   N 421\u202f087.15"
    assert coordinate(-1234.5) == "-1\u202f234.50"


def test_typed_coordinates_are_read_with_blanks_and_letters() -> None:
    grid = Grid(crs="EPSG:27700", east=553000.0, north=421000.0)
    assert read_place(grid, "E 553 112,48", "421\u202f087.15") == pytest.approx((112.48, 87.15))


@pytest.mark.parametrize("typed", ["there", "", "1e400", "1e5", "nan", "inf", "5 5,3.1"])
def test_what_is_no_coordinate_is_said(typed: str) -> None:
    with pytest.raises(CannotUse, match="easting is not a number"):
        read_coordinate(typed, "easting")


@pytest.mark.parametrize("typed", ["1000000000", "-1000000000", "9" * 400])
def test_a_coordinate_off_the_earth_is_refused(typed: str) -> None:
    with pytest.raises(CannotUse, match="farther off"):
        read_coordinate(typed, "northing")


def test_a_seven_foot_grave_is_two_metres_thirteen() -> None:
    assert length(7 * 0.3048) == "2.13 m  (7' 0\")"


def test_areas_are_no_finer_than_they_are_known() -> None:
    assert [area(a) for a in (2.125, 97.46, 12345.6)] == [
        "2.12 m²",
        "97.5 m²",
        "12\u202f346 m²",
    ]


def test_a_grave_tells_its_sides_and_which_way_it_faces() -> None:
    grave = new_item(kind_of("grave"), Rectangle(east=0, north=0, width=0.9144, length=2.1336))
    assert sizes(grave) == (
        Figure("Head line", "0.91 m  (3' 0\")"),
        Figure("Length", "2.13 m  (7' 0\")"),
        Figure("Faces", "90.0° from grid north"),
        Figure("Area", "1.95 m²"),
    )


def test_a_point_has_no_size_and_a_line_has_a_length() -> None:
    assert sizes(new_item(kind_of("tree"), shapely.Point(1, 2))) == ()
    wall = new_item(kind_of("wall"), shapely.LineString([(0, 0), (3, 4)]))
    assert sizes(wall)[0].text.startswith("5.00 m")


def test_the_newest_inspection_of_a_stone_stands_first() -> None:
    stone = new_item(kind_of("memorial"), Rectangle(east=0, north=0, width=1, length=0.1))
    kind = kind_of("inspection")
    told = [
        new_item(kind, details=kind.details(target=stone.id, date=day, action=day))
        for day in ("2024-03-01", "2026-03-01", "2025-03-01")
    ]
    ((title, lines),) = lines_of(plan_of([stone, *told]), stone)
    assert title == "Inspections"
    assert [line.text[:10] for line in lines] == ["2026-03-01", "2025-03-01", "2024-03-01"]


def test_stones_stand_by_urgency_and_then_by_number() -> None:
    kind, memorial = kind_of("inspection"), kind_of("memorial")
    box = Rectangle(east=0, north=0, width=1, length=0.1)
    stones = [new_item(memorial, box, number=n) for n in ("C 10", "C 2", "A 1", "B 1")]
    results = ("sound", "immediate action")
    found = [
        new_item(
            kind,
            details=kind.details(
                target=stone.id,
                date="2026-03-01",
                result=next(r for r in _results(kind) if r == result),
            ),
        )
        for stone, result in zip(stones[2:], results, strict=True)
    ]
    lines = inspected_lines(plan_of([*stones, *found]))
    assert [s.number for s in lines] == ["B 1", "C 2", "C 10", "A 1"]
    assert states_counted(lines) == (("immediate action", 1), (NEVER, 2), ("sound", 1))


def _results(kind: object) -> tuple[str, ...]:
    return next(d.choices for d in kind.entries() if d.name == "result")  # type: ignore[attr-defined]


@pytest.mark.parametrize("content", ["scan", "drawing"])
def test_an_unplaced_base_plan_lies_upright_in_the_middle_of_the_view(content: str) -> None:
    kind = kind_of("base_plan")
    sort = next(
        c for d in kind.entries() if d.name == "content" for c in d.choices if c == content
    )
    details = kind.details(content=sort, extent=(0.0, 0.0, 400.0, 200.0))
    laid = provisionally(new_item(kind, details=details), (100.0, 50.0, 200.0, 110.0))
    assert on_base_plan(laid, 150.0, 80.0) == pytest.approx((200.0, 100.0))
    up = -1.0 if content == "scan" else 1.0  # pixels count down
    # 80 m for 400 units: a fifth of a metre each
    assert on_base_plan(laid, 152.0, 81.0) == pytest.approx((210.0, 100.0 + 5.0 * up))
