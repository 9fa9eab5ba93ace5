"""The card: where a thing lies as numbers, and one field over things of several kinds."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit
from shapely import LineString, box
from strategies import kind_of, plain

from plan_editor.commands.entries import entries_of, shared_entries
from plan_editor.desktop.card.card import Card
from plan_editor.desktop.card.field_row import FieldRow
from plan_editor.desktop.window import PlanWindow
from plan_editor.edits.basic import Add, SetStatus
from plan_editor.geometry.outlines import Rectangle
from plan_editor.plan.item import Status

GRAVE = plain(kind_of("grave"), 1).on(Rectangle(east=10.0, north=20.0, width=1.2, length=2.7))
FENCE = plain(kind_of("fence"), 2).at(LineString([(0, 0), (10, 0)]))
LAWN = plain(kind_of("grass"), 3).at(box(0, 0, 5, 5))
LIES = plain(kind_of("burial"), 4)


@pytest.fixture
def card(window: PlanWindow) -> Card:
    window.session.apply(Add((GRAVE, FENCE, LAWN, LIES)))
    assert window.body is not None
    return window.body.side.card


def typed(row: FieldRow, words: str) -> None:
    editor = row.editor
    assert isinstance(editor, QLineEdit)
    editor.setFocus()
    editor.selectAll()
    QTest.keyClicks(editor, words)
    QTest.keyClick(editor, Qt.Key.Key_Return)


def test_a_size_that_is_typed_is_one_edit_and_a_wrong_one_is_told_in_the_row(
    window: PlanWindow, card: Card
) -> None:
    window.session.choose((GRAVE.id,))
    assert not card.place_fold.is_open
    card.place_fold.title.click()
    assert card.place_fold.is_open
    assert card.place.rows["east"].text == "553010.000"
    typed(card.place.rows["length"], "9'")
    rectangle = window.session.document.plan.items[GRAVE.id].rectangle
    assert rectangle is not None
    assert rectangle.length == pytest.approx(2.7432)
    assert window.session.document.undo_title == "Reshape a grave"
    typed(card.place.rows["length"], "long")
    assert "“long” is not a length" in card.place.rows["length"].sentence
    typed(card.place.rows["length"], "2.5")
    assert card.place.rows["length"].sentence == ""


def test_a_rectangle_can_be_held_by_its_middle(window: PlanWindow, card: Card) -> None:
    window.session.choose((GRAVE.id,))
    card.place.held.setCurrentIndex(1)
    card.place.held.activated.emit(1)
    assert card.place.rows["east"].text == "553011.350"
    typed(card.place.rows["bearing"], "90")
    rectangle = window.session.document.plan.items[GRAVE.id].rectangle
    assert rectangle is not None
    assert rectangle.centre == pytest.approx((11.35, 20.6))


def test_what_stands_typed_is_taken_before_something_else_is_chosen(
    window: PlanWindow, card: Card
) -> None:
    window.session.choose((GRAVE.id,))
    editor = card.place.rows["width"].editor
    assert isinstance(editor, QLineEdit)
    editor.setText("2")
    window.session.choose((FENCE.id,))
    rectangle = window.session.document.plan.items[GRAVE.id].rectangle
    assert rectangle is not None
    assert rectangle.width == 2.0


def test_a_corner_that_is_typed_moves_and_a_wrong_one_is_told(
    window: PlanWindow, card: Card
) -> None:
    window.session.choose((LAWN.id,))
    table = card.place.corners
    assert table.rowCount() == 4
    before = window.session.document.plan.items[LAWN.id].shape
    table.item(0, 1).setText("here")
    assert "Write a coordinate" in card.place.sentence
    assert table.item(0, 1).text() != "here"
    table.item(0, 1).setText("553001.0")  # crosses nothing
    assert card.place.sentence == ""
    after = window.session.document.plan.items[LAWN.id].shape
    assert after != before
    table.item(0, 2).setText("421090")
    assert "cannot lie like that" in card.place.sentence


def test_what_has_no_place_has_no_fold(window: PlanWindow, card: Card) -> None:
    window.session.choose((LIES.id,))
    assert card.place_fold.isHidden()
    window.session.choose((GRAVE.id, FENCE.id))
    assert card.place_fold.isHidden()
    window.session.choose((FENCE.id,))
    assert not card.place_fold.isHidden()
    assert card.place.rows == {}


def test_things_of_several_kinds_share_fields_and_one_edit_changes_all(
    window: PlanWindow, card: Card
) -> None:
    session = window.session
    session.choose((GRAVE.id, FENCE.id, LAWN.id))
    assert "They share these fields" in card._told.text()
    assert "changed in all 3" in card._told.text()
    session.choose((GRAVE.id, FENCE.id))
    assert "changed in both" in card._told.text()
    session.choose((GRAVE.id, FENCE.id, LAWN.id))
    assert {"status", "remarks", "method", "source"} <= set(card.rows)
    assert "height_m" not in card.rows
    typed(card.rows["source"], "Book 2")
    assert session.document.undo_title == "Record how 3 things came on the plan"
    for item in (GRAVE, FENCE, LAWN):
        assert session.document.plan.items[item.id].basis.source == "Book 2"
    session.document.undo()
    assert window.session.document.plan.items[FENCE.id].basis.source == ""
    session.apply(SetStatus(ids=(FENCE.id,), status=Status.PROPOSED))
    status = card.rows["status"].editor
    assert isinstance(status, QComboBox)
    assert status.placeholderText() == "various"


def test_only_what_is_the_same_sort_of_field_is_shared() -> None:
    grave, fence = kind_of("grave"), kind_of("fence")
    names = [e.detail.name for e in shared_entries((grave, fence))]
    assert names == [n for n in (e.detail.name for e in entries_of(grave)) if n in names]
    # both have a sort, but not of the same sorts
    assert "sort" not in {e.detail.name for e in shared_entries((fence, kind_of("bench")))}
    assert shared_entries((grave,)) == entries_of(grave)
