"""What to draw, and how much of it there is."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QListView, QListWidget, QListWidgetItem, QWidget

from plan_editor.commands.command import Part
from plan_editor.commands.drawing import draw, drawn_kinds, forms_of
from plan_editor.commands.size import area, thousands
from plan_editor.desktop.background import Work
from plan_editor.desktop.canvas.palette import Palette
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.parts import Choice, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.swatch import swatch
from plan_editor.desktop.theme import STEP
from plan_editor.drafting.tool import Answer
from plan_editor.ground.measures import Measure, measures
from plan_editor.plan.kind import Form, Kind

ROW = 28
COLUMNS = 2
DRAWN_AS = {
    Form.POINT: "as a point",
    Form.LINE: "as a line",
    Form.AREA: "as an area, corner by corner",
    Form.RECTANGLE: "as a rectangle",
}
WIDE = 144
WORTH_A_LINE_M2 = 0.005


class Drawing(QWidget):
    """Every kind that is drawn by hand, with its picture; what is measured while one draws."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self.kinds = QListWidget(self)
        self.forms = Choice(self)
        self._live = text(self, "", "figure")
        self._figures = Figures("Areas and lengths", self)
        self._empty = text(
            self, "Nothing is drawn yet. Choose what to draw, then click on the ground.", "soft"
        )
        self._dress_list()
        self._lay_out()
        self.forms.activated.connect(self._draw_as)
        self.kinds.itemActivated.connect(self._draw)
        self.kinds.itemClicked.connect(self._draw)
        self._follow = Follow(self, self._refresh, self._session.document.changed)
        until_gone(
            self,
            self._session.answered.connect(self._answered),
            desk.dressed.connect(self._dress),
        )
        self.kinds.setEnabled(self._session.may_edit)
        self.forms.setAccessibleName("Drawn as")
        self.forms.hide()

    def _dress_list(self) -> None:
        self.kinds.setAccessibleName("What to draw")
        self.kinds.setFlow(QListView.Flow.LeftToRight)
        self.kinds.setWrapping(True)
        self.kinds.setResizeMode(QListView.ResizeMode.Adjust)
        self.kinds.setIconSize(QSize(24, 24))
        self.kinds.setUniformItemSizes(True)
        self.kinds.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for kind in drawn_kinds():
            shown = QListWidgetItem(swatch(kind, self._desk.palette), kind.title)
            shown.setData(Qt.ItemDataRole.UserRole, kind.name)
            shown.setToolTip(kind.help)
            shown.setSizeHint(QSize(WIDE, ROW))
            self.kinds.addItem(shown)
        lines = -(-self.kinds.count() // COLUMNS)
        self.kinds.setFixedHeight(lines * ROW + 2 * STEP)

    def _dress(self, palette: Palette) -> None:
        for number, kind in enumerate(drawn_kinds()):
            self.kinds.item(number).setIcon(swatch(kind, palette))

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP)
        lines.addWidget(self.kinds)
        lines.addWidget(self.forms)
        lines.addWidget(self._live)
        lines.addWidget(text(self, "On the plan", "strong"))
        lines.addWidget(self._empty)
        lines.addWidget(self._figures)
        lines.addStretch(1)

    def _draw(self, shown: QListWidgetItem) -> None:
        name = shown.data(Qt.ItemDataRole.UserRole)
        kind = next(k for k in drawn_kinds() if k.name == name)
        self._offer_forms(kind)
        draw(self._session, kind)
        self._desk.ask.reach(Part.GROUND)

    def _offer_forms(self, kind: Kind) -> None:
        self.forms.clear()
        for form in forms_of(kind):
            self.forms.addItem(DRAWN_AS[form], form)
        self.forms.setVisible(self.forms.count() > 1)

    def _draw_as(self, number: int) -> None:
        if (kind := self._session.kind) is not None:
            draw(self._session, kind, forms_of(kind)[number])
            self._desk.ask.reach(Part.GROUND)

    def _answered(self, answer: Answer) -> None:
        self._live.setText("   ".join(answer.figures))
        kind = self._session.kind
        if kind is None:
            self.kinds.setCurrentRow(-1)
            self.forms.hide()
            return
        for shown in self.kinds.findItems(kind.title, Qt.MatchFlag.MatchExactly):
            self.kinds.setCurrentItem(shown)

    def _refresh(self) -> None:
        self._desk.background.in_thread(
            Work(
                about="measures",
                title="",
                function=measures,
                arguments=(self._session.document.plan,),
                done=self._show,
                failed=self._desk.say_why,
            )
        )

    def _show(self, found: tuple[Measure, ...]) -> None:
        rows = [_row(m) for m in found if m.kind.drawn and not m.kind.pinned]
        self._empty.setVisible(not rows)
        self._figures.show_rows(rows, ("", "count", "length", "area") if rows else ())


def _row(found: Measure) -> tuple[str, ...]:
    long = f"{found.length_m:.1f} m" if found.length_m else ""
    wide = area(found.area_m2) if found.area_m2 > WORTH_A_LINE_M2 else ""
    return found.kind.plural, thousands(found.count), long, wide


SECTION = Section(
    name="drawing",
    job="trace",
    title="What to draw",
    order=10,
    help="Every kind of thing that is drawn by hand, and how much of each there is.",
    widget=Drawing,
)
