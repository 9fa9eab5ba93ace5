"""The sheet of a round: numbers on the map are those of the table."""

import pytest
import shapely
from test_mowing_map import every

from plan_editor.drawing.ink import Text
from plan_editor.errors import CannotPrint
from plan_editor.kinds import gate, memorial
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.printing.sheet import Asked, Supplied
from plan_editor.printing.sheets import round as sheet
from plan_editor.records import inspection_round

DAY = "2026-06-01"


def _stones(count):
    return [
        new_item(
            memorial.KIND,
            shapely.Point(5, 4 * n + 4).buffer(0.3),
            details=memorial.MemorialDetails(height_m=2.5 if n else None),
            number=f"B {n}",
        )
        for n in range(count)
    ]


def _page(made, number):
    return [t.text for t in every(made.pages[number].ink) if isinstance(t, Text)]


def test_what_is_due_is_numbered_on_the_map_and_listed_with_boxes():
    way_in = new_item(gate.KIND, shapely.Point(5, 0))
    plan = plan_of([way_in, *_stones(3)], name="St Elfric")
    made = sheet.SHEET.compose(plan, Asked(date=DAY), Supplied())
    on_map, table = _page(made, 0), _page(made, 1)
    assert {"1", "2", "3", "4"} <= set(on_map)
    assert [t for t in table if t.startswith("Memorial")] == [
        "Memorial B 0",
        "Memorial B 1",
        "Memorial B 2",
    ]
    assert sum("\u2610 immediate" in t for t in table) == 4
    assert table.count("2.50") == 2
    said = " ".join(on_map)
    assert "Only trained people test" in said
    assert "Never push a leaning stone" in said
    assert "2 so tall that an engineer" in said


def test_where_nothing_is_due_the_sheet_says_so():
    made = sheet.SHEET.compose(plan_of([]), Asked(date=DAY), Supplied())
    assert len(made.pages) == 1
    assert "is due for inspection" in " ".join(_page(made, 0))


def test_too_much_for_one_round_is_not_printed(monkeypatch):
    monkeypatch.setattr(inspection_round, "MOST", 1)
    with pytest.raises(CannotPrint, match="one churchyard"):
        sheet.SHEET.compose(plan_of(_stones(2)), Asked(date=DAY), Supplied())
