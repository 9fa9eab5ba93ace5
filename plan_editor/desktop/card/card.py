"""The card: fields of the chosen item or items, size, and what refers to it."""

from collections import Counter
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from plan_editor.commands.entries import Entry, shared_entries
from plan_editor.commands.forms import may_refer_to, read, shown
from plan_editor.commands.size import sizes
from plan_editor.desktop.card.field_row import FieldRow
from plan_editor.desktop.card.place import PlaceForm
from plan_editor.desktop.card.related import Related
from plan_editor.desktop.figures import Figures
from plan_editor.desktop.fold import Fold
from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.parts import column, emptied, text
from plan_editor.desktop.theme import STEP
from plan_editor.errors import PlanEditorError
from plan_editor.plan.change import Change
from plan_editor.plan.detail import Value
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Kind
from plan_editor.session import Session

NOTHING = "Nothing chosen"
PLACE_HELP = "Coordinates, size and bearing as numbers; each can be typed over."
WHAT_TO_DO = "Click something on the ground, or find it by number or name above."


class Card(QWidget):
    """The thing in hand. It reads the plan and keeps no copy of it."""

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Card")
        self._session = session
        self._kinds: frozenset[Kind] = frozenset()
        self._about = session.chosen
        self.rows: dict[str, FieldRow] = {}
        self._entries: dict[str, Entry] = {}
        self._form = QWidget(self)
        self._form_column = column(self._form, space=2 * STEP)
        self._title = text(self, "", "heading")
        self._told = text(self, "", "soft")
        self._sizes = Figures("Size", self)
        self._related = Related(session, self)
        self.place_fold = Fold("Place", PLACE_HELP, self)
        self.place = PlaceForm(session, self.place_fold.inside)
        self._lay_out()
        until_gone(
            self,
            session.chosen_changed.connect(self._chosen),
            session.document.changed.connect(self._changed),
        )
        self._show()

    @property
    def items(self) -> tuple[Item[Any], ...]:
        """What the card is about."""
        items = self._session.document.plan.items
        return tuple(items[i] for i in self._about if i in items)

    @property
    def title(self) -> str:
        """What stands at its head."""
        return self._title.text()

    def focus_first(self) -> None:
        """Take the keys to the first field."""
        for row in self.rows.values():
            row.editor.setFocus(Qt.FocusReason.ShortcutFocusReason)
            return

    def take_typed(self) -> str:
        """Take what stands typed in a field; return why it will not do, empty where it does."""
        for row in (*self.rows.values(), *self.place.rows.values()):
            if row.unfinished:
                row.leave()
                if row.sentence:
                    return row.sentence
        return ""

    def _lay_out(self) -> None:
        inside = QWidget(self)
        lines = column(inside, space=2 * STEP, edge=4 * STEP)
        for part in (self._title, self._told, self._sizes, self._related, self._form):
            lines.addWidget(part)
        self.place_fold.hold(self.place)
        self.place_fold.turned.connect(self._turn_place)
        whole = column(self, space=0)
        whole.addWidget(inside)
        whole.addWidget(self.place_fold)
        whole.addStretch(1)

    def _turn_place(self, opened: bool) -> None:  # noqa: FBT001  # a signal of Qt
        self.place_fold.open(opened)

    def _chosen(self, chosen: tuple[ItemId, ...]) -> None:
        there = set(self._about) <= self._session.document.plan.items.keys()
        # what was typed is for what the card was about until now
        if there and (why := self.take_typed()):
            self._session.refused.emit(f"{why} {self.title} is as it was.")
        self._about = chosen
        self._show()

    def _changed(self, changes: tuple[Change, ...]) -> None:
        del changes
        self._show(keep_typed=True)

    def _show(self, *, keep_typed: bool = False) -> None:
        items = self.items
        self._make_form(items)
        self._title.setText(_title(items))
        self._told.setText(_told(items))
        self._told.setVisible(bool(self._told.text()))
        figures = sizes(items[0]) if len(items) == 1 else ()
        self._sizes.show_rows((f.title, f.text) for f in figures)
        self._sizes.setVisible(bool(figures))
        self._fill(items, keep_typed=keep_typed)
        one = items[0] if len(items) == 1 else None
        self._related.show_of(one)
        self.place_fold.setVisible(self.place.show_of(one))

    def _make_form(self, items: tuple[Item[Any], ...]) -> None:
        kinds = tuple(dict.fromkeys(i.kind for i in items))
        if frozenset(kinds) == self._kinds:
            return
        self._kinds = frozenset(kinds)
        self.rows.clear()
        self._entries.clear()
        emptied(self._form_column)
        group = ""
        for entry in shared_entries(kinds) if kinds else ():
            if entry.group != group:
                group = entry.group
                self._form_column.addSpacing(STEP)
                self._form_column.addWidget(text(self._form, group, "strong"))
            self._add(entry)

    def _add(self, entry: Entry) -> None:
        name = entry.detail.name
        offered = self._offering(entry) if entry.detail.value is Value.ITEM else None
        row = FieldRow(entry.detail, self._form, offered)
        row.left.connect(self._take)
        self.rows[name] = row
        self._entries[name] = entry
        self._form_column.addWidget(row)

    def _offering(self, entry: Entry) -> Any:
        document = self._session.document
        return lambda: [i.named() for i in may_refer_to(entry.detail, document)]

    def _fill(self, items: tuple[Item[Any], ...], *, keep_typed: bool) -> None:
        document = self._session.document
        for name, row in self.rows.items():
            if keep_typed and (row.unfinished or row.sentence):
                continue  # what somebody is about to put right is not taken from him
            entry = self._entries[name]
            values = [entry.value(i) for i in items]
            various = any(v != values[0] for v in values)
            row.show_text(
                "" if various else shown(entry.detail, values[0], document), various=various
            )
            row.set_editable(self._session.may_edit and (entry.for_many or len(items) == 1))

    def _take(self, name: str, typed: str) -> None:
        if self.sender() is not self.rows.get(name):
            return  # the field goes, with what it was about
        entry, row = self._entries[name], self.rows[name]
        row.say("")
        try:
            value = read(entry.detail, typed, self._session.document)
            plan = self._session.document.plan
            self._session.apply(entry.give(plan, self._about, value))
        except PlanEditorError as error:
            row.say(str(error))


def _title(items: tuple[Item[Any], ...]) -> str:
    if not items:
        return NOTHING
    if len(items) == 1:
        return items[0].named()
    return f"{len(items)} chosen"


def _told(items: tuple[Item[Any], ...]) -> str:
    if not items:
        return WHAT_TO_DO
    if len(items) == 1:
        return ""
    counted = Counter(i.kind for i in items)
    told = ", ".join(
        f"{n} {(k.title if n == 1 else k.plural).lower()}" for k, n in counted.most_common()
    )
    shared = " They share these fields." if len(counted) > 1 else ""
    every = "both" if len(items) == 2 else f"all {len(items)}"
    return f"{told}.{shared} What is filled in here is changed in {every}."
