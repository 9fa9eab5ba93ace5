"""Inspections in the window: what is due, a failed one in two presses, things made safe."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from scripted import Script
from shapely import Point, box

from plan_editor.commands.today import today
from plan_editor.desktop.sections.stones import Stones
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add
from plan_editor.geometry.outlines import Rectangle
from plan_editor.kinds.inspection import Result
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.kind import kind_named

LEFT = Qt.MouseButton.LeftButton


def thing(name: str, shape: Any, number: str = "", **told: Any) -> Item[Any]:
    kind = kind_named(name)
    assert kind is not None
    return new_item(kind, shape, number=number, details=kind.details(**told))


STONE = thing("memorial", Rectangle(east=0, north=0, width=0.8, length=0.1), "C 14")
YEW = thing("tree", Point(20, 5), "T 1", height_m=12.0)
BENCH = thing("bench", Point(30, 5))


@pytest.fixture
def section(window: PlanWindow) -> Stones:
    window.session.apply(Add((STONE, YEW, BENCH)))
    window.go("safety")
    window.unfold("stones")
    assert window.body is not None
    found = window.body.side.panels["safety"].sections["stones"]
    assert isinstance(found, Stones)
    return found


def rows(section: Stones) -> Sequence[tuple[str, ...]]:
    table = section.stones.table
    return [table._cells(i) for i in table.items]


def inspections(window: PlanWindow) -> list[Any]:
    kind = kind_named("inspection")
    assert kind is not None
    return [i.details for i in window.session.document.plan.of(kind)]


def test_everything_that_ought_to_be_inspected_is_listed_and_can_be_sorted_out_by_kind(
    qtbot: QtBot, section: Stones
) -> None:
    qtbot.waitUntil(lambda: len(rows(section)) == 3)
    assert {r[2] for r in rows(section)} == {"due now"}
    section.kind.setCurrentIndex(section.kind.findData("tree"))
    qtbot.waitUntil(lambda: rows(section) == [("T 1", "never", "due now")])


def test_a_tree_that_failed_today_is_kept_off_after_two_presses(
    qtbot: QtBot, window: PlanWindow, section: Stones
) -> None:
    window.session.choose((YEW.id,))
    qtbot.mouseClick(section.failed, LEFT)
    qtbot.mouseClick(section.form.record, LEFT)
    (told,) = inspections(window)
    assert (told.target, told.result, told.date) == (YEW.id, "immediate action", today())
    assert window.body is not None
    ground = window.body.ground
    qtbot.waitUntil(lambda: len(ground._zones) == 1)
    # as far as it is high, and a metre more
    assert ground._zones[0].distance_m == 13.0
    qtbot.waitUntil(lambda: rows(section)[0] == ("T 1", "immediate", "make safe now"))
    qtbot.mouseClick(section.mowing, LEFT)
    assert window.body.side.panels["sheets"].isVisible()


def test_what_is_unsafe_without_a_rule_is_said(
    qtbot: QtBot, window: PlanWindow, section: Stones
) -> None:
    window.session.choose((BENCH.id,))
    section.failed.click()
    section.form.record.click()
    qtbot.waitUntil(lambda: "no rule says how far to keep off: Bench" in section._source.text())


def test_made_safe_wants_a_person_and_takes_its_cordon_away(
    qtbot: QtBot, window: PlanWindow, section: Stones
) -> None:
    failed = thing(
        "inspection", None, target=STONE.id, date="2025-01-05", result=Result.IMMEDIATE
    )
    fence = thing("cordon", box(-2, -2, 2, 2), target=STONE.id)
    window.session.apply(Add((failed, fence)))
    window.session.choose((STONE.id,))
    assert section.made_safe.isEnabled()
    section.made_safe.click()
    assert section.form.taken_away.isVisibleTo(section.form)
    section.form.taken_away.setChecked(True)
    section.form.record.click()
    assert "by whom" in section.form.foot.sentence
    section.form.rows["inspector"].show_text("A mason")
    section.form.record.click()
    assert window.session.document.undo_title == "Record that memorial C 14 was made safe"
    assert fence.id not in window.session.document.plan.items
    assert not section.made_safe.isEnabled()


def test_made_safe_on_the_day_it_failed_its_zone_ends(
    qtbot: QtBot, window: PlanWindow, section: Stones
) -> None:
    assert window.body is not None
    ground = window.body.ground
    window.session.choose((STONE.id,))
    section.failed.click()
    section.form.record.click()
    qtbot.waitUntil(lambda: len(ground._zones) == 1)
    section.made_safe.click()
    section.form.rows["inspector"].show_text("A mason")
    section.form.record.click()
    qtbot.waitUntil(lambda: not ground._zones)


def test_choosing_another_thing_puts_the_form_away(window: PlanWindow, section: Stones) -> None:
    window.session.choose((STONE.id,))
    section.record.click()
    assert "turf" in section.form._method.text()
    window.session.choose((YEW.id,))
    assert section.form.isHidden()


def test_a_table_of_results_is_shown_before_it_is_taken_in(
    qtbot: QtBot, window: PlanWindow, section: Stones, script: Script, tmp_path: Path
) -> None:
    path = tmp_path / "round.csv"
    path.write_text(
        "number,date,result\nC 14,2025-05-01,sound\nZ 9,2025-05-01,sound\n", "utf-8"
    )
    script.files += [path, path, path]
    script.answers += [1, 0]
    section.read.click()
    qtbot.waitUntil(lambda: len(script.answers) == 1)
    assert not inspections(window)
    section.read.click()
    qtbot.waitUntil(lambda: len(inspections(window)) == 1)
    assert window.session.document.undo_title == "Take in 1 inspection from round.csv"
    section.read.click()
    qtbot.waitUntil(lambda: bool(script.told))
    assert "0 new, 1 known already, 1 not taken" in script.told[-1]
    assert "Line 3 is not taken: there is nothing called “Z 9”" in script.told[-1]
