"""What the edits of rows do to a plan, and what they refuse."""

from itertools import pairwise

import pytest
from shapely import Point

from plan_editor.edits.rows import (
    EvenOut,
    LayOutRow,
    NumberAnew,
    PutInLine,
    StretchRow,
    TurnToRow,
)
from plan_editor.errors import EditRefused
from plan_editor.geometry.outlines import Rectangle
from plan_editor.geometry.ranks import Axis, at_pitch, head_of
from plan_editor.kinds import grave, tree
from plan_editor.plan.document import Document
from plan_editor.plan.item import Item, new_item
from plan_editor.plan.plan import plan_of

NORTH = Axis(start=(0.0, 0.0), bearing_deg=0.0)
YEW = new_item(tree.KIND, Point(50, 50))


def graves(count: int = 4) -> tuple[Item, ...]:
    places = at_pitch(NORTH, (1.2, 2.4), count, 1.5, right=True)
    return tuple(new_item(grave.KIND, p, number=f"A {n}") for n, p in enumerate(places, 1))


def ids(items: tuple[Item, ...]) -> tuple:
    return tuple(i.id for i in items)


def heads(document: Document, items: tuple[Item, ...]) -> list[tuple[float, float]]:
    now = [document.plan.items[i.id].rectangle for i in items]
    return [head_of(r) for r in now if r is not None]


def test_a_row_comes_in_one_step_and_goes_in_one() -> None:
    row = graves()
    document = Document(plan_of([YEW]))
    document.apply(LayOutRow(row))
    assert document.undo_title == "Lay out 4 graves in a row, A 1 to A 4"
    assert document.plan.count(grave.KIND) == 4
    with pytest.raises(EditRefused, match="A 1 is on the plan already"):
        document.apply(LayOutRow(row))
    document.undo()
    assert document.plan.count(grave.KIND) == 0
    assert LayOutRow(row[:1]).title == "Lay out grave A 1 in a row"


def test_a_row_is_stretched_whatever_the_order_in_which_it_was_chosen() -> None:
    row = graves()
    document = Document(plan_of([*row, YEW]))
    chosen = ids((row[2], row[0], row[3], row[1]))
    document.apply(StretchRow(ids=chosen, start=(5.0, 0.0), end=(5.0, 7.2), called="4 graves"))
    assert document.undo_title == "Lay a row of 4 graves to other ends"
    # (7.2 - 1.2) / 3 = 2.0 from head to head
    assert heads(document, row) == [pytest.approx((5.0, 0.6 + 2.0 * n)) for n in range(4)]
    after = document.plan.items[row[1].id]
    assert (after.number, after.details) == (row[1].number, row[1].details)
    document.undo()
    assert [document.plan.items[i.id] for i in row] == list(row)


def test_a_row_is_not_stretched_to_nothing_nor_a_single_grave_at_all() -> None:
    row = graves()
    document = Document(plan_of([*row, YEW]))
    with pytest.raises(EditRefused, match="two ends that lie apart"):
        document.apply(StretchRow(ids=ids(row), start=(1.0, 1.0), end=(1.0, 1.0)))
    with pytest.raises(EditRefused, match="more than one of it is wide"):
        # all have the middle of their head line 0.6 m from one end or the other
        document.apply(StretchRow(ids=ids(row), start=(0.0, 0.0), end=(0.0, 1.1)))
    with pytest.raises(EditRefused, match="two at least"):
        document.apply(EvenOut(ids=ids(row[:1])))
    with pytest.raises(EditRefused, match="Tree is not drawn as a rectangle"):
        document.apply(EvenOut(ids=(*ids(row), YEW.id)))
    assert document.undo_title is None


def test_a_row_is_spaced_evenly() -> None:
    first, second, third, last = graves()
    crowded = second.on(Rectangle(east=0.1, north=1.3, width=1.2, length=2.4))
    document = Document(plan_of([first, crowded, third, last]))
    document.apply(EvenOut(ids=ids((first, second, third, last))))
    found = heads(document, (first, second, third, last))
    gaps = [b[1] - a[1] for a, b in pairwise(found)]
    assert gaps == pytest.approx([1.5, 1.5, 1.5], abs=0.01)


def test_graves_are_put_in_line_and_turned_without_turning_head_to_foot() -> None:
    row = graves()
    stray = row[1].on(Rectangle(east=0.4, north=1.5, width=1.2, length=2.4, bearing_deg=7.0))
    turned = row[2].on(Rectangle(east=0.0, north=4.2, width=1.2, length=2.4, bearing_deg=172.0))
    document = Document(plan_of([row[0], stray, turned, row[3]]))
    both = ids((stray, turned))
    document.apply(PutInLine(ids=both, line=NORTH))
    assert [e for e, _ in heads(document, (stray, turned))] == pytest.approx([0.0, 0.0])
    bearings = [document.plan.items[i].rectangle.bearing_deg for i in both]
    assert bearings == pytest.approx([0.0, 180.0])
    document.undo()
    before = heads(document, (stray, turned))
    document.apply(TurnToRow(ids=both, bearing_deg=0.0))
    assert heads(document, (stray, turned)) == [pytest.approx(h, abs=1e-5) for h in before]
    bearings = [document.plan.items[i].rectangle.bearing_deg for i in both]
    assert bearings == pytest.approx([0.0, 180.0])


def test_numbers_are_exchanged_in_one_step_and_doubled_ones_are_refused() -> None:
    row = graves(3)
    document = Document(plan_of(row))
    swapped = tuple(zip(ids(row), ("A 3", "A 2", "A 1"), strict=True))
    document.apply(NumberAnew(numbers=swapped, called="3 graves"))
    assert [document.plan.items[i.id].number for i in row] == ["A 3", "A 2", "A 1"]
    assert document.undo_title == "Number 3 graves anew, A 3 to A 1"
    with pytest.raises(EditRefused, match="numbered A 2"):
        document.apply(NumberAnew(numbers=((row[0].id, "A 2"),)))
    assert NumberAnew(numbers=()).title == "Number 0 anew"
