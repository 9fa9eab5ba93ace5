"""The grid: in which system the plan lies, what a tape reads on it, where true north is."""

from PySide6.QtWidgets import QWidget

from plan_editor.commands.frame import HEIGHT, grid_told, marks_of
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.frame_form import FrameForm
from plan_editor.desktop.parts import button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP

LEAST = 2
LACKING = (
    "To move the plan to another grid it takes two marks or more whose coordinates are known"
    " there, better four."
)
CAUTION = (
    "What hangs on coordinates, such as pegs set out by GNSS, is no better than the marks that"
    " the plan was moved by. Check by tape before anything is dug."
)


class GridSection(QWidget):
    """The plan's grid in words, and the form by which the plan is moved to another."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = desk.session
        self.system = text(self, "", "strong")
        self.figures = Figures("Where the plan's origin lies", self)
        self.scale = text(self)
        self.north = text(self)
        self.left_out = text(self, HEIGHT, "soft")
        self.lacking = text(self, LACKING, "soft")
        self.ask = button(self, "Move the plan to another grid…", self._begin)
        self.form = FrameForm(desk, self)
        lines = column(self, space=2 * STEP)
        parts: tuple[QWidget, ...] = (self.system, self.figures, self.scale, self.north)
        parts += (self.left_out, self.lacking, self.ask, self.form)
        for part in parts:
            lines.addWidget(part)
        lines.addWidget(text(self, CAUTION, "caution"))
        self.form.closed.connect(self._show)
        self._follow = Follow(self, self._show, self._session.document.changed)

    def _begin(self) -> None:
        self.form.begin()
        self._show()

    def _show(self) -> None:
        plan = self._session.document.plan
        told = grid_told(plan)
        self.system.setText(told.system)
        self.figures.show_rows((("The plan's origin lies at", told.origin),))
        for label, words in ((self.scale, told.scale), (self.north, told.north)):
            label.setText(words)
            label.setVisible(bool(words))
        self.left_out.setVisible(told.scale_factor is not None)
        enough = len(marks_of(plan)) >= LEAST
        idle = self.form.isHidden()
        self.lacking.setVisible(not enough)
        self.ask.setVisible(idle and enough and self._session.may_edit)


SECTION = Section(
    name="grid",
    title="Grid",
    order=90,
    help="The coordinate system that the plan lies in; move the plan to another.",
    widget=GridSection,
)
