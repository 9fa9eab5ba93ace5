"""Three norths on a sheet: in words, and drawn at their true angle."""

from math import atan2, degrees

import pytest

from plan_editor.drawing.ink import Fill, Stroke, Text
from plan_editor.drawing.norths import angle_told, briefly, facts_of, norths, up_told
from plan_editor.plan.plan import Plan
from plan_editor.survey.grids.grid import Grid

# Ordnance Survey, A guide to coordinate systems in Great Britain, annexe C (Caister water
# tower); convergence +2.9573767° there, see tests/survey/test_grid_facts.py
CAISTER = Plan(grid=Grid(crs="EPSG:27700", east=651_409.903, north=313_177.270))
WEST = Plan(grid=Grid(crs="EPSG:27700", east=141_509.463, north=931_873.302))
LOCAL = Plan()
ASTRAY = Plan(grid=Grid(crs="EPSG:27700", east=9e8, north=9e8))
HERE = (0.0, 0.0)


@pytest.mark.parametrize(
    ("plan", "told", "short"),
    [
        (
            CAISTER,
            "Up is grid north (EPSG:27700); true north lies 2°57′ west of it.",
            "Up is grid north; true north 2°57′ west.",
        ),
        (
            WEST,
            "Up is grid north (EPSG:27700); true north lies 3°44′ east of it.",
            "Up is grid north; true north 3°44′ east.",
        ),
        (
            LOCAL,
            "Up is plan north (local grid); true north is not known.",
            "Up is plan north; true north unknown.",
        ),
        (ASTRAY, "Up is grid north (EPSG:27700).", "Up is grid north."),
    ],
)
def test_what_is_up_is_said_in_words(plan: Plan, told: str, short: str) -> None:
    facts = facts_of(plan, HERE)
    assert up_told(plan, facts) == told
    assert briefly(plan, facts) == short


def test_on_the_central_meridian_grid_north_is_true_north() -> None:
    on_it = Plan(grid=Grid(crs="EPSG:27700", east=400_000.0, north=300_000.0))
    assert up_told(on_it, facts_of(on_it, HERE)).endswith("; true north is the same here.")


def test_an_angle_is_told_to_the_minute() -> None:
    assert angle_told(2.9573767) == "2°57′"
    assert angle_told(-0.999) == "1°00′"


@pytest.mark.parametrize("convergence", [2.9573767, -3.7415801])
def test_true_north_is_drawn_at_its_true_angle_and_ends_in_a_star(convergence: float) -> None:
    panel = norths(22.0, convergence, size=2.5)
    assert panel is not None
    (stroke,) = (i for i in panel.ink if isinstance(i, Stroke))
    (star, arrow) = (r for i in panel.ink if isinstance(i, Fill) for r in i.rings)
    true, grid = stroke.lines
    for line, wanted in ((true, -convergence), (grid, 0.0)):
        (x0, y0), (x1, y1) = line.tolist()
        assert degrees(atan2(x1 - x0, y1 - y0)) == pytest.approx(wanted, abs=1e-9)
    assert (len(star), len(arrow)) == (10, 3)
    assert star.mean(axis=0) == pytest.approx(true[1], abs=1e-9)
    texts = {i.text: i for i in panel.ink if isinstance(i, Text)}
    assert (texts["true"].x < texts["grid"].x) == (convergence > 0)
    assert all(0 <= x <= panel.width for x in (*true[:, 0], *grid[:, 0]))


def test_lines_that_would_print_as_one_are_left_to_the_words() -> None:
    assert norths(13.0, 1.0, size=2.5) is None
