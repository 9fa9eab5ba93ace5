"""A base plan fitted in the window: by clicks, by keys, with a slip among the points."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from paper import to_ground, to_scan
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot
from scripted import Script

from plan_editor.commands.backdrops import shelf
from plan_editor.desktop.window import PlanWindow
from plan_editor.drawing.sketch import Tone
from plan_editor.edits.basic import Add
from plan_editor.kinds import base_plan, mark, tree
from plan_editor.plan.item import Basis, Item, Method, new_item
from plan_editor.resources import sample
from plan_editor.survey.fits.models import Model

WAIT = 30_000
MARKS = {
    "M1": (30.264, 36.459),
    "M4": (45.198, 32.190),
    "M7": (61.962, 46.194),
    "M9": (2.425, 1.625),
    "M12": (93.400, 4.600),
    "M13": (95.330, 37.800),
    "M14": (3.100, 75.400),
}
SD_M = 0.02
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def section(qtbot: QtBot, window: PlanWindow, script: Script) -> Any:
    """Return the section with the scan of 1962 chosen, and marks on the ground."""
    marks = [
        new_item(mark.KIND, shapely.Point(at), number=name, basis=Basis(sd_m=SD_M))
        for name, at in MARKS.items()
    ]
    window.session.apply(Add(tuple(marks)))
    script.files.append(sample("harrowmere-1962.jpg"))
    window.commands.action("lay").trigger()
    qtbot.waitUntil(lambda: bool(_laid(window)), timeout=WAIT)
    assert window.body is not None
    panel: Any = window.body.side.panels["survey"]
    found = panel.sections["base_plans"]
    qtbot.waitUntil(found.place.isVisible)
    found.place.click()
    qtbot.waitUntil(lambda: not window.background.title, timeout=WAIT)
    return found


def _laid(window: PlanWindow) -> list[Item[base_plan.BasePlanDetails]]:
    return list(window.session.document.plan.of(base_plan.KIND))


def _pixel(name: str, right: float = 0.0) -> tuple[str, str]:
    x, y = (float(n[0]) for n in to_scan(*(np.array([n]) for n in MARKS[name])))
    return f"{x + right:.1f}", f"{y:.1f}"


def _type(qtbot: QtBot, form: Any, first: str, second: str) -> None:
    for field, words in ((form.fields.first, first), (form.fields.second, second)):
        field.clear()
        qtbot.keyClicks(field, words)
    qtbot.keyClick(form.fields.second, Qt.Key.Key_Return)


def _give(qtbot: QtBot, form: Any, name: str, right: float = 0.0) -> None:
    """Type a place on the scan, and choose the mark of that name, by keys alone."""
    _type(qtbot, form, *_pixel(name, right))
    marks = form.fields.marks
    while not marks.currentText().startswith(f"{name} ") and marks.currentText() != name:
        before = marks.currentIndex()
        qtbot.keyClick(marks, Qt.Key.Key_Down)
        assert marks.currentIndex() > before
    qtbot.keyClick(form.fields.second, Qt.Key.Key_Return)


def _settled(qtbot: QtBot, form: Any) -> None:
    qtbot.waitUntil(
        lambda: form.trial.points == form.points and form.done.isEnabled(), timeout=WAIT
    )


def _click(qtbot: QtBot, window: PlanWindow, east: float, north: float, off: int = 0) -> None:
    assert window.body is not None
    canvas = window.body.ground.canvas
    at = canvas.mapFromScene(east, north) + QPoint(off, 0)
    qtbot.mouseMove(canvas.viewport(), at)
    qtbot.mouseClick(canvas.viewport(), LEFT, pos=at)


def test_the_old_plan_is_fitted_by_keys_alone_and_lies_true(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    form = section.form
    for name in MARKS:
        _give(qtbot, form, name)
    _settled(qtbot, form)
    assert [p.control.name for p in form.points] == list(MARKS)
    assert all(p.control.sd == SD_M for p in form.points)
    form.done.click()
    assert form.isHidden()
    (laid,) = _laid(window)
    assert laid.details.control_names.split("\n") == list(MARKS)
    assert laid.details.model is not Model.SIMILARITY  # the paper is stretched
    # where the paper truly belongs, at places that were never shown to the fit
    inside = np.random.default_rng(3).uniform((600, 500), (2300, 1900), (200, 2))
    true = np.column_stack(to_ground(inside[:, 0], inside[:, 1]))
    mapping = laid.details.mapping
    assert mapping is not None
    off = np.hypot(*(mapping.to_ground(inside) - true).T)
    # seven marks cannot follow the cockles of this paper: they reach half a metre
    assert float(np.sqrt((off**2).mean())) < 0.5
    assert window.session.document.undo_title == f"Place a base plan by {len(MARKS)} points"
    window.commands.action("undo").trigger()
    assert _laid(window)[0].shape is None


def test_the_view_follows_the_base_plan_to_where_its_first_fit_lays_it(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    assert window.body is not None
    form, ground = section.form, window.body.ground
    ground.canvas.centerOn(4000.0, 4000.0)
    for name in ("M9", "M13"):
        _give(qtbot, form, name)
    _settled(qtbot, form)
    west, south, east, north = ground.in_view()
    for at in MARKS.values():
        assert west < at[0] < east
        assert south < at[1] < north
    ground.canvas.zoom(1.5)
    seen = ground.in_view()
    _give(qtbot, form, "M14")
    _settled(qtbot, form)
    assert ground.in_view() == seen  # from then on the user looks where he likes


def test_a_click_by_a_mark_takes_its_place_its_name_and_how_well_it_is_known(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    assert window.body is not None
    form, ground = section.form, window.body.ground
    ground.canvas.whole()
    middle = ground.canvas.mapToScene(ground.canvas.viewport().rect().center())
    _click(qtbot, window, middle.x(), middle.y())
    assert form._begun is not None
    east, north = MARKS["M13"]
    _click(qtbot, window, east, north, off=4)
    (point,) = form.points
    assert (point.control.name, point.control.sd) == ("M13", SD_M)
    assert (point.control.east, point.control.north) == pytest.approx(MARKS["M13"])


def test_a_slip_is_named_in_words_and_by_its_arrow_and_left_out_by_one_button(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    assert window.body is not None
    form = section.form
    for name in MARKS:
        _give(qtbot, form, name, right=80.0 if name == "M4" else 0.0)
    _settled(qtbot, form)
    form.verdict.models.setCurrentIndex(1)
    form.verdict.models.activated.emit(1)
    _settled(qtbot, form)
    assert form.trial.fit.model is Model.SIMILARITY
    assert form.verdict._suspicion.text().startswith("Look at M4 again: it is ")
    tones = [line.tone for line in _arrows(window)]
    assert tones.count(Tone.DANGER) == 1
    assert form.verdict.without.text() == "Leave M4 out"
    qtbot.mouseClick(form.verdict.without, LEFT)
    _settled(qtbot, form)
    assert [p.used for p in form.points] == [n != "M4" for n in MARKS]
    assert not form.verdict.without.isVisible()
    assert len(_arrows(window)) == len(MARKS) - 1
    assert form.trial.fit.rmse < 0.6
    assert "times too long" in form.verdict._arrows.text()


def test_the_chosen_row_is_the_chosen_arrow_and_keys_leave_out_and_remove_it(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    assert window.body is not None
    form = section.form
    for name in ("M1", "M9", "M12", "M14"):
        _give(qtbot, form, name)
    _settled(qtbot, form)
    form.table.selectRow(2)
    assert [line.tone for line in _arrows(window)].index(Tone.GOOD) == 2
    # and the other way: a click by its sign on the ground chooses the row
    qtbot.waitUntil(lambda: not window.background.title, timeout=WAIT)
    _click(qtbot, window, *MARKS["M14"])
    assert form.table.chosen == 3
    assert form._begun is None
    qtbot.keyClick(form.table, Qt.Key.Key_Space)
    _settled(qtbot, form)
    assert [p.used for p in form.points] == [True, True, True, False]
    qtbot.keyClick(form.table, Qt.Key.Key_Delete)
    _settled(qtbot, form)
    assert [p.control.name for p in form.points] == ["M1", "M9", "M12"]


def test_what_was_begun_is_there_again_and_so_are_the_points_of_what_was_placed(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    form = section.form
    for name in ("M1", "M9", "M12"):
        _give(qtbot, form, name)
    form.cancel.click()
    assert form.isHidden()
    assert _laid(window)[0].shape is None
    section.place.click()
    assert len(form.points) == 3
    _settled(qtbot, form)
    form.done.click()
    qtbot.waitUntil(lambda: section.place.text().startswith("Place it again"))
    window.go("trace")
    window.go("survey")
    form._drafts._kept.clear()  # as in a window that has just been opened
    section.place.click()
    assert [p.control.name for p in form.points] == ["M1", "M9", "M12"]


def test_whether_what_was_traced_goes_along_is_asked_in_words(
    qtbot: QtBot, window: PlanWindow, section: Any, script: Script
) -> None:
    form = section.form
    for name in ("M1", "M9", "M12"):
        _give(qtbot, form, name)
    _settled(qtbot, form)
    form.done.click()
    (laid,) = _laid(window)
    yew = new_item(
        tree.KIND, shapely.Point(50, 20), basis=Basis(method=Method.TRACED, base_plan=laid.id)
    )
    window.session.apply(Add((yew,)))
    window.session.choose((laid.id,))
    for answer, moves in ((None, False), (1, False), (0, True)):
        before = window.session.document.plan.items[yew.id].shape
        qtbot.waitUntil(section.place.isVisible)
        section.place.click()
        _give(qtbot, form, {None: "M7", 1: "M14", 0: "M13"}[answer])
        _settled(qtbot, form)
        script.answers.append(answer)
        form.done.click()
        assert script.asked[-1].startswith("1 thing was traced on “harrowmere-1962”.")
        assert form.isVisible() is (answer is None)
        after = window.session.document.plan.items[yew.id].shape
        assert (before != after) is moves
        form.leave()
    window.commands.action("undo").trigger()
    assert window.session.document.plan.items[yew.id].shape == before


def test_points_come_from_a_file_and_replace_those_of_the_same_name(
    qtbot: QtBot, window: PlanWindow, section: Any, script: Script, tmp_path: Path
) -> None:
    form = section.form
    _give(qtbot, form, "M1", right=300.0)
    table = tmp_path / "marks.csv"
    rows = (
        f"{name},{','.join(_pixel(name))},{553000 + e:.3f},{421000 + n:.3f}"
        for name, (e, n) in MARKS.items()
    )
    table.write_text("\n".join(("mark,px,py,E,N", *rows)))
    script.files.append(table)
    form.file.click()
    qtbot.waitUntil(lambda: len(form.points) == len(MARKS), timeout=WAIT)
    _settled(qtbot, form)
    assert {p.control.name for p in form.points} == set(MARKS)
    assert form.trial.fit.rmse < 0.5
    script.files.append(tmp_path / "none.csv")
    form.file.click()
    qtbot.waitUntil(lambda: "There is no file" in form._sentence.text(), timeout=WAIT)


def test_another_job_gives_the_ground_back(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    assert window.body is not None
    form = section.form
    for name in ("M1", "M9"):
        _give(qtbot, form, name)
    _settled(qtbot, form)
    assert _arrows(window) or _dots(window)
    window.go("trace")
    assert form.isHidden()
    assert not _dots(window)
    assert window.session.button.name == "select"
    assert window.body.ground.canvas._layers.shown


def test_of_fits_that_were_only_tried_no_picture_stays_on_the_disk(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    form = section.form
    for name in ("M1", "M9", "M12", "M14"):
        _give(qtbot, form, name)
        qtbot.waitUntil(lambda: not window.background.title, timeout=WAIT)
    (trial,) = shelf().glob(".making-*")
    assert len(list(trial.iterdir())) == 1  # the last alone is on the screen
    form.leave()
    qtbot.waitUntil(lambda: not list(shelf().glob(".making-*")), timeout=WAIT)


def test_numbers_that_are_none_are_said_and_change_nothing(
    qtbot: QtBot, window: PlanWindow, section: Any
) -> None:
    form = section.form
    _type(qtbot, form, "a hundred", "20")
    assert form._sentence.text().startswith("The pixels right is not a number")
    assert form._begun is None
    _give(qtbot, form, "M1")
    _give(qtbot, form, "M9")
    _settled(qtbot, form)
    form._know(0, "900")
    assert "from 0.001 to 100" in form._sentence.text()
    assert form.points[0].control.sd == SD_M
    form.table.rows.setData(form.table.rows.index(0, 3), "0.05")
    form.table.rows.setData(form.table.rows.index(1, 0), "SW corner")
    assert form.points[0].control.sd == 0.05
    assert form.points[1].control.name == "SW corner"


def _arrows(window: PlanWindow) -> list[Any]:
    assert window.body is not None
    return [line for _, line in window.body.ground.canvas._layers._sketch._lines]


def _dots(window: PlanWindow) -> tuple[Any, ...]:
    assert window.body is not None
    return window.body.ground.canvas._layers._sketch._dots
