"""The row of graves in hand: what it is, and what can be done with it as a whole."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from plan_editor.commands.command import Ask
from plan_editor.drafting.row_ends import further
from plan_editor.drafting.row_wish import MOST, new_ones, next_free
from plan_editor.drafting.typed import typed_count
from plan_editor.edits.chosen import called
from plan_editor.edits.numbering import Gaps, renumbered, rule_from
from plan_editor.edits.rows import EvenOut, LayOutRow, NumberAnew, PutInLine, TurnToRow
from plan_editor.errors import CannotUse
from plan_editor.geometry.lengths import as_metres, metres
from plan_editor.geometry.ranks import Axis
from plan_editor.ground.row_habits import numbers_of, prefix_at, spaces_of
from plan_editor.ground.rows import Row, row_of, row_through
from plan_editor.plan.item import Item, ItemId
from plan_editor.plan.plan import Plan
from plan_editor.session import Session

NO_ROW = "No row is in hand. Choose a grave of the row, or several that stand side by side."

FARTHEST_M = 200.0
"""A row is copied no farther than this: more is a slip of the fingers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbering:
    """How a row is to be numbered, as it was typed.

    Args:
        first: the first number.
        step: from one to the next.
        gaps: what becomes of numbers that nothing bears.
        from_end: the first number is that of the row's end.
    """

    first: str
    step: str = "1"
    gaps: Gaps = Gaps.CLOSED
    from_end: bool = False


def row_in_hand(session: Session) -> Row | None:
    """Return the row that is meant: that of the one thing chosen, or those chosen as one."""
    plan = session.document.plan
    items = [plan.items[i] for i in session.chosen if i in plan.items]
    if len(items) == 1:
        return row_of(plan, items[0].id)
    same = len({i.kind for i in items}) == 1 and all(i.rectangle is not None for i in items)
    return row_through(items) if same else None


def told(plan: Plan, row: Row) -> tuple[tuple[str, str], ...]:
    """Return what is to be known of a row, each with what it is called."""
    items = items_of(plan, row)
    numbers = [n for n in numbers_of(plan, row) if n]
    return (
        ("Stand in it", called(items) if len(items) > 1 else "1"),
        *((("Numbers", f"{numbers[0]} to {numbers[-1]}"),) if numbers else ()),
        ("Length", as_metres(row.length_m)),
        ("Pitch, in the median", as_metres(row.pitch_m)),
        ("Bearing", f"{row.bearing_deg % 360.0:.1f}°"),
    )


def items_of(plan: Plan, row: Row) -> tuple[Item[Any], ...]:
    """Return the things of a row in its order."""
    return tuple(plan.items[i] for i in row.ids)


def first_number(plan: Plan, row: Row) -> str:
    """Return what a row's first number may well be: as it is, or as its section has it."""
    numbers = numbers_of(plan, row)
    rule = rule_from(numbers[0])
    prefix = prefix_at(plan, row.start)
    if rule is None:
        return f"{prefix} 1" if prefix else ""
    if prefix and rule.prefix.strip() != prefix:
        return replace(rule, prefix=f"{prefix} ").number(0)
    return numbers[0]


def new_numbers(plan: Plan, row: Row, wish: Numbering) -> tuple[tuple[ItemId, str, str], ...]:
    """Return each thing of a row with its number and the one that it would have.

    Raises:
        CannotUse: no numbers can be made so; the text says why.
    """
    rule = rule_from(wish.first)
    if rule is None:
        raise CannotUse("Type a first number that ends in a count, such as C 1.")
    step = typed_count(wish.step, MOST)
    if step is None:
        raise CannotUse("Type by how much it counts up: a whole number from 1.")
    ids, numbers, spaces = row.ids, numbers_of(plan, row), spaces_of(row)
    if wish.from_end:
        ids, numbers = ids[::-1], numbers[::-1]
        spaces = tuple(spaces[-1] - n for n in spaces[::-1])
    try:
        given = renumbered(replace(rule, step=step), numbers, spaces, wish.gaps)
    except ValueError as fault:
        raise CannotUse(f"The gaps cannot be kept: {fault}. Choose another way.") from fault
    return tuple(zip(ids, numbers, given, strict=True))


def number_anew(session: Session, row: Row, wish: Numbering) -> None:
    """Number a row anew, as one edit.

    Raises:
        PlanEditorError: it cannot be numbered so; nothing was changed.
    """
    plan = session.document.plan
    pairs = tuple((i, new) for i, _, new in new_numbers(plan, row, wish))
    session.apply(NumberAnew(numbers=pairs, called=called(items_of(plan, row))))


def copy_row(session: Session, row: Row, *, aside: str, along: str, first: str) -> None:
    """Lay out a row like another, so far to the right of it and so far along it.

    The new ones are as large, and stand and are turned as those do; nothing else is copied.

    Args:
        session: the open plan.
        row: the row.
        aside: a length as typed, with a minus before it for to the left.
        along: the same, along the row.
        first: the first number, or nothing.

    Raises:
        PlanEditorError: a length cannot be read, or the plan cannot take them.
    """
    plan = session.document.plan
    right, ahead = signed_length(aside), signed_length(along)
    if not right and not ahead:
        raise CannotUse("Type how far from the row its copy is to lie.")
    line = Axis(start=(0.0, 0.0), bearing_deg=row.bearing_deg)
    by = line.at(ahead, right)
    items = items_of(plan, row)
    places = tuple(i.rectangle.moved(*by) for i in items if i.rectangle is not None)
    rule = rule_from(first)
    numbers = rule.numbers(len(places)) if rule is not None else ("",) * len(places)
    session.apply(LayOutRow(new_ones(plan, items[0].kind, places, numbers)))


def carry_on(session: Session, row: Row, *, count: str, at_end: bool) -> None:
    """Lay out further things past an end of a row, at its pitch and numbered on.

    Raises:
        PlanEditorError: the count cannot be read, or the plan cannot take them.
    """
    further_ones = typed_count(count, MOST)
    if further_ones is None:
        raise CannotUse(f"Type how many more: a whole number from 1 to {MOST}.")
    plan = session.document.plan
    session.apply(LayOutRow(further(plan, row, further_ones, at_end=at_end)))


def signed_length(text: str) -> float:
    """Return a length as typed in metres; a minus may stand before it, nothing is none.

    Raises:
        CannotUse: it cannot be read, or is more than anybody means.
    """
    bare = text.strip().replace("\u2212", "-")
    try:
        length = metres(bare.removeprefix("-")) if bare else 0.0
    except ValueError as fault:
        raise CannotUse(str(fault)) from fault
    if length > FARTHEST_M:
        raise CannotUse(f"A row is copied no farther than {FARTHEST_M:g} m.")
    return -length if bare.startswith("-") else length


def first_of_copy(plan: Plan, row: Row) -> str:
    """Return the first number of a row like another: the next free one of its section."""
    kind = plan.items[row.ids[0]].kind
    return next_free(plan, kind, row.start)


def even_out(session: Session, ask: Ask) -> None:
    """Space the row in hand evenly."""
    del ask
    row = _row(session)
    session.apply(EvenOut(ids=row.ids, called=_called(session, row.ids)))


def put_in_line(session: Session, ask: Ask) -> None:
    """Put what is chosen, or the whole row of the one chosen, in line with the row."""
    del ask
    row = _row(session)
    session.apply(PutInLine(ids=row.ids, line=row.axis, called=_called(session, row.ids)))


def turn_to_row(session: Session, ask: Ask) -> None:
    """Turn what is chosen to the bearing of the row, each about the middle of its head."""
    del ask
    row = _row(session)
    chosen = session.chosen if len(session.chosen) > 1 else row.ids
    session.apply(
        TurnToRow(ids=chosen, bearing_deg=row.bearing_deg, called=_called(session, chosen))
    )


def choose_row(session: Session, ask: Ask) -> None:
    """Choose the whole row of the one thing chosen."""
    del ask
    session.choose(_row(session).ids)


def has_row(session: Session) -> bool:
    """Return whether rectangles are chosen that may stand in a row, and may be changed."""
    items = session.document.plan.items
    there = [items[i] for i in session.chosen if i in items]
    return session.may_edit and bool(there) and all(i.rectangle is not None for i in there)


def _row(session: Session) -> Row:
    row = row_in_hand(session)
    if row is None:
        raise CannotUse(NO_ROW)
    return row


def _called(session: Session, ids: Sequence[ItemId]) -> str:
    return called(session.document.plan.items[i] for i in ids)
