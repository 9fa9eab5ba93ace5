"""Space: what there is of graves and plots, by their state."""

from PySide6.QtWidgets import QWidget

from plan_editor.commands.size import area, thousands
from plan_editor.commands.states import spaces
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.jobs import Job
from plan_editor.desktop.parts import column, text
from plan_editor.desktop.theme import STEP

NOTHING = "No graves are drawn yet. Turn to Trace and draw the first one."
BASIS = (
    "Counted and measured from what is drawn. A space that is drawn as free is apparently free"
    " until the ground has been probed: a plan cannot show unrecorded burials."
)


class SpacePanel(QWidget):
    """Counts and areas of grave spaces by state."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = desk.session
        self._figures = Figures("Grave spaces by state", self)
        self._told = text(self, "", "soft")
        lines = column(self, space=2 * STEP, edge=4 * STEP)
        lines.addWidget(text(self, "Space", "heading"))
        lines.addWidget(self._figures)
        lines.addWidget(self._told)
        lines.addStretch(1)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

    def _refresh(self) -> None:
        rows = [
            (f"{found.kind.plural}, {s.state}", thousands(s.count), area(s.area_m2))
            for found in spaces(self._session.document.plan)
            for s in found.states
        ]
        self._figures.show_rows(rows, ("", "count", "area") if rows else ())
        self._told.setText(BASIS if rows else NOTHING)


JOB = Job(
    name="space",
    title="Space",
    icon="space",
    order=50,
    help="How many grave spaces there are in each state, and what ground they take.",
    panel=SpacePanel,
)
