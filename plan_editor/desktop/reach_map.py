"""The map of how well pegs can be set out, and where new marks would help, in the panel."""

from PySide6.QtWidgets import QLineEdit, QWidget

from plan_editor.commands.reaching import (
    CAUTION,
    MATTERS,
    NOTHING_HELPS,
    Advice,
    advice,
    checked_words,
    gains,
    own_words,
    place_words,
    quantile_words,
    read_tape,
    shares,
    sketched,
)
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.parts import button, column, emptied, row, text
from plan_editor.desktop.reach_key import ReachKey
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.ground.reach import TAPE_M

SHOW, HIDE = "Show how well pegs can be set out", "Hide the map"


class ReachMap(QWidget):
    """Length of the tape, a button, and then the key, the advice and what it rests on.

    While it is shown it follows the plan: a mark more, and the map is another.
    """

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._plan = desk.session.document
        self._shown = False
        self._made_of: tuple[object, ...] = ()
        self.tape = QLineEdit(f"{TAPE_M:g}", self)
        self.show_or_hide = button(self, SHOW, self._turn)
        self.sentence = text(self, "", "danger")
        self._found = QWidget(self)
        self.key = ReachKey(desk, self._found)
        self._told = text(self._found, "", "soft")
        self._places = QWidget(self._found)
        self._places_column = column(self._places, space=STEP)
        self._basis = text(self._found, "", "soft")
        self._lay_out()
        self._follow = Follow(self, self._follow_plan, self._plan.changed)

    def _lay_out(self) -> None:
        self.tape.setAccessibleName("Length of the tape in metres")
        self.tape.setFixedWidth(16 * STEP)
        self.tape.returnPressed.connect(self._make)
        line = QWidget(self)
        across = row(line)
        across.addWidget(text(line, "With a tape of", "soft"))
        across.addWidget(self.tape)
        across.addWidget(text(line, "m", "soft"), 1)
        inside = column(self._found, space=2 * STEP)
        caution = text(self._found, CAUTION, "caution")
        for part in (self.key, self._told, self._places, caution, self._basis):
            inside.addWidget(part)
        lines = column(self, space=2 * STEP)
        for part in (line, self.show_or_hide, self.sentence, self._found):
            lines.addWidget(part)
        self.sentence.hide()
        self._found.hide()

    def _turn(self) -> None:
        if self._shown:
            self._hide()
        else:
            self._make()

    def _hide(self) -> None:
        self._shown = False
        self._desk.ground.show_sketch(None)
        self._found.hide()
        self.show_or_hide.setText(SHOW)
        self._say("")

    def _follow_plan(self) -> None:
        if self._shown and any(
            now is not then for now, then in zip(self._matters(), self._made_of, strict=True)
        ):
            self._make()

    def _matters(self) -> tuple[object, ...]:
        """Return what the map is made of: a kind is another object once it has changed."""
        return tuple(self._plan.plan.by_kind.get(name) for name in MATTERS)

    def _make(self) -> None:
        self._made_of = self._matters()
        try:
            tape_m = read_tape(self.tape.text())
        except PlanEditorError as error:
            self._failed(error)
            return
        self._desk.background.in_thread(
            Work(
                about="reach of tapes",
                title="Looking where pegs can be set out",
                function=advice,
                arguments=(self._plan.plan, tape_m),
                done=self._done,
                failed=self._failed,
            )
        )

    def _failed(self, error: PlanEditorError) -> None:
        self._hide()
        self._say(str(error))

    def _done(self, found: Advice) -> None:
        self._shown = True
        self._say("")
        fixes = found.today.fixes
        self.key.show_shares(shares(fixes))
        self._told.setText(
            " ".join(filter(None, (quantile_words(fixes), checked_words(fixes))))
        )
        self._show_places(found)
        self._basis.setText("\n".join(found.today.basis()))
        self.show_or_hide.setText(HIDE)
        self._found.show()
        self._desk.ground.show_sketch(sketched(found))

    def _show_places(self, found: Advice) -> None:
        emptied(self._places_column)
        heading = "New marks that would help most" if found.new else NOTHING_HELPS
        kind = "strong" if found.new else "soft"
        self._places_column.addWidget(text(self._places, heading, kind))
        for number, (new, gained) in enumerate(zip(found.new, gains(found), strict=True), 1):
            where = _unbroken(f"{number}. {place_words(found.grid, new)}")
            self._places_column.addWidget(text(self._places, where))
            told = _unbroken(f"{gained}; {own_words(new)}.")
            self._places_column.addWidget(text(self._places, told, "soft"))

    def _say(self, sentence: str) -> None:
        self.sentence.setText(sentence)
        self.sentence.setVisible(bool(sentence))


def _unbroken(words: str) -> str:
    """Return a sentence whose lines do not end between a figure and its sign."""
    for sign in (" %", " mm"):
        words = words.replace(sign, f"\u00a0{sign[1:]}")
    return words.replace("(E ", "(E\u00a0").replace(", N ", ", N\u00a0")
