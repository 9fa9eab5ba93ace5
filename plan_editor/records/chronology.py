"""What the records say happened to one thing, day by day."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from plan_editor.kinds import owner_contact, paper
from plan_editor.plan.checks import pointing_at
from plan_editor.plan.detail import Detail, Value
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import Form
from plan_editor.plan.plan import Plan
from plan_editor.records.papers import is_photograph
from plan_editor.records.told import called


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """Something that a record dates.

    Args:
        date: ISO date, which may stop after the year or the month; empty where none is told.
        what: which record, and which of its dates: ``Inspection``, ``Application: decided``.
        words: what else the record says; nobody living is named unless that was asked for.
        item: the record.
        digest: of the photograph that it is; empty for none.
    """

    date: str
    what: str
    words: str
    item: ItemId
    digest: str = ""


def concerned(plan: Plan, thing: ItemId, *, contacts: bool = False) -> tuple[Item[Any], ...]:
    """Return the thing and the records that point to it, and what points to those records.

    A contact leads no further than to its own papers: what else somebody answers for is
    another matter.

    Args:
        plan: where they are.
        thing: what it is about.
        contacts: whether contacts, and papers that concern somebody living, are wanted.
    """
    found = {thing: plan.items[thing]}
    wanted = {thing}
    while wanted:
        near = {
            item.id: item
            for item, _, target in pointing_at(plan, wanted)
            if item.id not in found
            and (contacts or not _is_private(item))
            and (found[target].kind != owner_contact.KIND or item.kind == paper.KIND)
        }
        found |= near
        wanted = {i for i, item in near.items() if Form.NONE in item.kind.forms}
    return tuple(found.values())


def chronology(plan: Plan, thing: ItemId, *, contacts: bool = False) -> tuple[Event, ...]:
    """Return what happened to a thing, oldest first; what has no date comes last.

    Args:
        plan: where it is.
        thing: of which thing.
        contacts: whether living people may be named.
    """
    items = concerned(plan, thing, contacts=contacts)
    events = [e for item in items for e in _events(plan, item, thing, contacts=contacts)]
    return tuple(sorted(events, key=lambda e: (not e.date, e.date, e.what, e.item)))


def photographs(plan: Plan, thing: ItemId, *, contacts: bool = False) -> tuple[str, ...]:
    """Return the digests of the photographs among the papers of a thing, the oldest first."""
    events = chronology(plan, thing, contacts=contacts)
    return tuple(dict.fromkeys(e.digest for e in events if e.digest))


def _is_private(item: Item[Any]) -> bool:
    return item.kind == owner_contact.KIND or (
        item.kind == paper.KIND and item.details.personal
    )


def _events(plan: Plan, item: Item[Any], thing: ItemId, *, contacts: bool) -> Iterator[Event]:
    told = [d for d in item.kind.entries() if contacts or not d.about.private]
    dates = [d for d in told if _happened(d) and getattr(item.details, d.name)]
    others = [d for d in told if d not in dates]
    words = _words(plan, item, thing, others, contacts=contacts)
    digest = item.details.digest if item.kind == paper.KIND and is_photograph(item) else ""
    for n, d in enumerate(dates):
        first = n == 0
        yield Event(
            date=getattr(item.details, d.name),
            what=item.kind.title if first else f"{item.kind.title}: {d.about.title.lower()}",
            words=words if first else "",
            item=item.id,
            digest=digest if first else "",
        )
    if not dates and (item.id != thing or words):
        yield Event(date="", what=item.kind.title, words=words, item=item.id, digest=digest)


def _happened(detail: Detail) -> bool:
    """Return whether a detail tells the day of something that happened, not of a wish."""
    return detail.value is Value.DATE and not detail.about.planned


def _words(
    plan: Plan, item: Item[Any], thing: ItemId, told: list[Detail], *, contacts: bool
) -> str:
    parts = []
    for d in told:
        value = getattr(item.details, d.name)
        if d.about.made or value in (d.default, thing):
            continue
        parts.append(f"{d.about.title}: {_spelled(plan, d, value, contacts=contacts)}")
    return "; ".join(parts)


def _spelled(plan: Plan, detail: Detail, value: Any, *, contacts: bool) -> str:
    if detail.value is Value.ITEM:
        return called(plan, value, contacts=contacts)
    if detail.value is Value.YES_NO:
        return "yes" if value else "no"
    if detail.value is Value.NUMBERS:
        text = ", ".join(f"{v:g}" for v in value)
    else:
        text = f"{value:g}" if isinstance(value, float) else " ".join(str(value).split())
    return f"{text} {detail.about.unit}".rstrip()
