"""The ends of rows, written beyond them."""

import pytest
from churchyard import grave, made, stone

from plan_editor.drawing.compose import grouped
from plan_editor.drawing.rows import row_wishes, rows
from plan_editor.drawing.viewport import Viewport
from plan_editor.plan.item import Item

VIEW = Viewport(east=10.0, north=10.0, scale=200.0, frame=(0.0, 0.0, 200.0, 200.0))


def ends(*items: Item) -> list[tuple[str, str]]:
    found = rows(grouped(items), VIEW)
    return [(row[0][0].number, row[-1][0].number) for row in found]


def row(letters: str, count: int, east: float = 5.0) -> list[Item]:
    return [grave(f"{letters}{n + 1}", east, 2.0 + 1.2 * n) for n in range(count)]


def test_a_row_ends_with_its_least_and_greatest_number() -> None:
    # as numbers: C 12 comes after C 2
    assert ends(*row("C ", 12)) == [("C 1", "C 12")]


def test_numbers_that_begin_otherwise_are_another_row() -> None:
    found = ends(*row("A ", 4), *row("B ", 5, 9.0), *row("West-", 3, 13.0))
    assert sorted(found) == [("A 1", "A 4"), ("B 1", "B 5"), ("West-1", "West-3")]


def test_few_scattered_and_unlettered_things_are_no_row() -> None:
    scattered = [grave(f"D {n}", 4.0 * (n % 3), 5.0 * (n // 3)) for n in range(9)]
    assert ends(*row("A ", 2)) == []
    assert ends(*scattered) == []
    assert ends(*row("", 5)) == []


def test_stones_are_no_row_though_they_bear_the_numbers_of_their_graves() -> None:
    graves = row("C ", 6)
    stones = [stone(g.number, g) for g in graves[1:5]]
    assert ends(*graves, *stones) == [("C 1", "C 6")]


def test_what_has_no_number_of_its_own_kind_is_no_row() -> None:
    benches = [made("bench", g.rectangle, number=g.number) for g in row("A ", 4)]
    assert ends(*benches) == []


def test_the_ends_are_written_beyond_the_graves() -> None:
    (found,) = rows(grouped(row("C ", 6)), VIEW)
    low, high = row_wishes(found, size=3.0, colour="#566268")
    assert (low.text, high.text) == ("C 1", "C 6")
    assert low.optional
    # the row runs north: its first number is below it, its last above
    assert low.places[0][1] + low.extent[1] / 2 < VIEW.shape(found[0][0].shape).bounds[1]
    assert high.places[0][1] - high.extent[1] / 2 > VIEW.shape(found[-1][0].shape).bounds[3]
    assert low.places[0][0] == pytest.approx(VIEW.shape(found[0][0].shape).centroid.x)
