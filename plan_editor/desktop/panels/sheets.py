"""Sheets: what can be printed, on which paper, at which scale, with a picture of it."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLabel, QLineEdit, QWidget

from plan_editor.commands.churchyards import churchyard_names
from plan_editor.commands.forms import read_date, read_number
from plan_editor.desktop.desk import Desk
from plan_editor.desktop.follow import Follow, until_gone
from plan_editor.desktop.jobs import Job
from plan_editor.desktop.parts import Choice, button, column, text
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.exchange.format import formats
from plan_editor.plan.detail import About
from plan_editor.plan.item import ItemId
from plan_editor.printing.sheet import Asked, Paper, Sheet, sheets

SIDE = 312
"""Of the picture, in logical pixels."""

LARGEST = "largest that fits"
SMALLEST = "smallest that will do"
ALL_CHURCHYARDS = "all of them"
SCALES = ("100", "200", "250", "500", "1000")


class SheetsPanel(QWidget):
    """A sheet to choose, how it is asked for, its picture, and the button that prints it."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self.which = Choice(self)
        self._purpose = text(self, "", "soft")
        self.churchyard = Choice(self)
        self.paper = Choice(self)
        self.scale = Choice(self)
        self.date = QLineEdit(date.today().isoformat(), self)  # noqa: DTZ011  # the user's own day
        self.maker = QLineEdit(self)
        self.under = QCheckBox("Old plans under it, where they may be reproduced", self)
        self.contacts = QCheckBox("With the names of living people", self)
        self._about = text(self, "", "strong")
        self._sentence = text(self, "", "danger")
        self.picture = QLabel(self)
        self._facts = text(self, "", "figure")
        self.print = button(self, "Print to PDF…", self._print, "main")
        self._fill()
        self._lay_out()
        self._listen()

    @property
    def sheet(self) -> Sheet:
        """The sheet that is chosen."""
        return sheets()[max(self.which.currentIndex(), 0)]

    def _fill(self) -> None:
        for sheet in sheets():
            self.which.addItem(sheet.title, sheet.name)
        self.paper.addItem(SMALLEST)
        self.paper.addItems([p.name for p in Paper])
        self.scale.addItem(LARGEST)
        self.scale.addItems([f"1:{s}" for s in SCALES])
        self.scale.setEditable(True)
        self.picture.setAlignment(Qt.AlignmentFlag.AlignCenter)
        for field, name in (
            (self.which, "Sheet"),
            (self.churchyard, "Churchyard"),
            (self.paper, "Paper"),
            (self.scale, "Scale"),
            (self.date, "Date"),
            (self.maker, "Made by"),
            (self.under, "Old plans under it"),
            (self.contacts, "With the names of living people"),
            (self.picture, "Picture of the sheet"),
        ):
            field.setAccessibleName(name)

    def _lay_out(self) -> None:
        lines = column(self, space=2 * STEP, edge=4 * STEP)
        lines.addWidget(text(self, "Sheets", "heading"))
        lines.addWidget(self.which)
        lines.addWidget(self._purpose)
        lines.addWidget(self._about)
        fields = QWidget(self)
        grid = QGridLayout(fields)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(2 * STEP)
        grid.setColumnStretch(1, 1)
        asked = (self.churchyard, self.paper, self.scale, self.date, self.maker)
        self._labels = [text(fields, f.accessibleName(), "soft") for f in asked]
        for line, (label, field) in enumerate(zip(self._labels, asked, strict=True)):
            label.setBuddy(field)
            grid.addWidget(label, line, 0)
            grid.addWidget(field, line, 1)
        for part in (
            fields,
            self.under,
            self.contacts,
            self._sentence,
            self.print,
            self.picture,
            self._facts,
        ):
            lines.addWidget(part)
        for one in formats():
            if one.write is not None:
                made = button(
                    self, f"Write a {one.title[:1].lower()}{one.title[1:]}…", self._write
                )
                made.setProperty("format", one.name)
                lines.addWidget(made)
        lines.addStretch(1)

    def _listen(self) -> None:
        making = self._desk.making
        making.wanted.connect(self._show)
        making.drawn.connect(self._bring)
        making.not_drawn.connect(self._say)
        self._follow = Follow(self, self._refresh, self._desk.session.document.changed)
        self.which.currentIndexChanged.connect(self._turn)
        self.churchyard.currentIndexChanged.connect(self._turn)
        self.paper.currentIndexChanged.connect(self._turn)
        self.scale.currentIndexChanged.connect(self._turn)
        line = self.scale.lineEdit()
        if line is not None:
            line.editingFinished.connect(self._turn)
        self.date.editingFinished.connect(self._turn)
        self.maker.editingFinished.connect(self._turn)
        self.under.toggled.connect(self._turn)
        self.contacts.toggled.connect(self._turn)
        until_gone(self, self._desk.session.chosen_changed.connect(self._chosen))

    def _show(self, name: str) -> None:
        self.which.setCurrentIndex(self.which.findData(name))

    def _turn(self, index: int = 0) -> None:
        del index
        self._follow.now()

    def _chosen(self, chosen: tuple[ItemId, ...]) -> None:
        del chosen
        if self.sheet.about:
            self._follow.now()

    def _refresh(self) -> None:
        item = self._item()
        plan = self._desk.session.document.plan
        self._about.setText(f"Of {plan.items[item].named()}" if item is not None else "")
        self._about.setVisible(item is not None)
        self.contacts.setVisible(bool(self.sheet.about))
        self._purpose.setText(self.sheet.purpose)
        self._offer_churchyards()
        if (asked := self._asked()) is not None:
            self._desk.making.draw_sheet(self.sheet.name, asked, 2 * SIDE)

    def _offer_churchyards(self) -> None:
        """Offer each by itself, and all together; where there is but one, nothing is asked."""
        names = churchyard_names(self._desk.session.document.plan)
        offered = ("", *names) if len(names) > 1 else ("",)
        there = [self.churchyard.itemData(n) for n in range(self.churchyard.count())]
        if list(offered) != there:
            chosen = self.churchyard.currentData()
            blocked = self.churchyard.blockSignals(True)  # Qt's own setter
            self.churchyard.clear()
            for name in offered:
                self.churchyard.addItem(name or ALL_CHURCHYARDS, name)
            self.churchyard.setCurrentIndex(max(0, self.churchyard.findData(chosen)))
            self.churchyard.blockSignals(blocked)
        for part in (self._labels[0], self.churchyard):
            part.setVisible(len(offered) > 1)

    def _asked(self) -> Asked | None:
        try:
            asked = Asked(
                paper=None
                if self.paper.currentIndex() == 0
                else Paper[self.paper.currentText()],
                scale=_scale(self.scale.currentText()),
                date=read_date(self.date.text().strip()),
                maker=self.maker.text().strip(),
                base_plans=self.under.isChecked(),
                churchyard=self.churchyard.currentData() or "",
                item=self._item(),
                contacts=self.contacts.isChecked(),
            )
        except PlanEditorError as error:
            self._say(str(error))
            return None
        self._say("")
        return asked

    def _item(self) -> ItemId | None:
        """Return what the sheet is about: what is chosen, where it will do."""
        plan, chosen = self._desk.session.document.plan, self._desk.session.chosen
        found = [i for i in chosen if i in plan.items]
        if len(found) != 1 or plan.items[found[0]].kind.name not in self.sheet.about:
            return None
        return found[0]

    def _bring(self, picture: bytes, facts: str) -> None:
        pixmap = QPixmap()
        pixmap.loadFromData(picture)
        pixmap.setDevicePixelRatio(2)
        self.picture.setPixmap(pixmap)
        self._facts.setText(facts)
        self._say("")

    def _say(self, sentence: str) -> None:
        self._sentence.setText(sentence)
        self._sentence.setVisible(bool(sentence))
        self.print.setEnabled(not sentence)
        if sentence:
            self.picture.clear()
            self._facts.clear()

    def _print(self) -> None:
        if (asked := self._asked()) is not None:
            self._desk.making.print_sheet(self.sheet.name, asked)

    def _write(self) -> None:
        self._desk.making.write_drawing(self.sender().property("format"))


def _scale(words: str) -> float | None:
    bare = words.strip().removeprefix("1:").replace("\u202f", "")
    if not bare or words == LARGEST:
        return None
    return read_number(bare, About(title="Scale"))


JOB = Job(
    name="sheets",
    title="Sheets",
    icon="sheets",
    order=60,
    help="Print a map or a plan to scale, or write a drawing for a surveyor.",
    panel=SheetsPanel,
    hides=frozenset({"observation"}),
)
