"""The visitor's slip: who rests there, the way in words and on the sketch."""

import pytest
import shapely
from test_mowing_map import every

from plan_editor.drawing.ink import Stroke, Text
from plan_editor.errors import CannotPrint
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds import burial, gate, grave, path
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.printing.sheet import Asked, Supplied
from plan_editor.printing.sheets import slip

DAY = "2026-06-01"


def _churchyard():
    way_in = new_item(gate.KIND, shapely.Point(0, 0), details=gate.GateDetails(name="Lychgate"))
    walk = new_item(
        path.KIND,
        shapely.LineString([(0, 0), (0, 40)]),
        details=path.PathDetails(name="Main path"),
    )
    graves = [
        new_item(
            grave.KIND, Rectangle(east=4.0, north=30 + n, width=0.9, length=2), number=f"B {n}"
        )
        for n in (0, 4)
    ]
    entry = new_item(
        burial.KIND,
        details=burial.BurialDetails(
            forenames="Ann", surname="Weir", buried="1902-03-04", grave=graves[0].id
        ),
    )
    return way_in, walk, graves, entry


def _told(plan, item):
    made = slip.SHEET.compose(plan, Asked(date=DAY, item=item), Supplied())
    assert len(made.pages) == 1
    ink = list(every(made.pages[0].ink))
    return " ".join(t.text for t in ink if isinstance(t, Text)), ink


def test_a_slip_tells_who_rests_there_and_how_to_walk_there():
    way_in, walk, graves, entry = _churchyard()
    plan = plan_of([way_in, walk, *graves, entry], name="St Elfric")
    for thing in (graves[0], entry):
        said, ink = _told(plan, thing.id)
        assert "Ann Weir, buried 1902" in said
        assert "From the Lychgate go north along the path “Main path” for" in said
        assert "Turn right over the grass" in said
        assert "The way: about" in said
        assert "The ground is uneven" in said
        assert any(isinstance(s, Stroke) and s.pen.width == 0.7 and s.pen.dash for s in ink)


def test_where_nobody_is_entered_and_no_way_is_known_the_slip_says_so():
    _, _, graves, _ = _churchyard()
    said, _ = _told(plan_of([graves[0]]), graves[0].id)
    assert "No burial is entered for it yet." in said
    assert "No way was found" in said


def test_no_slip_is_made_of_nothing_or_of_an_entry_without_a_grave():
    lost = new_item(burial.KIND, details=burial.BurialDetails(surname="Fell"))
    with pytest.raises(CannotPrint, match="has no place on the plan"):
        slip.SHEET.compose(plan_of([lost]), Asked(date=DAY, item=lost.id), Supplied())
    with pytest.raises(CannotPrint, match="A slip is of one grave"):
        slip.SHEET.compose(plan_of([]), Asked(date=DAY), Supplied())
