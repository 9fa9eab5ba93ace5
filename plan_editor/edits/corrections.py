"""Entries of the burial register put right: the old reading stays as a correction."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Any

from plan_editor.edits.book_items import derived
from plan_editor.edits.chosen import chosen
from plan_editor.errors import EditRefused
from plan_editor.kinds import burial, correction
from plan_editor.kinds.burial import BurialDetails
from plan_editor.kinds.correction import CorrectionDetails
from plan_editor.plan.change import Change
from plan_editor.plan.item import Item, ItemId, new_id
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan

NUMBER = "number"
NUMBER_TITLE = "No. of the entry"
DETAILS = {d.name: d for d in burial.KIND.entries()}
"""The details of an entry, by name."""

TITLES = {NUMBER: NUMBER_TITLE} | {name: d.about.title for name, d in DETAILS.items()}
"""What each column of the register is called, by its name."""

Pairs = tuple[tuple[str, Any], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """When an entry was put right, by whom, and why."""

    date: str = ""
    by: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectEntry:
    """Put an entry of the register right; what stood there before is kept as a correction.

    Args:
        burial: the entry.
        columns: names of its details, or ``number``, each with the new reading.
        reason: when, by whom and why.
        seed: the ids of the corrections follow from it.
        called: what the title calls the entry.
    """

    burial: ItemId
    columns: Pairs
    reason: Reason = Reason()
    seed: ItemId = field(default_factory=new_id)
    called: str = "an entry"

    @property
    def title(self) -> str:
        """As the undo menu says it."""
        return f"Correct {self.called}"

    def changes(self, plan: Plan) -> tuple[Change, ...]:
        """Return the entry before and after, and a correction for each column that said else.

        Raises:
            EditRefused: it is no entry of the register, has no such column, or says so already.
        """
        entry = entry_of(plan, self.burial)
        if unknown := next((n for n, _ in self.columns if n not in TITLES), None):
            raise EditRefused(f"The register has no column “{unknown}”. Nothing was changed.")
        after = with_columns(entry, self.columns)
        if after == entry:
            raise EditRefused(
                "The entry says so already. Nothing was changed. Write the new reading first."
            )
        return Change(entry, after), *corrections(plan, entry, after, self.reason, self.seed)


def entry_of(plan: Plan, id_: ItemId) -> Item[BurialDetails]:
    """Return an entry of the register.

    Raises:
        EditRefused: it is not on the plan, or is something else.
    """
    (entry,) = chosen(plan, (id_,))
    if not is_entry(entry):
        raise EditRefused(
            f"{entry.called()} is no entry of the burial register. Nothing was changed."
            " Choose the entry."
        )
    return entry


def is_entry(item: Item[Any]) -> bool:
    """Return whether something is an entry of the register."""
    return item.kind == burial.KIND


def register_entries(plan: Plan) -> tuple[Item[BurialDetails], ...]:
    """Return the entries of the register, by book and number."""
    there = plan.of(burial.KIND)
    return tuple(sorted(there, key=lambda i: (i.details.book, not i.number, natural(i.number))))


def with_columns(entry: Item[BurialDetails], columns: Iterable[tuple[str, Any]]) -> Item[Any]:
    """Return an entry with other readings: names of details, or ``number``."""
    new = dict(columns)
    number = new.pop(NUMBER, entry.number)
    return replace(entry, number=number, details=replace(entry.details, **new))


def corrections(
    plan: Plan, before: Item[Any], after: Item[Any], reason: Reason, seed: ItemId
) -> tuple[Change, ...]:
    """Return a correction for each column that said something else before.

    What stood empty and is filled in is no correction; neither are remarks that grew.
    """
    made = []
    for name, title in TITLES.items():
        was, now = reading(plan, before, name), reading(plan, after, name)
        if not was or was == now or now.startswith(f"{was}\n"):
            continue
        details = CorrectionDetails(
            burial=before.id,
            column=title,
            was=was,
            now=now,
            date=reason.date,
            by=reason.by,
            why=reason.why,
        )
        id_ = derived(seed, f"{before.id} {name}")
        made.append(Change(None, Item(id=id_, kind=correction.KIND, details=details)))
    return tuple(made)


def reading(plan: Plan, entry: Item[Any], name: str) -> str:
    """Return what an entry says in a column, as text; "" where it says nothing."""
    if name == NUMBER:
        return entry.number
    return as_text(plan, name, getattr(entry.details, name))


def as_text(plan: Plan, name: str, value: Any) -> str:
    """Return what a value of a column says as text; "" where it says nothing."""
    if value is None or value is burial.BurialSort.UNKNOWN:
        return ""
    if name == "grave":
        return plan.items[value].called() if value in plan.items else ""
    return f"{value:g}" if isinstance(value, float) else str(value)
