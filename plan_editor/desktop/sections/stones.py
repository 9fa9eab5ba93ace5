"""Things by their latest inspection, an inspection to be recorded, and ground to keep off."""

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QWidget

from plan_editor.commands.inspections_in import ReadyInspections, ready_inspections
from plan_editor.commands.safety import (
    CAUTION,
    FAILED,
    MADE_SAFE,
    InspectedLine,
    due_told,
    inspected_lines,
    is_unsafe,
    kinds_of,
    may_be_inspected,
    states_counted,
    without_zone,
    zones_of,
)
from plan_editor.commands.size import area, thousands
from plan_editor.commands.today import today
from plan_editor.desktop.background import Work
from plan_editor.desktop.card.inspection_form import InspectionForm
from plan_editor.desktop.chosen_row import ChosenRow
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.follow import Follow
from plan_editor.desktop.item_table import ItemTable
from plan_editor.desktop.parts import Choice, button, column, side_by_side, text
from plan_editor.desktop.section import Section
from plan_editor.desktop.theme import STEP
from plan_editor.ground.clearance import Zone
from plan_editor.ground.rules import Purpose

EMPTY = "Nothing that is inspected is drawn yet. Turn to Trace and draw the first stone."
CHOOSE = "Choose a stone, tree or wall in the list or on the ground to record an inspection."
EVERYTHING = "Everything inspected"
TABLE = "A table of results of inspections"
NO_ZONE = "Unsafe, and no rule says how far to keep off: {}. Fence it off as you see fit."
FOR_WHOM = {Purpose.PEOPLE: "Keep people off", Purpose.MACHINE: "Keep machines off"}
LIST_HEIGHT = 48 * STEP
MOST_ZONES = 6
MOST_STONES = 4


class Stones(QWidget):
    """Things by their state and what is due, a form for an inspection, zones, areas."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._session = desk.session
        self._offered: tuple[tuple[str, str], ...] = ()
        self._counts = Figures("Things by their latest inspection", self)
        self.kind = Choice(self)
        self._due = text(self, "", "strong")
        heads = ("What", "Found", "Look again")
        self.stones = ItemTable("Things inspected", heads, self)
        self.stones.narrow(1, 2)
        self._told = text(self, "", "soft")
        self.failed = button(self, "Failed today", self._failed)
        self.made_safe = button(self, "Made safe today", self._make_safe)
        self.record = button(self, "Record an inspection", self._begin)
        self.read = button(self, "Take in a table of results…", self._read)
        self.form = InspectionForm(self._session, self)
        self._whom = Choice(self)
        self._zones = Figures("Ground to keep off", self)
        self._source = text(self, "", "soft")
        self.mowing = button(self, "Show the mowing map", self._show_mowing)
        self._lay_out()
        self._whom.currentIndexChanged.connect(self._turn)
        self.kind.currentIndexChanged.connect(self._turn)
        self._row = ChosenRow(self.stones, self._session, self._say)
        self.form.closed.connect(self._end)
        self._follow = Follow(self, self._refresh, self._session.document.changed)

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
        self.kind.setAccessibleName("Things inspected: of which kind")
        quick = side_by_side(self, self.failed, self.made_safe)
        list_parts = (self._counts, self.kind, self._due, self.stones)
        # what is pressed stands above what is read: nobody has to scroll for it
        for part in (self._told, quick, self.record, self.form, *list_parts, self.read):
            lines.addWidget(part)
        self.stones.setFixedHeight(LIST_HEIGHT)
        lines.addSpacing(STEP)
        zone_parts = (self._whom, self._zones, self._source, self.mowing)
        for zone_part in zone_parts:
            lines.addWidget(zone_part)
        self._but_the_form = (*list_parts, quick, self.record, self.read, *zone_parts)
        self.form.hide()

    def _turn(self, index: int) -> None:
        del index
        self._follow.now()

    def _refresh(self) -> None:
        plan = self._session.document.plan
        lines = inspected_lines(plan)
        self._offer_kinds(lines)
        wanted = self.kind.currentData()
        self._show_stones(tuple(s for s in lines if not wanted or s.kind == wanted))
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

    def _offer_kinds(self, lines: tuple[InspectedLine, ...]) -> None:
        offered = (("", EVERYTHING), *kinds_of(lines))
        if offered == self._offered:
            return
        self._offered, chosen = offered, self.kind.currentData() or ""
        with QSignalBlocker(self.kind):
            self.kind.clear()
            for name, words in offered:
                self.kind.addItem(words, name)
            self.kind.setCurrentIndex(max(self.kind.findData(chosen), 0))

    def _show_stones(self, lines: tuple[InspectedLine, ...]) -> None:
        self._counts.show_rows((s.capitalize(), thousands(n)) for s, n in states_counted(lines))
        self._due.setText(due_told(lines))
        cells = {s.item: (s.number, s.short, s.due) for s in lines}
        self._row.show_items(tuple(cells), cells.__getitem__)
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
        bare = without_zone(self._session.document.plan, today())
        also = [NO_ZONE.format(", ".join(bare[:MOST_ZONES]))] if bare else []
        self._source.setText("\n".join((_words(found), *also)))

    def _say(self) -> None:
        chosen = self._row.item
        ready = chosen is not None and may_be_inspected(self._session.document, chosen)
        may = ready and self._session.may_edit
        for press in (self.record, self.failed):
            press.setEnabled(may)
        self.read.setEnabled(self._session.may_edit)
        plan = self._session.document.plan
        self.made_safe.setEnabled(may and chosen is not None and is_unsafe(plan, chosen))
        self._told.setText(CHOOSE if self.stones.table.items else EMPTY)
        self._told.setVisible(not ready)
        if not self.form.isHidden() and (not ready or self.form.stone != chosen):
            self._put_away()
        for part in self._but_the_form:
            part.setVisible(self.form.isHidden())

    def _begin(self) -> None:
        self._open_form("")

    def _failed(self) -> None:
        self._open_form(FAILED)

    def _make_safe(self) -> None:
        self._open_form(MADE_SAFE)

    def _open_form(self, result: str) -> None:
        if (stone := self._row.item) is not None:
            self.form.begin(stone, today(), result)
            self._say()
            self._desk.roomy.emit(True)  # the card gives way

    def _read(self) -> None:
        path = self._desk.ask.file_to_open(TABLE, (".csv", ".xlsx", ".txt"))
        if path is None:
            return
        self._desk.background.in_thread(
            Work(
                about="results",
                title="Reading the table",
                function=ready_inspections,
                arguments=(self._session.document.plan, path),
                done=self._offer,
                failed=self._desk.say_why,
            )
        )

    def _offer(self, found: ReadyInspections) -> None:
        told = "\n".join((found.told, *found.worth_a_look))
        if found.edit is None:
            self._desk.ask.tell(told)
        elif self._desk.ask.which(told, (f"Take in {len(found.new):,}", "Leave it")) == 0:
            self._session.try_apply(found.edit)

    def _show_mowing(self) -> None:
        self._desk.ask.print_sheet("mowing")

    def _end(self) -> None:
        self._put_away()
        self._say()

    def _put_away(self) -> None:
        self.form.hide()
        self._desk.roomy.emit(False)  # the card has its room again


def _stones(zone: Zone) -> str:
    called = [k.item.number or k.item.called() for k in zone.kept_from]
    more = f" and {len(called) - MOST_STONES} more" if len(called) > MOST_STONES else ""
    return "round " + ", ".join(called[:MOST_STONES]) + more


def _words(found: tuple[Zone, ...]) -> str:
    if not found:
        return "Nothing with a zone of its own is unsafe today, so no ground is kept clear."
    rules = {z.rule.name: z.rule for z in found}.values()
    return "\n".join(f"{r.title}. {r.source}" for r in rules)


SECTION = Section(
    name="stones",
    job="safety",
    title="Inspections",
    order=10,
    help="Things by their latest inspection, what is due, and the ground to keep off.",
    widget=Stones,
)
