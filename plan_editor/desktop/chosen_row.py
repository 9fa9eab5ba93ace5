"""Keep a row of a table and what is chosen on the plan the same."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QObject

from plan_editor.desktop.follow import until_gone
from plan_editor.desktop.item_table import Cells, ItemTable
from plan_editor.plan.item import ItemId
from plan_editor.session import Session


class ChosenRow(QObject):
    """Chooses the item whose row is picked, and marks the row of what is chosen elsewhere.

    ``turned`` is called when something else is chosen, after its row was marked.
    """

    def __init__(
        self, table: ItemTable, session: Session, turned: Callable[[], None] | None = None
    ) -> None:
        super().__init__(table)
        self._table = table
        self._session = session
        self._turned = turned
        table.picked.connect(self._pick)
        until_gone(table, session.chosen_changed.connect(self._turn))

    @property
    def item(self) -> ItemId | None:
        """The one thing that is chosen, in the table or not; None for none or several."""
        chosen = self._session.chosen
        return chosen[0] if len(chosen) == 1 else None

    @property
    def listed(self) -> ItemId | None:
        """The one thing that is chosen, if it has a row."""
        return self.item if self.item in self._table.table.items else None

    def show_items(self, items: Sequence[ItemId], cells: Cells) -> None:
        """Show a row for each item, that of the chosen one marked."""
        self._table.show_items(items, cells, self.item)

    def _pick(self, item: str) -> None:
        self._session.choose((ItemId(item),))

    def _turn(self, chosen: tuple[ItemId, ...]) -> None:
        del chosen
        self._table.mark(self.item)
        if self._turned is not None:
            self._turned()
