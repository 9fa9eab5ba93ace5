"""The burial register as a table for other programs; read again it is the same."""

from typing import Any

from plan_editor.edits.corrections import reading, register_entries
from plan_editor.edits.written_entries import LIES_IN
from plan_editor.exchange.register_cells import with_apostrophe
from plan_editor.exchange.register_columns import COLUMNS, NAME
from plan_editor.exchange.tables_out import TableOut
from plan_editor.plan.item import Item
from plan_editor.plan.plan import Plan

_WRITTEN = tuple(name for name in COLUMNS if name != NAME)


def register_table(plan: Plan) -> TableOut:
    """Return the register as a table, one entry a row, by book and number."""
    return TableOut(
        title="Burial register",
        heads=tuple(COLUMNS[name] for name in _WRITTEN),
        figures=(False,) * len(_WRITTEN),
        rows=tuple(
            tuple(with_apostrophe(_cell(plan, entry, name)) for name in _WRITTEN)
            for entry in register_entries(plan)
        ),
    )


def _cell(plan: Plan, entry: Item[Any], name: str) -> str:
    if name != LIES_IN:
        return reading(plan, entry, name)
    place = plan.items.get(entry.details.grave)
    return "" if place is None else place.number
