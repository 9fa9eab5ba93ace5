"""The section of what is due this month."""

from pathlib import Path
from typing import Any

import pytest
import shapely
from icalendar import Calendar
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.commands.month import box_to_show
from plan_editor.commands.today import today
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.kinds import bench, request, works
from plan_editor.kinds.works import WorksDetails
from plan_editor.plan.item import new_item
from plan_editor.plan.plan import plan_of
from plan_editor.records.days import months_after


def work(what: str, due: str, **rest: Any):
    return new_item(works.KIND, details=WorksDetails(what=what, due=due, **rest))


SEAT = new_item(bench.KIND, shapely.Point(40.0, 30.0), number="B 1")


@pytest.fixture
def shown(window: PlanWindow, qtbot: QtBot) -> Any:
    """The section, open: a work long overdue, one today at a bench, one in three months."""
    later = months_after(f"{today()[:7]}-01", 3)
    made = (
        work("Clear the drain", "2020-01-05"),
        work("Mend the seat", today(), target=SEAT.id),
        work("Prune", later),
        SEAT,
    )
    window.session.apply(Add(made))
    window.show()
    window.go("records")
    assert window.body is not None
    panel = window.body.side.panels["records"]
    panel.open("this_month")
    found = panel.sections["this_month"]
    qtbot.waitUntil(lambda: found.tree.topLevelItemCount() == 3)
    return found


def groups(shown: Any) -> list[tuple[str, list[str]]]:
    tops = [shown.tree.topLevelItem(n) for n in range(shown.tree.topLevelItemCount())]
    return [(t.text(0), [t.child(n).text(1) for n in range(t.childCount())]) for t in tops]


def test_overdue_comes_first_then_what_is_due_then_what_has_no_day(shown: Any) -> None:
    assert groups(shown) == [
        ("Overdue: works (1)", ["Clear the drain"]),
        ("Due: works (1)", ["Mend the seat, Bench B 1"]),
        ("Without a day: inspections (1)", ["Inspect bench B 1"]),
    ]


def test_a_line_chosen_by_key_goes_to_its_thing(
    shown: Any, window: PlanWindow, qtbot: QtBot
) -> None:
    due = shown.tree.topLevelItem(1).child(0)
    shown.tree.setCurrentItem(shown.tree.topLevelItem(1))
    qtbot.keyClick(shown.tree, Qt.Key.Key_Down)
    assert shown.tree.currentItem() is due
    assert window.session.chosen == (SEAT.id,)
    assert window.body is not None
    e0, n0, e1, n1 = window.body.ground.in_view()
    assert e0 < 40.0 < e1
    assert n0 < 30.0 < n1
    assert e1 - e0 < 100.0


def test_arrow_keys_and_clicks_go_from_month_to_month(shown: Any, qtbot: QtBot) -> None:
    strip = shown.strip
    for _ in range(3):
        qtbot.keyClick(strip, Qt.Key.Key_Right)
    assert groups(shown) == [("Due: works (1)", ["Prune"])]
    assert "is chosen" in strip.accessibleDescription()
    qtbot.keyClick(strip, Qt.Key.Key_Home)
    assert groups(shown)[0][0].startswith("Overdue")
    broad = strip.width() / 12
    qtbot.mouseClick(strip, Qt.MouseButton.LeftButton, pos=QPoint(round(broad * 3.5), 20))
    assert groups(shown) == [("Due: works (1)", ["Prune"])]
    qtbot.keyClick(strip, Qt.Key.Key_End)
    assert groups(shown) == []
    assert not shown.tree.isVisible()


def test_the_strip_tells_every_month_to_whoever_cannot_see_it(shown: Any) -> None:
    told = shown.strip.accessibleDescription()
    assert "1 overdue, 1 due;" in told
    assert told.count(";") == 11


def test_an_edit_changes_what_is_due(shown: Any, window: PlanWindow, qtbot: QtBot) -> None:
    window.session.apply(Add((work("Sweep", "2020-01-06"),)))
    qtbot.waitUntil(lambda: groups(shown)[0][0] == "Overdue: works (2)")


def test_the_calendar_is_written_where_the_user_says(
    shown: Any, script: Script, tmp_path: Path, qtbot: QtBot
) -> None:
    out = tmp_path / "due.ics"
    script.files.append(out)
    shown.write.click()
    qtbot.waitUntil(out.exists, timeout=20_000)
    assert len(Calendar.from_ical(out.read_bytes()).walk("VEVENT")) == 4


def test_the_month_is_printed_where_the_user_says(
    shown: Any, script: Script, tmp_path: Path, qtbot: QtBot
) -> None:
    out = tmp_path / "month.pdf"
    script.files.append(out)
    shown.print.click()
    qtbot.waitUntil(out.exists, timeout=20_000)
    assert out.read_bytes().startswith(b"%PDF-")


def test_what_has_no_place_of_its_own_is_looked_for_where_it_refers_to() -> None:
    seat_work = work("Mend", "", target=SEAT.id)
    bare = new_item(request.KIND)
    plan = plan_of([SEAT, seat_work, bare])
    assert box_to_show(plan, seat_work.id) == box_to_show(plan, SEAT.id) == (34, 24, 46, 36)
    assert box_to_show(plan, bare.id) is None
    assert box_to_show(plan_of([]), SEAT.id) is None
