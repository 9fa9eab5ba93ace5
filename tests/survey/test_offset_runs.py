"""Runs of offsets and their areas."""

import pytest

from plan_editor.survey.books.field_book import BookLine, Sort
from plan_editor.survey.books.offset_runs import offset_runs

ELEVEN = [2.5, 3.5, 5.0, 4.6, 3.2, 2.4, 5.6, 6.2, 3.8, 1.8, 0.9]


def offset(n: int, along: float, aside: float, **more) -> BookLine:
    return BookLine(
        line=n,
        sort=Sort.OFFSET,
        start="A",
        end="B",
        point=f"P{n}",
        distance=along,
        aside=aside,
        **more,
    )


def test_a_run_has_the_area_of_the_published_example():
    # askfilo.com, question 3432383232333034: 378.0 m² and 375.33 m²
    (run,) = offset_runs(offset(n, 10.0 * n, a) for n, a in enumerate(ELEVEN))
    assert run.trapezoidal == pytest.approx(378.0, abs=0.005)
    assert run.simpson == pytest.approx(375.33, abs=0.005)
    assert (run.start, run.end, run.right, run.lines) == ("A", "B", True, (0, 10))


def test_each_side_is_a_run_and_two_offsets_or_a_muddle_are_none():
    lines = [offset(n, 5.0 * n, 2.0) for n in range(3)]
    lines += [offset(n, 4.0 * n, -1.0) for n in range(3, 6)]
    lines += [offset(n, 5.0 * n, 2.0) for n in range(6, 8)]
    lines += [offset(n, -5.0 * n, -2.0) for n in range(8, 12)]
    lines.append(offset(12, 70.0, 3.0, left_out=True))
    found = offset_runs(lines)
    assert [(r.right, r.trapezoidal) for r in found] == [(True, 20.0), (False, 8.0)]


def test_uneven_steps_have_no_simpson():
    (run,) = offset_runs([offset(0, 0.0, 2.0), offset(1, 1.0, 2.0), offset(2, 4.0, 2.0)])
    assert (run.trapezoidal, run.simpson) == (8.0, None)
