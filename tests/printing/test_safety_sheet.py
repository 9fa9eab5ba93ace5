"""The safety map: what is unsafe, how far to keep off, what was done."""

import pytest
import shapely
from test_mowing_map import every

from plan_editor.drawing.ink import Text
from plan_editor.kinds import cordon, inspection, memorial, tree, wall
from plan_editor.kinds.inspection import Result
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.printing.sheet import Asked, Supplied
from plan_editor.printing.sheets import safety

DAY = "2026-06-01"


def _stone(east, number, height_m=1.2):
    return new_item(
        memorial.KIND,
        shapely.Point(east, 10).buffer(0.3),
        details=memorial.MemorialDetails(height_m=height_m),
        number=number,
    )


def _seen(thing, date, result, action=""):
    return new_item(
        inspection.KIND,
        details=inspection.InspectionDetails(
            target=thing.id, date=date, result=result, action=action
        ),
    )


def _made(*items):
    return safety.SHEET.compose(plan_of(items, name="St Elfric"), Asked(date=DAY), Supplied())


def _texts(made, page):
    return [t.text for t in every(made.pages[page].ink) if isinstance(t, Text)]


def test_what_is_unsafe_is_mapped_and_listed_with_its_distance_and_its_barrier():
    stone, other = _stone(5, "C 3"), _stone(30, "C 9", None)
    fence = new_item(
        cordon.KIND,
        shapely.box(3, 8, 7, 12),
        details=cordon.CordonDetails(
            target=stone.id, since="2026-04-03", barrier="Paling", looked_at="2026-05"
        ),
    )
    later = new_item(
        cordon.KIND,
        shapely.box(29, 8, 31, 12),
        details=cordon.CordonDetails(target=other.id, since="2027-01-01"),
    )
    made = _made(
        stone,
        other,
        fence,
        later,
        _seen(stone, "2026-04-02", Result.IMMEDIATE, "Rocks."),
        _seen(stone, "2026-05-02", Result.IMMEDIATE, "Rocks still."),
        _seen(other, "", Result.IMMEDIATE),
        _stone(40, "C 12"),
    )
    on_map, table = _texts(made, 0), _texts(made, 1)
    assert {"C 3", "C 9"} <= set(on_map)
    assert "2 things are unsafe: keep off" in on_map
    assert "2026-04-02" in table  # since when, not last
    assert "Rocks still." in table
    # the height, 1.2 m, and one metre more
    assert "2.2" in table
    assert "no date" in table
    assert "nothing more is recorded" in table
    said = " ".join(table)
    assert "Paling, since 2026-04-03, no notice fixed, last looked at 2026-05" in said
    assert table.count("no barrier recorded") == 1
    beside = " ".join(on_map)
    assert "may fall without warning" in beside
    assert "1 of 3 stones have no recorded inspection" in beside
    assert "the rule's own figure taken: C 9." in beside


def test_what_was_made_safe_for_now_has_no_zone_but_is_told():
    stone, wind = _stone(5, "C 3"), new_item(tree.KIND, shapely.Point(20, 5))
    fence = new_item(
        cordon.KIND,
        shapely.box(3, 8, 7, 12),
        details=cordon.CordonDetails(target=stone.id, notice="2026-04-04"),
    )
    leaning = new_item(wall.KIND, shapely.LineString([(0, 0), (30, 0)]))
    made = _made(
        stone,
        wind,
        fence,
        leaning,
        _seen(stone, "2026-04-02", Result.MADE_SAFE),
        _seen(leaning, "2026-04-02", Result.IMMEDIATE),
    )
    assert "C 3, made safe" in _texts(made, 0)
    assert "1 thing is unsafe: keep off" in _texts(made, 0)
    table = " ".join(_texts(made, 1))
    assert "Made safe for now: repair is still wanted (1)" in table
    assert "cordon, notice fixed 2026-04-04" in table


@pytest.mark.parametrize("things", [(), (_stone(5, "C 3"),)])
def test_where_nothing_is_known_to_be_unsafe_the_map_says_no_more(things):
    made = _made(*things)
    assert len(made.pages) == 1
    assert "Nothing is recorded as unsafe" in _texts(made, 0)
