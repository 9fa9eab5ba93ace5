"""Forgetting a living person for good, asked again before it is done."""

from PySide6.QtWidgets import QWidget

from plan_editor.commands.before_forgetting import before_forgetting, listed
from plan_editor.commands.forgetting import (
    HELD,
    KEEP,
    QUESTION,
    SAVING,
    STOPPED,
    Begun,
    Forgotten,
    NotForgotten,
    begin,
    finish,
    people,
    put_back,
)
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.parts import Choice, button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.plan.item import ItemId

NOBODY = "No owner's name or address is kept on this plan."
FORGET = "Forget for good"


class ForgetAPerson(QWidget):
    """Owners by name, the button, and what came of it."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self.who = Choice(self)
        self.who.setAccessibleName("Who is to be forgotten")
        self.forget = button(self, "Forget…", self._ask)
        self._none = text(self, NOBODY, "soft")
        self.came_of_it = text(self)
        self.came_of_it.setAccessibleName("What came of it")
        lines = column(self, space=2 * STEP)
        lines.addWidget(text(self, KEEP, "caution"))
        for part in (self._none, self.who, self.forget, self.came_of_it):
            lines.addWidget(part)
        self.came_of_it.hide()
        session = self._session
        self._follow = Follow(
            self, self._refresh, session.document.changed, session.held_changed
        )

    def _refresh(self) -> None:
        found = people(self._session.document.plan)
        before = self.who.currentData()
        self.who.clear()
        for id_, name in found:
            self.who.addItem(name, id_)
        self.who.setCurrentIndex(max(self.who.findData(before), 0) if found else -1)
        self._none.setVisible(not found)
        self.who.setVisible(bool(found))
        self.forget.setVisible(bool(found))
        self.forget.setEnabled(self._session.may_edit and self._session.may_write)

    def _ask(self) -> None:
        chosen, name = self.who.currentData(), self.who.currentText()
        if chosen is None or self._session.file is None:
            return
        self._desk.background.in_thread(
            Work(
                about="somebody to be forgotten",
                title="Looking where the name stands",
                function=before_forgetting,
                arguments=(self._session.file, self._session.document.plan, ItemId(chosen)),
                done=lambda first: self._ask_again(ItemId(chosen), name, first),
                failed=self._desk.say_why,
            )
        )

    def _ask_again(self, person: ItemId, name: str, first: tuple[str, ...]) -> None:
        question = f"Forget {name}? {QUESTION}"
        question += f"\n\n{listed(first)}" if first else ""
        # the first answer is the one that the Enter key gives: it must not be the last word
        if self._desk.ask.which(question, ("Keep", FORGET)) == 1:
            self._begin(person)

    def _begin(self, person: ItemId) -> None:
        file = self._session.file
        assert file is not None  # noqa: S101  # it was looked at before the question
        if self._desk.background.goes_on("saving"):
            self._desk.ask.tell(SAVING)
            return
        self._session.cancel()
        try:
            begun = begin(self._session.document, file, person)
        except PlanEditorError as error:
            self._desk.say_why(error)
            return
        self._session.hold(HELD)
        self._follow.now()
        self._desk.background.in_thread(
            Work(
                about="forgetting",
                title="Clearing history and copies",
                function=finish,
                arguments=(file, begun),
                done=lambda done: self._done(begun, done),
                failed=self._stopped,
                may_stop=False,
            )
        )

    def _done(self, begun: Begun, done: Forgotten | NotForgotten) -> None:
        self._session.hold("")
        if isinstance(done, NotForgotten):
            self._put_back(begun, done.error)
            return
        self._tell(done.told())
        self._session.saved.emit(None)

    def _put_back(self, begun: Begun, why: PlanEditorError) -> None:
        try:
            put_back(self._session.document, begun)
        except PlanEditorError as other:
            self._desk.say_why(other)
        self._follow.now()
        self._desk.say_why(why)

    def _stopped(self, error: PlanEditorError) -> None:
        del error  # it says that nothing was changed, which is so of other work only
        self._session.hold("")
        self._tell(STOPPED)

    def _tell(self, words: str) -> None:
        self.came_of_it.setText(words)
        self.came_of_it.show()
        self._follow.now()


SECTION = Section(
    name="forget_a_person",
    job="safety",
    title="Forget a person",
    order=60,
    help="Takes an owner's name and address out of the plan, its history and its copies.",
    widget=ForgetAPerson,
)
