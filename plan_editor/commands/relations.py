"""What refers to an item, and what it refers to, as lines of a card."""

from collections.abc import Iterator
from dataclasses import dataclass
from textwrap import shorten
from typing import Any

from plan_editor.commands.forms import capital
from plan_editor.plan.checks import references
from plan_editor.plan.detail import Value
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.kind import kinds
from plan_editor.plan.plan import Plan

LONGEST = 46
"""Letters of a line about an item; its card has the rest."""

Group = tuple[str, tuple["Line", ...]]


@dataclass(frozen=True, slots=True)
class Line:
    """One related item and what is said of it."""

    item: ItemId
    text: str


def lines_of(plan: Plan, item: Item[Any]) -> tuple[Group, ...]:
    """Return groups: the items that refer to one by kind, newest first; those it refers to."""
    by_kind: dict[str, list[Item[Any]]] = {}
    for other in _referring(plan, item):
        by_kind.setdefault(other.kind.plural, []).append(other)
    groups = [(title, _newest_first(items)) for title, items in sorted(by_kind.items())]
    rests_on = tuple(
        Line(target, f"{capital(title)}: {plan.items[target].named()}")
        for title, _, target in references(item)
        if target in plan.items
    )
    return (*groups, *((("Rests on", rests_on),) if rests_on else ()))


def summary(item: Item[Any]) -> str:
    """Return an item in a line: its date and what it says in its first choices and texts."""
    return shorten(
        ", ".join(filter(None, (date_of(item), says(item)))), LONGEST, placeholder="…"
    )


def says(item: Item[Any]) -> str:
    """Return what is recorded of an item in its choices and texts, in a line."""
    said = []
    for detail in item.kind.entries():
        value = getattr(item.details, detail.name)
        if detail.value in (Value.CHOICE, Value.TEXT) and value and not detail.about.private:
            said.append(str(value))
    return ", ".join(said)


def date_of(item: Item[Any]) -> str:
    """Return the first date that is recorded of an item, or empty."""
    dates = (
        str(getattr(item.details, d.name)) for d in item.kind.entries() if d.value is Value.DATE
    )
    return next((d for d in dates if d), "")


def _referring(plan: Plan, item: Item[Any]) -> Iterator[Item[Any]]:
    # only the kinds that may point at it are gone through
    for kind in kinds():
        if any(item.kind.name in d.about.refers_to for d in kind.references()):
            for other in plan.of(kind):
                if any(target == item.id for _, _, target in references(other)):
                    yield other


def _newest_first(items: list[Item[Any]]) -> tuple[Line, ...]:
    # sorted is stable: of one date, what was recorded last comes first
    recorded_last_first = items[::-1]
    ordered = sorted(recorded_last_first, key=date_of, reverse=True)
    drawn_first = (i.named() if i.kind.drawn else summary(i) or i.named() for i in ordered)
    return tuple(Line(i.id, words) for i, words in zip(ordered, drawn_first, strict=True))
