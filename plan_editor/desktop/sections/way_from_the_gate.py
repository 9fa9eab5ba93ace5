"""The way on foot from the gate to what is chosen: in words, and sketched on the ground."""

from PySide6.QtWidgets import QWidget

from plan_editor.commands.walking import CAUTION, CHOOSE, WayShown, goal, way_shown
from plan_editor.desktop.background import Work
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.parts import column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError


class WayFromTheGate(QWidget):
    """Words of the way; the way itself is sketched over the ground."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self.title = text(self, CHOOSE)
        self.words = text(self, "")
        self._caution = text(self, CAUTION, "soft")
        lines = column(self, space=2 * STEP)
        for part in (self.title, self.words, self._caution):
            lines.addWidget(part)
        self.title.setAccessibleName("To what, and how far")
        self.words.setAccessibleName("The way in words")
        self._follow = Follow(
            self, self._refresh, self._session.document.changed, self._session.chosen_changed
        )
        until_gone(self, lambda: desk.ground.show_sketch(None))

    def _refresh(self) -> None:
        plan = self._session.document.plan
        item = goal(plan, self._session.chosen)
        if item is None:
            self._tell(CHOOSE)
            return
        self._desk.background.in_thread(
            Work(
                about="way from the gate",
                title="",
                function=way_shown,
                arguments=(plan, item),
                done=self._show,
                failed=self._say_why,
            )
        )

    def _show(self, way: WayShown) -> None:
        if way.item != goal(self._session.document.plan, self._session.chosen):
            return  # something else was chosen meanwhile
        self.title.setText(way.title)
        self.words.setText("\n".join(way.lines))
        self.words.show()
        self._desk.ground.show_sketch(way.sketch)

    def _say_why(self, error: PlanEditorError) -> None:
        self._tell(str(error))

    def _tell(self, words: str) -> None:
        self.title.setText(words)
        self.words.hide()
        self._desk.ground.show_sketch(None)


SECTION = Section(
    name="way_from_the_gate",
    job="records",
    title="Way from the gate",
    order=12,
    help="The way on foot to the grave that is chosen, along the paths and over the grass.",
    widget=WayFromTheGate,
)
