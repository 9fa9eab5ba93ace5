"""Stones by their latest inspection, an inspection to be recorded, and ground to keep off."""

from datetime import date

from PySide6.QtWidgets import QWidget

from plan_editor.commands.safety import (
    CAUTION,
    InspectedLine,
    inspected_lines,
    may_be_inspected,
    states_counted,
    zones_of,
)
from plan_editor.commands.size import area, thousands
from plan_editor.desktop.background import Work
from plan_editor.desktop.card.inspection_form import InspectionForm
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import Choice, button, column, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.ground.clearance import Zone
from plan_editor.ground.rules import Purpose
from plan_editor.plan.item import ItemId

EMPTY = "No memorials are drawn yet. Turn to Trace and draw the first stone."
CHOOSE = "Choose a stone in the list or on the ground to record an inspection."
FOR_WHOM = {Purpose.PEOPLE: "Keep people off", Purpose.MACHINE: "Keep machines off"}
LIST_HEIGHT = 48 * STEP
MOST_ZONES = 6
MOST_STONES = 4


class Stones(QWidget):
    """Stones by their state, a form for an inspection, zones with their areas."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._counts = Figures("Stones by their latest inspection", self)
        self.stones = ItemTable("Stones", ("Stone", "Latest inspection", "On"), self)
        self.stones.narrow(0, 2)
        self._told = text(self, "", "soft")
        self.record = button(self, "Record an inspection", self._begin)
        self.form = InspectionForm(self._session, self)
        self._whom = Choice(self)
        self._zones = Figures("Ground to keep off", self)
        self._source = text(self, "", "soft")
        self._lay_out()
        self._whom.currentIndexChanged.connect(self._turn)
        self.stones.picked.connect(self._pick)
        self.form.closed.connect(self._end)
        self._follow = Follow(self, self._refresh, self._session.document.changed)
        until_gone(self, self._session.chosen_changed.connect(self._mark))

    @property
    def purpose(self) -> Purpose:
        """For whom zones are shown."""
        return tuple(FOR_WHOM)[max(self._whom.currentIndex(), 0)]

    def _lay_out(self) -> None:
        self._whom.setAccessibleName("Keep off: for whom")
        for purpose, words in FOR_WHOM.items():
            self._whom.addItem(words, purpose.value)
        lines = column(self, space=2 * STEP)
        lines.addWidget(
            text(self, CAUTION, "caution")
        )  # above all, where no window cuts it off
        for part in (self._counts, self.stones, self._told, self.record, self.form):
            lines.addWidget(part)
        self.stones.setFixedHeight(LIST_HEIGHT)
        lines.addSpacing(STEP)
        for zone_part in (self._whom, self._zones, self._source):
            lines.addWidget(zone_part)
        self._but_the_form = (self._counts, self.stones, self.record, self._whom, self._zones)
        self.form.hide()

    def _turn(self, index: int) -> None:
        del index
        self._follow.now()

    def _refresh(self) -> None:
        plan = self._session.document.plan
        lines = inspected_lines(plan)
        self._show_stones(lines)
        self._desk.background.in_thread(
            Work(
                about="zones",
                title="",
                function=zones_of,
                arguments=(plan, self.purpose),
                done=self._show_zones,
                failed=self._desk.say_why,
            )
        )

    def _show_stones(self, lines: tuple[InspectedLine, ...]) -> None:
        self._counts.show_rows((s.capitalize(), thousands(n)) for s, n in states_counted(lines))
        cells = {s.item: (s.number, s.state, s.date) for s in lines}
        self.stones.show_items(tuple(cells), cells.__getitem__, self._chosen())
        self._say()

    def _show_zones(self, found: tuple[Zone, ...]) -> None:
        rows = [(_stones(z), area(z.area_m2)) for z in found[:MOST_ZONES]]
        if len(found) > MOST_ZONES:
            rest = found[MOST_ZONES:]
            more = f"{len(rest)} more" if len(rest) > 1 else "one more"
            rows.append((f"and {more}", area(sum(z.area_m2 for z in rest))))
        if found:
            rows.append(("together", area(sum(z.area_m2 for z in found))))
        self._zones.show_rows(rows)
        self._desk.ground.show_zones(found)
        self._source.setText(_words(found))

    def _chosen(self) -> ItemId | None:
        chosen = self._session.chosen
        return chosen[0] if len(chosen) == 1 else None

    def _say(self) -> None:
        chosen = self._chosen()
        ready = chosen is not None and may_be_inspected(self._session.document, chosen)
        self.record.setEnabled(ready and self._session.may_edit)
        self._told.setText(CHOOSE if self.stones.table.items else EMPTY)
        self._told.setVisible(not ready)
        if not ready or self.form.stone != chosen:
            self.form.hide()
        for part in self._but_the_form:
            part.setVisible(self.form.isHidden())

    def _mark(self, chosen: tuple[ItemId, ...]) -> None:
        del chosen
        self.stones.mark(self._chosen())
        self._say()

    def _pick(self, item: str) -> None:
        self._session.choose((ItemId(item),))

    def _begin(self) -> None:
        if (stone := self._chosen()) is not None:
            self.form.begin(stone, date.today().isoformat())  # noqa: DTZ011  # the day where the stone stands
            self._say()

    def _end(self) -> None:
        self.form.hide()
        self._say()


def _stones(zone: Zone) -> str:
    called = [k.item.number or k.item.called() for k in zone.kept_from]
    more = f" and {len(called) - MOST_STONES} more" if len(called) > MOST_STONES else ""
    return "round " + ", ".join(called[:MOST_STONES]) + more


def _words(found: tuple[Zone, ...]) -> str:
    if not found:
        return "No stone is unsafe today, so no ground is kept clear."
    rules = {z.rule.name: z.rule for z in found}.values()
    return "\n".join(f"{r.title}. {r.source}" for r in rules)


SECTION = Section(
    name="stones",
    job="safety",
    title="Stones",
    order=10,
    help="Stones by their latest inspection, and the ground to keep off.",
    widget=Stones,
)
