"""Offers and blanks of the tool in hand, above the ground: by button and by key."""

from dataclasses import dataclass, replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QToolButton
from pytestqt.qtbot import QtBot

from plan_editor.desktop.folding_row import FoldingRow
from plan_editor.desktop.window import PlanWindow
from plan_editor.drafting.tool import (
    Act,
    Answer,
    Blank,
    Offer,
    Pointer,
    Setting,
    ToolButton,
)
from plan_editor.plan.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """A tool that notes what it is told."""

    told: tuple[Pointer, ...] = ()
    origin: tuple[float, float] | None = (0.0, 0.0)

    def take(self, pointer: Pointer, plan: Plan) -> Answer:
        """Note all but the way."""
        del plan
        if pointer.act is Act.MOVE:
            return replace(self.answer(), figures=("straight",) if pointer.straight else ())
        return replace(self, told=(*self.told, pointer)).answer()

    def answer(self) -> Answer:
        """Return offers of three sorts and two blanks."""
        return Answer(
            tool=self,
            prompt="Go on",
            origin=self.origin,
            offers=(
                Offer(name="arc", title="Arc", key="A"),
                Offer(name="seven", title="Seven", key="7"),
                Offer(name="never", title="Never", key="N", possible=False),
                Offer(name="square", title="Square", on=True),
            ),
            blanks=(
                Blank(name="mark", title="Mark", text="M1"),
                Blank(name="tape", title="Tape", example="4.57"),
                Blank(name="side", title="Side", text="left", choices=("left", "right")),
            ),
        )


def _in_hand(window: PlanWindow, tool: Heard) -> None:
    def start(setting: Setting) -> Answer:
        del setting
        return tool.answer()

    window.show()
    window.session.take_up(ToolButton(name="heard", title="Heard", icon="line", start=start))


def _told(window: PlanWindow) -> tuple[Pointer, ...]:
    tool = window.session.answer.tool
    assert isinstance(tool, Heard)
    return tool.told


@pytest.fixture
def ways(window: PlanWindow):
    _in_hand(window, Heard())
    assert window.body is not None
    return window.body.ground.ways


def test_a_button_takes_up_an_offer_and_the_keys_go_back_to_the_ground(
    qtbot: QtBot, window: PlanWindow, ways
) -> None:
    qtbot.mouseClick(ways.offers.buttons["arc"], Qt.MouseButton.LeftButton)
    (told,) = _told(window)
    assert (told.act, told.offer) == (Act.TAKE, "arc")
    assert window.body.ground.canvas.hasFocus()
    assert ways.offers.buttons["square"].isChecked()
    assert not ways.offers.buttons["arc"].isChecked()
    assert not ways.offers.buttons["never"].isEnabled()


def test_its_letter_goes_before_the_menus_but_digits_begin_a_length(
    qtbot: QtBot, window: PlanWindow, ways
) -> None:
    canvas = window.body.ground.canvas
    canvas.setFocus()
    qtbot.keyClick(canvas, Qt.Key.Key_A)
    qtbot.keyClick(canvas, Qt.Key.Key_N)
    assert [p.offer for p in _told(window)] == ["arc"]
    qtbot.keyClick(canvas, Qt.Key.Key_7)
    assert ways.typed.length.text() == "7"


def test_where_no_length_can_be_typed_a_digit_begins_the_first_empty_blank(
    qtbot: QtBot, window: PlanWindow
) -> None:
    _in_hand(window, Heard(origin=None))
    ways = window.body.ground.ways
    qtbot.keyClick(window.body.ground.canvas, Qt.Key.Key_7)
    assert ways.blanks.fields["tape"].text() == "7"
    assert _told(window) == ()


def test_enter_in_a_blank_hands_over_all_of_them(
    qtbot: QtBot, window: PlanWindow, ways
) -> None:
    tape = ways.blanks.fields["tape"]
    tape.setFocus()
    qtbot.keyClicks(tape, "14' 2")
    qtbot.keyClick(tape, Qt.Key.Key_Return)
    (told,) = _told(window)
    assert told.act is Act.FILL
    assert told.filled == (("mark", "M1"), ("tape", "14' 2"), ("side", "left"))
    assert window.body.ground.canvas.hasFocus()
    assert tape.text() == ""


def test_tab_walks_from_the_ground_to_length_bearing_and_the_blanks(
    qtbot: QtBot, window: PlanWindow, ways
) -> None:
    window.body.ground.canvas.setFocus()
    stops = []
    for _ in range(5):
        qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Tab)
        stops.append(window.focusWidget().accessibleName())
    assert stops == [
        "Length to the next point",
        "Bearing to the next point",
        "Mark",
        "Tape",
        "Side",
    ]


def test_the_ground_does_not_jump_when_offers_and_blanks_come_and_go(
    qtbot: QtBot, window: PlanWindow, ways
) -> None:
    canvas = window.body.ground.canvas
    qtbot.wait(1)
    with_offers = canvas.mapTo(window, QPoint(0, 0))
    window.session.put_down()
    qtbot.wait(1)
    assert ways.offers.buttons == {}
    assert ways.blanks.fields == {}
    assert canvas.mapTo(window, QPoint(0, 0)) == with_offers


def test_alt_keeps_to_right_angles_while_it_is_held(
    qtbot: QtBot, window: PlanWindow, ways
) -> None:
    canvas = window.body.ground.canvas
    qtbot.keyPress(canvas, Qt.Key.Key_Alt)
    assert window.session.answer.figures == ("straight",)
    qtbot.keyRelease(canvas, Qt.Key.Key_Alt)
    assert window.session.answer.figures == ()


def test_what_finds_no_room_is_had_from_more(qtbot: QtBot, window: PlanWindow) -> None:
    row = FoldingRow("More tools", window)
    pressed: list[int] = []
    buttons = []
    for number in range(14):
        made = QToolButton(row)
        made.setText(f"Tool number {number}")
        made.setAccessibleName(f"Tool number {number}")
        made.setCheckable(True)
        made.clicked.connect(lambda _, n=number: pressed.append(n))
        buttons.append(made)
    row.show_buttons(buttons)
    window.show()
    row.show()
    row.resize(700, 40)
    assert row.folded
    shown = [b for b in buttons if b not in row.folded]
    wide = sum(b.sizeHint().width() for b in shown) + row.more.sizeHint().width()
    assert wide <= 700
    row.menu.aboutToShow.emit()
    row.menu.actions()[-1].trigger()
    assert pressed == [13]
    assert row.more.text() == "More: Tool number 13"
    row.resize(2000, 40)
    assert not row.folded


def test_in_a_narrow_window_the_row_has_two_lines_with_blanks_and_without(
    qtbot: QtBot, window: PlanWindow, ways
) -> None:
    one_line = ways.height()
    window.resize(1000, 800)
    qtbot.wait(1)
    assert window.width() == 1000
    assert ways.height() > 1.5 * one_line
    parts = [ways.typed, *ways.blanks.pairs, ways.offers]
    assert all(p.x() >= 0 and p.geometry().right() < ways.width() for p in parts)
    assert all(p.geometry().bottom() < ways.height() for p in parts)
    window.session.put_down()
    qtbot.wait(1)
    assert ways.height() > 1.5 * one_line
