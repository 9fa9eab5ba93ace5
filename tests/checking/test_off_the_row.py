import math

import pytest
from churchyards import found, grave_at, mended, old_plan

from plan_editor.kinds import grave
from plan_editor.plan.item import Item, Method

RULE = "off_the_row"


def row(*, aside: float = 0.0, turned: float = 0.0, which: int = 3, **rest) -> list[Item]:
    """Seven graves at 1.5 m, heads on a line running north; one of them off it."""
    return [
        grave_at(aside * (n == which), 1.5 * n, f"A {n}", turned=turned * (n == which), **rest)
        for n in range(7)
    ]


def test_a_straight_row_has_nothing_off_it() -> None:
    assert found(RULE, row()) == ()


@pytest.mark.parametrize("which", [0, 3, 6])
def test_a_head_40_cm_out_of_line_is_found_and_put_in_line(which: int) -> None:
    graves = row(aside=0.4, which=which)
    (finding,) = found(RULE, graves)
    assert "0.40 m out of line" in finding.text
    assert finding.items == (graves[which].id,)
    after = [i.rectangle for i in mended(RULE, graves).of(grave.KIND)]
    assert [r.east for r in after if r] == pytest.approx([0.0] * 7, abs=0.002)


@pytest.mark.parametrize(("aside", "turned"), [(0.9, 0.0), (-1.3, 0.0), (0.0, 30.0)])
def test_a_grave_that_has_left_its_row_is_put_back_where_there_is_room(
    aside: float, turned: float
) -> None:
    graves = row(aside=aside, turned=turned)
    (finding,) = found(RULE, graves)
    assert finding.items == (graves[3].id,)
    mended(RULE, graves)


@pytest.mark.parametrize(
    ("aside", "turned", "north"),
    [(1.6, 0.0, 4.5), (0.9, 60.0, 4.5), (-1.0, 0.0, 5.2), (0.9, 0.0, -1.5)],
)
def test_a_grave_of_another_row_or_lying_otherwise_is_not_of_this_one(
    aside: float, turned: float, north: float
) -> None:
    others = [g for n, g in enumerate(row()) if n != 3]
    assert found(RULE, [*others, grave_at(aside, north, turned=turned)]) == ()


def test_a_grave_turned_by_10_degrees_is_found_and_turned_to_its_row() -> None:
    graves = row(turned=10.0)
    (finding,) = found(RULE, graves)
    assert "turned by 10.0° against its row" in finding.text
    after = list(mended(RULE, graves).of(grave.KIND))[3].rectangle
    assert after is not None
    assert math.cos(math.radians(after.bearing_deg)) == pytest.approx(1.0, abs=1e-6)


def test_what_is_off_by_less_than_10_cm_or_2_degrees_is_of_the_row() -> None:
    assert found(RULE, row(aside=0.1)) == ()
    assert found(RULE, row(turned=2.0)) == ()


def test_one_less_sure_than_the_others_may_be_off_by_twice_its_doubt() -> None:
    graves = row()
    graves[3] = grave_at(0.4, 4.5, sd_m=0.25)
    assert found(RULE, graves) == ()
    graves[3] = grave_at(0.6, 4.5, sd_m=0.25)
    assert len(found(RULE, graves)) == 1


def test_how_sure_all_are_the_row_itself_tells() -> None:
    under = old_plan(sd_m=0.25)
    assert len(found(RULE, row(aside=0.4, sd_m=0.25))) == 1
    assert len(found(RULE, [under, *row(aside=0.4, sd_m=0.25, on=under.id)])) == 1


def test_what_was_measured_on_the_ground_is_told_and_stays() -> None:
    (finding,) = found(RULE, row(aside=0.4, method=Method.TAPED))
    assert finding.mend is None
    assert "was measured (taped): look there" in finding.text


def test_a_row_of_four_tells_nothing() -> None:
    assert found(RULE, row(aside=0.4, which=1)[:4]) == ()


def test_a_row_that_bends_or_is_ragged_all_along_is_as_it_is() -> None:
    bends = [grave_at(0.01 * n * n, 1.5 * n) for n in range(12)]
    ragged = [grave_at(20 + 0.2 * (n % 2), 1.5 * n) for n in range(12)]
    assert found(RULE, [*bends, *ragged]) == ()
