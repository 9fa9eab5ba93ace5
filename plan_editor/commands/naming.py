"""A thing on the plan by what it is called on the command line: by number, kind or id."""

from collections.abc import Collection, Sequence
from typing import Any

from plan_editor.commands.relations import date_of
from plan_editor.drawing.dates import in_words
from plan_editor.errors import CannotUse
from plan_editor.plan.checks import spoken
from plan_editor.plan.item import Item
from plan_editor.plan.numbers import natural
from plan_editor.plan.plan import Plan

_MOST = 6


def item_named(plan: Plan, text: str, kinds: Collection[str] = ()) -> Item[Any]:
    """Return the thing that is called so: ``C 14``, ``memorial C 14``, or its id.

    Args:
        plan: the plan.
        text: as typed; blanks and capitals do not count.
        kinds: names of the kinds that will do; empty for any. Of several that bear the number,
            the one whose kind stands first is taken. What bears no number itself, such as an
            application, is called by that of its grave too.

    Raises:
        CannotUse: nothing is called so, or several things are; the text names them, and those
            that bear one name with their days and ids.
    """
    found = _called(plan, text, tuple(kinds))
    if len(found) == 1:
        return found[0]
    wanted = " or ".join(k.replace("_", " ") for k in kinds) or "thing"
    if not found:
        raise CannotUse(f"There is no {wanted} “{text}” on the plan. Nothing was done.")
    raise CannotUse(f"“{text}” may be {_told_apart(found)}")


def example_of(plan: Plan, kinds: Collection[str]) -> str:
    """Return how to call one of these kinds, as it is typed; ``""`` where there is none."""
    order = tuple(kinds)
    there = sorted(
        (i for i in plan.items.values() if i.kind.name in kinds),
        key=lambda i: (not i.number, order.index(i.kind.name), natural(i.number)),
    )
    if not there:
        return ""
    one = there[0]
    on = plan.items.get(getattr(one.details, "grave", None) or one.id, one)
    return one.number or on.number or one.id


def _told_apart(found: Sequence[Item[Any]]) -> str:
    shown = found[:_MOST]
    more = f", and {len(found) - _MOST} more" if len(found) > _MOST else ""
    if len({i.called() for i in shown}) == len(shown):
        names = ", ".join(i.called() for i in shown)
        return f"{names}{more}. Nothing was done. Write its kind before its number."
    names = "; ".join(f"{i.called()} {_day(i)}: {i.id}" for i in shown)
    return f"{names}{more}. Nothing was done. Write what stands after the colon instead."


def _day(item: Item[Any]) -> str:
    day = date_of(item)
    return f"of {in_words(day)}" if day else "without a day"


def _called(plan: Plan, text: str, kinds: tuple[str, ...]) -> list[Item[Any]]:
    said = spoken(text)
    there = plan.items.values()
    of_kinds = [i for i in there if not kinds or i.kind.name in kinds]
    by_id = [i for i in of_kinds if i.id == text.strip()]
    numbered = [i for i in of_kinds if i.number and said == spoken(i.number)]
    if not by_id and not numbered:
        called = [i for i in of_kinds if said == spoken(i.called())]
        return called or (_on(plan, said, of_kinds) if kinds else [])
    found = by_id or numbered
    first = min((kinds.index(i.kind.name) for i in found), default=0) if kinds else 0
    return [i for i in found if not kinds or kinds.index(i.kind.name) == first]


def _on(plan: Plan, said: str, of_kinds: Sequence[Item[Any]]) -> list[Item[Any]]:
    """Return the things without a number whose grave is called so."""
    graves = {i.id for i in plan.items.values() if i.number and spoken(i.number) == said}
    return [i for i in of_kinds if not i.number and getattr(i.details, "grave", None) in graves]
