"""An entry of the register put right by hand: its columns as text, and the edit."""

from dataclasses import replace
from typing import Any

from plan_editor.commands.forms import read, shown
from plan_editor.commands.today import today
from plan_editor.edits.chosen import called
from plan_editor.edits.corrections import (
    DETAILS,
    NUMBER,
    TITLES,
    CorrectEntry,
    Reason,
    is_entry,
)
from plan_editor.errors import CannotUse
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, ItemId

COLUMNS = tuple(TITLES.items())
"""Name and title of each column of the register."""


def entry_among(document: Document, chosen: tuple[ItemId, ...]) -> Item[Any] | None:
    """Return the one entry of the register that is chosen; None where that is not so."""
    found = [i for c in chosen if (i := document.plan.items.get(c)) is not None]
    return found[0] if len(found) == 1 and is_entry(found[0]) else None


def name_of(entry: Item[Any]) -> str:
    """Return what to call an entry in a sentence: ``burial 214``."""
    return called((entry,))


def reads_now(document: Document, entry: Item[Any], column: str) -> str:
    """Return what an entry says in a column, as forms show it."""
    if column == NUMBER:
        return entry.number
    detail = DETAILS[column]
    return shown(detail, getattr(entry.details, column), document)


def correct(
    document: Document, entry: ItemId, column: str, text: str, reason: Reason
) -> CorrectEntry:
    """Return the edit that puts a column of an entry right, as it was typed; dated today.

    Raises:
        CannotUse: what was typed is no value for that column, or the entry is gone.
    """
    there = document.plan.items.get(entry)
    if there is None:
        raise CannotUse("The entry is no longer on the plan. Nothing was changed.")
    value = (
        " ".join(text.split()) if column == NUMBER else read(DETAILS[column], text, document)
    )
    return CorrectEntry(
        burial=entry,
        columns=((column, value),),
        reason=replace(reason, date=today()),
        called=name_of(there),
    )
